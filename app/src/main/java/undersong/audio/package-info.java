/**
 * From a file on disk to blocks of samples. A path enters; facts about the recording, its content
 * hash and streamed samples leave.
 */
package undersong.audio;
