/**
 * Scores as text. A text enters; a {@link undersong.render.score.Score} leaves, and from it the
 * notes to be played and the truth about them. The text format is described in docs/demo.md.
 */
package undersong.render.score;
