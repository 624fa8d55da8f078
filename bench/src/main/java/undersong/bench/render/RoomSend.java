package undersong.bench.render;

/**
 * A stretch in which all that goes to the room goes to one room at one level.
 *
 * @param decaySeconds of the room, before its walls take highs away
 * @param sendDb against what the strips send
 */
record RoomSend(double startSeconds, double endSeconds, double decaySeconds, double sendDb) {}
