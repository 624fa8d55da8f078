/**
 * Bars: the beats, strokes of drums and accents at and between them, and the listener's pins enter;
 * bars without gaps leave. Harmony does not enter: bars are not decided by the chords they will
 * judge.
 */
package undersong.estimate.meter;
