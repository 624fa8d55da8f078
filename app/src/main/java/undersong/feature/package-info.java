/**
 * Arrays measured on the audio, each with its clock. Sample blocks enter; immutable features leave,
 * cached by content hash and version.
 */
package undersong.feature;
