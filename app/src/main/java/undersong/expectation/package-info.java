/**
 * How surprising a chord is, and that it arrives here, given songs heard before and this song so
 * far: counts and a reading enter, bits leave. Counts are values passed in; no shelf is asked.
 */
package undersong.expectation;
