/**
 * DYNAMICS: how loud and how busy each bar is. Loudness curves and bars enter; values by bar leave.
 */
package undersong.estimate.dynamics;
