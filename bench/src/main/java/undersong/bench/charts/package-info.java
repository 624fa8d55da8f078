/**
 * What can be measured on annotated charts without any audio: how well chords are expected, and
 * what the finders of harmony make of songs whose numerals an annotator wrote.
 */
package undersong.bench.charts;
