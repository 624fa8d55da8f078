/**
 * How often something occurs in a set of songs: what is counted of each song enters; shares with
 * their intervals, and what may be said of them, leave. Nothing is read or stored here.
 */
package undersong.trend;
