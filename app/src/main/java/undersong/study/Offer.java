package undersong.study;

import undersong.reading.Correction;
import undersong.reading.Section;

/**
 * A correction said of one section, offered for another with the same music.
 *
 * @param section where it would hold
 * @param correction to be said if the listener takes it
 * @param change what it would change there
 */
public record Offer(Section section, Correction correction, FacetChange change) {}
