/**
 * How fast it is: whole-program runs on recordings of several lengths, each in a process of its
 * own; kernels are timed by JMH under {@code src/speed}.
 */
package undersong.bench.speed;
