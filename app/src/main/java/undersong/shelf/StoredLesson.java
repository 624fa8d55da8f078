package undersong.shelf;

import java.time.Instant;

/**
 * The latest version of a lesson.
 *
 * @param version counted from 1; every earlier one is kept
 * @param author who saved this version
 * @param json what the lesson says
 */
public record StoredLesson(
    long id, long songId, int version, String author, Instant savedAt, String json) {}
