package undersong.render.score;

/**
 * A technique put into a section on purpose.
 *
 * @param firstBar within the section, from 1
 * @param lastBar within the section, inclusive
 * @param remark what to hear
 */
record Plant(String techniqueId, int firstBar, int lastBar, String remark) {}
