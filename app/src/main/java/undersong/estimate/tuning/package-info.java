/** Features enter; how far the recording's pitch lies from A = 440 Hz leaves. */
package undersong.estimate.tuning;
