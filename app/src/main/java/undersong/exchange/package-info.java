/**
 * A reading in the open formats others can use: JAMS both ways, Standard MIDI File, CSV, chapters.
 * Readings and what is known of the song enter; texts and bytes leave, and from JAMS corrections.
 */
package undersong.exchange;
