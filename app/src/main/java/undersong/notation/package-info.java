/**
 * A reading as it would be written down: bars, note values, ties, tuplets, spelled pitches, chord
 * symbols. A reading enters, values to be printed or drawn leave; nothing here decides what was
 * heard.
 */
package undersong.notation;
