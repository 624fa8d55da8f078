/**
 * Features, beats, bars, form, bass and melody enter; chords at the moment they arrive leave, with
 * what each of their members does. Evidence (what sounds in each step) is made apart from its
 * decoding.
 */
package undersong.estimate.chord;
