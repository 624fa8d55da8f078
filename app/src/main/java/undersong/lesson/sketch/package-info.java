/**
 * Short new pieces that use one technique. A technique, a seed and, if wanted, a song not to quote
 * enter; a score with its truth leaves, to be played, printed and checked.
 */
package undersong.lesson.sketch;
