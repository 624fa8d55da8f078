package undersong.estimate.voice;

import undersong.time.Span;

/**
 * A pitch that begins with a note of the lead and may be sung.
 *
 * @param aboveLead in semitones; negative below
 * @param logOdds that a second voice sings it, by itself
 */
record Candidate(Span span, int midiPitch, int aboveLead, double logOdds) {}
