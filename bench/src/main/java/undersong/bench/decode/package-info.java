/**
 * How well the deciders of form and keys do on songs that may be looked at, apart from everything
 * before them: tuning songs enter, figures for one setting beside another leave.
 */
package undersong.bench.decode;
