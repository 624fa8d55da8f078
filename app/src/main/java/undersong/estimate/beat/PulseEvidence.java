package undersong.estimate.beat;

import undersong.time.BeatGrid;

/**
 * What speaks for one way of tapping a recording.
 *
 * @param strokes log-odds by what sounds on, between and across its beats
 * @param match 0 to 1: how far its beats are those the ear hears; 0 without an ear
 * @param bars 0 to 1: how far the ear hears a bar begin on every beat; 0 without an ear
 * @param harmony -1 to 1: how much more the harmony changes on its beats than half way between
 *     them; 0 without an ear
 * @param sections -1 to 1: how much nearer sections begin to its beats than half way between them;
 *     0 without an ear
 */
public record PulseEvidence(
    BeatGrid beats, double strokes, double match, double bars, double harmony, double sections) {}
