package undersong.desk;

import java.util.Locale;
import undersong.reading.Correction;
import undersong.theory.ChordSymbol;
import undersong.theory.Key;
import undersong.theory.Mode;
import undersong.theory.NoteName;
import undersong.time.Span;

/** Corrections in words, as a log lists them. */
final class CorrectionWords {
  /** Where nothing tonal sounds, names are chosen as in a key without accidentals. */
  static final Key NO_KEY = new Key(new NoteName(0), Mode.MAJOR);

  private final Wording wording;

  CorrectionWords(Wording wording) {
    this.wording = wording;
  }

  String of(Correction correction) {
    if (correction instanceof Correction.TempoLevel level) {
      return level.factor() > 1
          ? "%.0f times as many beats".formatted(level.factor())
          : "one beat of %.0f".formatted(1 / level.factor());
    } else if (correction instanceof Correction.TuningIs is) {
      return "tuning %+.0f cents".formatted(is.cents());
    } else if (correction instanceof Correction.BeatAt at) {
      return "a beat at " + time(at.seconds());
    } else if (correction instanceof Correction.DownbeatAt at) {
      return "a bar begins at " + time(at.seconds());
    } else if (correction instanceof Correction.BoundaryAt at) {
      return "a section begins at " + time(at.seconds());
    } else if (correction instanceof Correction.NoBoundaryAt at) {
      return "no section begins at " + time(at.seconds());
    } else if (correction instanceof Correction.MeterOver over) {
      return over.signature() + over(over.span());
    } else if (correction instanceof Correction.KeyOver over) {
      return wording.key(over.key()) + over(over.span());
    } else if (correction instanceof Correction.ChordOver over) {
      return "chord " + wording.chord(over.chord(), NO_KEY) + over(over.span());
    } else if (correction instanceof Correction.NoThirdOver over) {
      return "no third" + over(over.span());
    } else if (correction instanceof Correction.BassNoteOver over) {
      return "bass " + pitch(over.midiPitch()) + over(over.span());
    } else if (correction instanceof Correction.NoBassOver over) {
      return "no bass" + over(over.span());
    } else if (correction instanceof Correction.MelodyNoteOver over) {
      return "melody " + pitch(over.midiPitch()) + over(over.span());
    } else if (correction instanceof Correction.MelodyOver over) {
      return "the melody sounds" + over(over.span());
    } else if (correction instanceof Correction.NoMelodyOver over) {
      return "no melody" + over(over.span());
    } else if (correction instanceof Correction.VoiceNoteOver over) {
      return over.voice() + " " + pitch(over.midiPitch()) + over(over.span());
    } else if (correction instanceof Correction.NoVoiceOver over) {
      return "no " + over.voice() + over(over.span());
    } else if (correction instanceof Correction.LineNoteOver over) {
      return over.line() + " " + pitch(over.midiPitch()) + over(over.span());
    } else if (correction instanceof Correction.NoLineOver over) {
      return "no " + over.line() + over(over.span());
    } else if (correction instanceof Correction.PlacementOver over) {
      return "%s at %+.2f%s".formatted(over.source().words(), over.placement(), over(over.span()));
    } else if (correction instanceof Correction.LayerOver over) {
      return (over.sounds() ? "" : "no ") + over.layer().words() + over(over.span());
    } else if (correction instanceof Correction.NoEchoOver over) {
      return "no echo" + over(over.span());
    } else if (correction instanceof Correction.RoomOver over) {
      return over.decaySeconds() == 0
          ? "dry" + over(over.span())
          : "falls in %.1f s, %+.0f dB%s"
              .formatted(over.decaySeconds(), over.wetToDryDb(), over(over.span()));
    } else if (correction instanceof Correction.SamenessOver over) {
      return "the same music as " + over.letter() + over(over.span());
    } else if (correction instanceof Correction.NameOver over) {
      return over.role().words() + over(over.span());
    }
    return plain(correction);
  }

  /** A kind that has no sentence of its own yet: its name, spread out, and its facet. */
  private static String plain(Correction correction) {
    String name = correction.getClass().getSimpleName().replaceAll("(?<=[a-z])(?=[A-Z])", " ");
    return name.toLowerCase(Locale.ROOT) + " (" + correction.facet() + ")";
  }

  /** Where something heard for oneself is said of. */
  static Span span(Correction heard) {
    if (heard instanceof Correction.KeyOver over) {
      return over.span();
    } else if (heard instanceof Correction.ChordOver over) {
      return over.span();
    } else if (heard instanceof Correction.BassNoteOver over) {
      return over.span();
    } else if (heard instanceof Correction.MelodyNoteOver over) {
      return over.span();
    }
    throw new IllegalArgumentException(heard + " is nothing one keeps as heard for oneself.");
  }

  private String pitch(double midiPitch) {
    int midi = (int) Math.round(midiPitch);
    return wording.pitch(midi, NO_KEY, ChordSymbol.NONE);
  }

  private static String over(Span span) {
    return ", %s to %s".formatted(time(span.startSeconds()), time(span.endSeconds()));
  }

  /** 0:31.9 */
  static String time(double seconds) {
    long tenths = Math.round(seconds * 10);
    return String.format(Locale.ROOT, "%d:%02d.%d", tenths / 600, tenths / 10 % 60, tenths % 10);
  }
}
