/**
 * Sections that return, laid bar by bar beside their earlier copies: parts, chords, layers, places
 * and loudness of the song enter, with the ear's note activations where there are any, and what is
 * different comes out.
 */
package undersong.estimate.repeat;
