package undersong.study;

import undersong.reading.Provenance;
import undersong.reading.Reading;
import undersong.shelf.StudiedFile;

/**
 * A recording studied apart from any shelf: what {@link Study#keep} puts on one.
 *
 * @param provenance the versions the reading was made with
 */
public record Heard(StudiedFile facts, Reading reading, Provenance provenance) {}
