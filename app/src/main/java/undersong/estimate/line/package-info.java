/**
 * The accompaniment's lines: the ear's note activations and the stereo image enter, less what bass,
 * lead and voices sing and play; note events grouped into lines by rhythm, register and place come
 * out.
 */
package undersong.estimate.line;
