/**
 * A lesson: findings and remarks chosen, ordered and worded by the teacher, with examples to read
 * and to hear. A reading, findings and the teacher's words enter; values, a page and texts leave.
 * Nothing here studies or keeps a song.
 */
package undersong.lesson;
