/**
 * Readings in the formats others read: JAMS, MIDI, CSV. Readings enter and leave as text or bytes.
 */
package undersong.exchange;
