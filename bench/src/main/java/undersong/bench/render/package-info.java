/**
 * Songs with known truth: a chart enters; audio, clean and worn, leaves together with everything
 * that is true of it. Nothing here is shared with what the listening model was trained on.
 */
package undersong.bench.render;
