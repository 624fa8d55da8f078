package undersong.render.score;

import undersong.render.synth.Sound;

/**
 * One player of a score.
 *
 * @param lowest and {@code highest}: MIDI pitches between which chords are voiced
 */
public record Part(String name, Sound sound, PartRole role, int lowest, int highest, Mix mix) {}
