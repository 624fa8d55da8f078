package undersong.estimate.repeat;

import undersong.reading.NoteEvent;

/**
 * A note on the beat grid.
 *
 * @param part whose note it is
 * @param startBeat position of its onset, 0 = first beat of the song
 */
record PlacedNote(String part, NoteEvent event, double startBeat, double endBeat) {}
