/**
 * What is heard: the facets of one recording, their graph, and what the listener said against them.
 * Values only; no features, no audio.
 */
package undersong.reading;
