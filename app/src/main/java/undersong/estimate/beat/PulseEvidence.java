package undersong.estimate.beat;

import undersong.time.BeatGrid;

/**
 * What speaks for one way of tapping a recording.
 *
 * @param strokes log-odds by what sounds on, between and across its beats
 * @param match 0 to 1: how far its beats are those the ear hears; 0 without an ear
 */
public record PulseEvidence(BeatGrid beats, double strokes, double match) {}
