/**
 * Static signal kernels on arrays. Arrays enter, arrays leave; they know no music and use the JDK
 * and an FFT only.
 */
package undersong.kernel;
