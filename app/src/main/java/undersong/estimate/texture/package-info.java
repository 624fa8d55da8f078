/**
 * What the sound is made of. Features, bars, form, bass, melody and dynamics enter; texture leaves:
 * layers with entries and exits, the sound of each bar, gestures, ducking.
 */
package undersong.estimate.texture;
