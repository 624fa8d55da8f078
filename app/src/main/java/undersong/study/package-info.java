/**
 * The one path from a file to a reading, and the one door for corrections. Faces call this; it
 * calls everything else.
 */
package undersong.study;
