package undersong.render.score;

/**
 * One written note.
 *
 * @param midiPitch 60 = middle C; 0 where a part is only struck
 * @param thrown whether it is sent into the echo on its own
 */
record Written(int midiPitch, double strength, boolean thrown) {}
