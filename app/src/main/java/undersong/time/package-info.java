/**
 * Spans of seconds, frame clocks and beat grids: where a thing is. Nothing of ours enters; every
 * other package may use it.
 */
package undersong.time;
