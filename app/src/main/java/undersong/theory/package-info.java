/**
 * Note names, keys, chords, numerals and syllables as the trade writes them. Nothing of ours
 * enters; values and their spellings leave.
 */
package undersong.theory;
