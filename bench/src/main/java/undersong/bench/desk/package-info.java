/**
 * How fast the desk is: a song and a browser in, paint, correction, scrolling, memory and a class
 * of listeners at once out, as {@code bench/DESK.md}.
 */
package undersong.bench.desk;
