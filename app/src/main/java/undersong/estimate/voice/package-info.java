/**
 * Sung lines besides the lead: the ear's note activations, its second-voice head and the leading
 * tune enter; a second voice as notes, with its interval to the lead phrase by phrase, comes out.
 */
package undersong.estimate.voice;
