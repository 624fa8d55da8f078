/**
 * What comes back. Features, beats, bars, form and melody enter; echoes leave: delays, lines
 * performed again, doubles.
 */
package undersong.estimate.echo;
