package undersong.study;

import java.util.stream.Stream;
import undersong.reading.Repeat;
import undersong.theory.LeadSheet;

/** What is different in a section that returns, in a few words each. */
final class RepeatWords {
  private RepeatWords() {}

  static Stream<Stretch> of(Repeat repeat) {
    return repeat.changes().stream().map(change -> new Stretch(change.span(), words(change)));
  }

  private static String words(Repeat.Change change) {
    if (change instanceof Repeat.NoteChange note) {
      String pitch = note.part() + " " + Changes.pitch(note.event().midiPitch());
      return switch (note.fate()) {
        case ADDED -> pitch + " added";
        case REMOVED -> pitch + " gone";
        case MOVED -> pitch + " instead of " + Changes.pitch(note.pitchBefore().orElseThrow());
      };
    } else if (change instanceof Repeat.ChordChange chord) {
      return LeadSheet.say(chord.after()) + " instead of " + LeadSheet.say(chord.before());
    } else if (change instanceof Repeat.LayerChange layer) {
      return layer.layer() + (layer.entered() ? " added" : " gone");
    } else if (change instanceof Repeat.PlaceChange place) {
      return "%s at %+.1f instead of %+.1f".formatted(place.part(), place.after(), place.before());
    } else if (change instanceof Repeat.LevelChange level) {
      return "%+.1f LU".formatted(level.afterLufs() - level.beforeLufs());
    }
    throw new AssertionError(change);
  }
}
