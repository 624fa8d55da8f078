/**
 * The pulse: beat strengths and tempo evidence at 50 frames a second, made from onset features or
 * from what the trained ear heard, and the listener's pins enter; the beats of the whole sounding
 * recording leave, at the metrical level one taps.
 */
package undersong.estimate.beat;
