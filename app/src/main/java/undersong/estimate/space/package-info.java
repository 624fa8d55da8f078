/**
 * Where sounds stand. Features, bars, bass and melody enter; space leaves: width by bar, and events
 * with their place.
 */
package undersong.estimate.space;
