package undersong.technique;

import static undersong.technique.Technique.Family.FORM;
import static undersong.technique.Technique.Family.HARMONY;
import static undersong.technique.Technique.Family.MELODY;
import static undersong.technique.Technique.Family.PRODUCTION;
import static undersong.technique.Technique.Family.RHYTHM;

import java.util.Locale;

/** The catalogue: every device the program can name. What each is, is told in the texts. */
public enum Technique {
  HARMONIC_MINOR_DOMINANT(HARMONY),
  BORROWED_CHORD(HARMONY),
  SECONDARY_DOMINANT(HARMONY),
  MODAL_COLOUR(HARMONY),
  CHROMATIC_INNER_LINE(HARMONY),
  GUIDE_TONE_SWITCH(HARMONY),
  WITHHELD_THIRD(HARMONY),
  PEDAL_POINT(HARMONY),
  STEPWISE_BASS_LINE(HARMONY),
  TENSION_TONE(HARMONY),
  REINTERPRETED_TONE(HARMONY),
  DECEPTIVE_CADENCE(HARMONY),
  HALF_CADENCE(HARMONY),
  PLAGAL_CHAIN(HARMONY),
  UNRESOLVED_ENDING(HARMONY),
  KEY_LIFT(HARMONY),
  MODULATION(HARMONY),
  CHORD_LOOP(HARMONY),
  BROKEN_LOOP(HARMONY),
  SURPRISING_CHORD(HARMONY),

  PATTERN_SEQUENCE(MELODY),
  RIFF(MELODY),
  PARALLEL_HARMONY(MELODY),
  OCTAVE_DOUBLING(MELODY),
  REGISTER_LIFT(MELODY),
  CALL_AND_RESPONSE(MELODY),
  MELODIC_PEAK(MELODY),
  LAYER_FOLLOWS(MELODY),

  ANTICIPATED_CHANGES(RHYTHM),
  SYNCOPATED_BASS(RHYTHM),
  THREE_THREE_TWO(RHYTHM),
  HALF_TIME_FEEL(RHYTHM),
  STOP_TIME(RHYTHM),
  METER_CHANGE(RHYTHM),
  TEMPO_CHANGE(RHYTHM),
  HARMONIC_RHYTHM_CHANGE(RHYTHM),
  IRREGULAR_PHRASE(RHYTHM),

  CLIMAX_AT_END(FORM),
  LAYERED_REPEAT(FORM),
  DROP_CHORUS(FORM),
  BREAKOUT_CHORUS(FORM),
  BUILD(FORM),
  CHORUS_FIRST(FORM),
  COLD_ENDING(FORM),
  FADE_OUT(FORM),

  ALTERNATING_PAN(PRODUCTION),
  WIDE_DOUBLE(PRODUCTION),
  ECHO(PRODUCTION),
  DELAY_THROW(PRODUCTION),
  RESUNG_ECHO(PRODUCTION),
  WIDTH_CHANGE(PRODUCTION),
  FILTER_SWEEP(PRODUCTION),
  RISER(PRODUCTION),
  SWELL(PRODUCTION),
  SUB_BASS_ENTRY(PRODUCTION),
  DRUM_DROPOUT(PRODUCTION),
  DUCKING(PRODUCTION),
  PLUCKED_LAYER(PRODUCTION),
  VOCAL_STACK(PRODUCTION);

  /** The chapter of the catalogue a technique stands in. */
  public enum Family {
    HARMONY(Kind.THEORY),
    MELODY(Kind.SONGWRITING),
    RHYTHM(Kind.THEORY),
    FORM(Kind.SONGWRITING),
    PRODUCTION(Kind.PRODUCTION);

    private final Kind kind;

    Family(Kind kind) {
      this.kind = kind;
    }

    public Kind kind() {
      return kind;
    }
  }

  /** The three heads under which findings are told. */
  public enum Kind {
    THEORY,
    SONGWRITING,
    PRODUCTION
  }

  private final Family family;

  Technique(Family family) {
    this.family = family;
  }

  public Family family() {
    return family;
  }

  public Kind kind() {
    return family.kind();
  }

  /** As the catalogue and every file write it: {@code borrowed-chord}. */
  public String id() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** The technique of an id; throws where there is none. */
  public static Technique named(String id) {
    for (Technique technique : values()) {
      if (technique.id().equals(id)) {
        return technique;
      }
    }
    throw new IllegalArgumentException(
        "No technique has the id \"%s\"; the catalogue writes them like borrowed-chord."
            .formatted(id));
  }
}
