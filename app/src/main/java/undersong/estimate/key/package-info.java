/** Bars, chords, bass and melody enter; key regions with tonic and mode leave. */
package undersong.estimate.key;
