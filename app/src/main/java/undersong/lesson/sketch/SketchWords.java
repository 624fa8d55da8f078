package undersong.lesson.sketch;

import undersong.technique.Texts;
import undersong.theory.Numerals;

/** What a sketch is and does, for a student. */
public final class SketchWords {
  private SketchWords() {}

  public static String print(Sketch sketch, Texts texts) {
    StringBuilder text = new StringBuilder();
    text.append(texts.name(sketch.technique())).append("\n\n");
    text.append(sketch.why())
        .append(' ')
        .append(texts.definition(sketch.technique()))
        .append("\n\n");
    text.append(
        "%s, %d bpm. Listen to bars %d to %d. %s%n"
            .formatted(
                sketch.key(),
                Math.round(sketch.song().score().bpm()),
                sketch.shown().first(),
                sketch.shown().last(),
                texts.whatToListenFor(sketch.technique()))
            .replace("\r", ""));
    text.append("\nBar by bar:");
    for (int i = 0; i < sketch.numerals().size(); i++) {
      text.append(i % 4 == 0 ? "\n  " : " | ")
          .append(Numerals.print(sketch.numerals().get(i), sketch.key()));
    }
    text.append("\n\nYour turn: ").append(texts.howToTryIt(sketch.technique())).append('\n');
    if (sketch.quoted().notes() > 0) {
      text.append(
          "\nIn common with the song: a figure of %d notes, %d %s.\n"
              .formatted(
                  sketch.quoted().notes(),
                  sketch.quoted().chords(),
                  sketch.quoted().chords() == 1 ? "chord" : "chords in a row"));
    }
    return text.append("\nSeed ").append(sketch.seed()).append(".\n").toString();
  }
}
