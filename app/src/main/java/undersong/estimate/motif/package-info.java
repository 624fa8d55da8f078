/**
 * Figures that come back: the notes of every part on the beat grid, chords and keys enter;
 * recurring cells with their transpositions, and how each part moves through each section, come
 * out.
 */
package undersong.estimate.motif;
