/**
 * Looking for music: what a song holds as lines of chords and notes seen from its key, what is
 * looked for, and where the one occurs in the other. Readings and questions enter, places leave;
 * nothing here keeps songs.
 */
package undersong.search;
