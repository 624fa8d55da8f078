/**
 * Sound from nothing: wavetable, sung and struck instruments, and the effects they pass through.
 * Pitches, lengths and seeds enter; arrays of samples leave. Equal input gives equal samples on
 * every machine: tables and coefficients come from {@link java.lang.StrictMath}.
 */
package undersong.render.synth;
