/** How well readings are written down: performed scores are quantised and spelled again. */
package undersong.bench.lesson;
