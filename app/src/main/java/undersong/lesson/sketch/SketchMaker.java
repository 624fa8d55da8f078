package undersong.lesson.sketch;

import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import undersong.reading.Reading;
import undersong.render.DemoSong;
import undersong.technique.BarRange;
import undersong.technique.Technique;
import undersong.theory.Key;
import undersong.theory.Mode;
import undersong.theory.NoteName;
import undersong.theory.NumeralSettings;
import undersong.theory.Numerals;
import undersong.theory.RomanNumeral;

/**
 * Makes sketches. Equal seeds make equal ones; there is no end of seeds.
 *
 * <p><b>Cost:</b> a few milliseconds, without sound.
 */
public final class SketchMaker {
  private static final int MOST_TRIES = 40;

  private SketchMaker() {}

  /** Techniques a sketch can be made of. The others need a whole song or a recording. */
  public static List<Technique> known() {
    return Shapes.known();
  }

  /**
   * @param beside a song it must not quote: a longer figure than {@link Quotation#MOST_NOTES} notes
   *     in common is thrown away and another drawn. A longer succession of chords than {@link
   *     Quotation#MOST_CHORDS} is avoided too, but where every draw has one the draw with the
   *     shortest is given: some techniques are the succession itself. {@link Sketch#quoted} tells.
   */
  public static Sketch make(Technique technique, long seed, Optional<Reading> beside) {
    if (!Shapes.has(technique)) {
      throw new IllegalArgumentException(
          "No sketch shows %s; there are sketches of %s."
              .formatted(technique.id(), known().stream().map(Technique::id).toList()));
    }
    Optional<Sketch> nearest = Optional.empty();
    for (int round = 0; round < MOST_TRIES; round++) {
      Sketch sketch = draw(technique, seed, round, beside);
      if (sketch.quoted().notes() > Quotation.MOST_NOTES) {
        continue;
      }
      if (sketch.quoted().chords() <= Quotation.MOST_CHORDS) {
        return sketch;
      }
      if (nearest.isEmpty() || sketch.quoted().chords() < nearest.get().quoted().chords()) {
        nearest = Optional.of(sketch);
      }
    }
    return nearest.orElseThrow(
        () ->
            new IllegalStateException(
                "%d draws of %s all quoted the song; another seed may not."
                    .formatted(MOST_TRIES, technique.id())));
  }

  private static Sketch draw(Technique technique, long seed, int round, Optional<Reading> beside) {
    SplittableRandom random =
        new SplittableRandom(seed * 1_000_003 + technique.id().hashCode() * 31L + round);
    Shape shape = Shapes.of(technique, random);
    int fifths = random.nextInt(-5, 7);
    Key key =
        shape.minor()
            ? new Key(new NoteName(Math.min(fifths + 3, 6)), Mode.NATURAL_MINOR)
            : new Key(new NoteName(Math.max(-5, fifths)), Mode.MAJOR);
    int bpm = random.nextInt(84, 129);
    String text = new SketchWriter(technique, shape, key, bpm, random).write(seed);
    DemoSong song = DemoSong.of("sketch-" + technique.id() + "-" + seed, text);
    List<RomanNumeral> chords =
        shape.sections().stream()
            .flatMap(part -> part.chords().stream())
            .map(numeral -> Numerals.parse(numeral, key, NumeralSettings.DEFAULTS))
            .toList();
    Quotation quoted =
        beside
            .map(other -> Quotation.between(song.truth().reading(), chords, other))
            .orElse(Quotation.NONE);
    return new Sketch(
        technique,
        seed,
        key,
        text,
        song,
        chords,
        new BarRange(shape.shownFrom(), shape.shownTo()),
        shape.why(),
        quoted);
  }
}
