/**
 * Exercises for the ear, made from what a song does: a key, a loop, a way of arriving early. What a
 * song is made of enters, exercises with their answers leave. They sound in fresh keys, and quote
 * no more of a song than the order of its chords.
 */
package undersong.lesson.drill;
