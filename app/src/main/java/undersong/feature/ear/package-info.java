/**
 * The trained ear: one small network over log-frequency spectra. Spectra enter while features are
 * made; activations leave. How it was trained stands in {@code training/}.
 */
package undersong.feature.ear;
