/**
 * Readers of the open data that the bench measures on. Paths of published data sets enter; charts,
 * beats, sections and pitch curves leave. A file that cannot be read is reported and counted, never
 * skipped in silence.
 *
 * <p>What each data set's annotations are worth is said in the SOURCE.md beside it.
 */
package undersong.bench.data;
