package undersong.render.score;

/**
 * One note as it is played.
 *
 * @param sectionIndex of the section it is written in
 * @param midiPitch 0 where a part is only struck
 * @param syllable sung text; empty for instruments; only its vowel where a syllable is sung on
 * @param beginsSyllable false where the note sings on with the syllable before
 * @param joinsPrevious whether it follows on the note before without a gap
 */
public record PlayedNote(
    Part part,
    int sectionIndex,
    double startBeat,
    double endBeat,
    double startSeconds,
    double endSeconds,
    int midiPitch,
    double strength,
    boolean thrown,
    String syllable,
    boolean beginsSyllable,
    boolean joinsPrevious) {}
