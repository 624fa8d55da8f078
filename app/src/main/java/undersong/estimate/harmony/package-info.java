/** Beats, bars, chords and keys enter; each chord seen from its key leaves. */
package undersong.estimate.harmony;
