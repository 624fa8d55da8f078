package undersong.reading;

import java.time.Instant;

/**
 * One line of the corrections log.
 *
 * @param id rises with every line; of two that disagree the higher one counts
 */
public record CorrectionEntry(long id, String author, Instant saidAt, Correction correction) {}
