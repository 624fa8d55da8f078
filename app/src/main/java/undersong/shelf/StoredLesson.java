package undersong.shelf;

import java.time.Instant;
import java.util.OptionalLong;

/**
 * The latest version of a lesson.
 *
 * @param version counted from 1; every earlier one is kept
 * @param author who saved this version
 * @param json what the lesson says
 * @param beside the lesson that somebody else had saved meanwhile, where this one was saved over it
 */
public record StoredLesson(
    long id,
    long songId,
    int version,
    String author,
    Instant savedAt,
    String json,
    OptionalLong beside) {}
