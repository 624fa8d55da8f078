/**
 * The field's published metrics, as arithmetic on plain values. Reference and estimated annotations
 * enter; numbers leave. Nothing here knows the program, files or audio.
 *
 * <p>Definitions follow the public evaluation library mir_eval (Raffel and others, "mir_eval: A
 * Transparent Implementation of Common MIR Metrics", ISMIR 2014); the Javadoc of each class says
 * where ours go beyond it.
 */
package undersong.bench.metrics;
