/**
 * What of a recording is listened to by itself. Its samples and a focus enter; samples of the same
 * length leave, at the recording's level, kept in files.
 */
package undersong.render.focus;
