/**
 * MELODY: the leading tune. The trained ear's pitch activations enter; notes and a pitch curve
 * leave. Without the trained ear nothing is claimed.
 */
package undersong.estimate.melody;
