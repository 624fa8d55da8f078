/** Features, tuning and beats enter; bass notes leave. Evidence is made apart from its decoding. */
package undersong.estimate.bass;
