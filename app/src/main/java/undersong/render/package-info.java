/** Sound made by the program: demo songs and plain tones. Scores enter, stereo samples leave. */
package undersong.render;
