package undersong.study;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.DoubleUnaryOperator;
import undersong.reading.Correction;
import undersong.shelf.Song;
import undersong.theory.ChordSymbol;
import undersong.theory.Key;
import undersong.theory.NoteName;
import undersong.time.Span;
import undersong.work.Trouble;

/** Where a correction is anchored, and the same said of another place. */
final class Anchors {
  private Anchors() {}

  /** The seconds it names, in order; empty where it is said of the whole recording. */
  static List<Double> seconds(Correction correction) {
    List<Double> seconds = new ArrayList<>();
    moved(
        correction,
        at -> {
          seconds.add(at);
          return at;
        },
        0);
    return seconds;
  }

  /** Refuses what is anchored outside the song. */
  static void requireInside(Song song, Correction correction) {
    for (double seconds : seconds(correction)) {
      if (!(seconds >= 0 && seconds <= song.durationSeconds() + 0.5)) {
        throw new Trouble.WrongUsage(
            "%s lies at %s s, outside song %d, which lasts %.2f s. Maybe it was meant for another song."
                .formatted(correction, seconds, song.id(), song.durationSeconds()));
      }
    }
  }

  /**
   * The same said of another place.
   *
   * @param place from seconds here to seconds there
   * @param semitones how much higher the music is there
   * @return empty where it is said of the whole recording, and so of there too
   */
  static Optional<Correction> moved(
      Correction correction, DoubleUnaryOperator place, int semitones) {
    Mover mover = new Mover(place, semitones);
    return Optional.ofNullable(mover.moved(correction));
  }

  private record Mover(DoubleUnaryOperator place, int semitones) {
    private Correction moved(Correction correction) {
      if (correction instanceof Correction.TempoLevel
          || correction instanceof Correction.TuningIs) {
        return null;
      } else if (correction instanceof Correction.BeatAt at) {
        return new Correction.BeatAt(seconds(at.seconds()));
      } else if (correction instanceof Correction.DownbeatAt at) {
        return new Correction.DownbeatAt(seconds(at.seconds()));
      } else if (correction instanceof Correction.BoundaryAt at) {
        return new Correction.BoundaryAt(seconds(at.seconds()));
      } else if (correction instanceof Correction.NoBoundaryAt at) {
        return new Correction.NoBoundaryAt(seconds(at.seconds()));
      } else if (correction instanceof Correction.MeterOver over) {
        return new Correction.MeterOver(span(over.span()), over.signature());
      } else if (correction instanceof Correction.KeyOver over) {
        Key key = new Key(note(over.key().tonic()), over.key().mode());
        return new Correction.KeyOver(span(over.span()), key);
      } else if (correction instanceof Correction.ChordOver over) {
        return new Correction.ChordOver(span(over.span()), chord(over.chord()));
      } else if (correction instanceof Correction.NoThirdOver over) {
        return new Correction.NoThirdOver(span(over.span()));
      } else if (correction instanceof Correction.BassNoteOver over) {
        return new Correction.BassNoteOver(span(over.span()), pitch(over.midiPitch()));
      } else if (correction instanceof Correction.NoBassOver over) {
        return new Correction.NoBassOver(span(over.span()));
      } else if (correction instanceof Correction.MelodyNoteOver over) {
        return new Correction.MelodyNoteOver(span(over.span()), pitch(over.midiPitch()));
      } else if (correction instanceof Correction.MelodyOver over) {
        return new Correction.MelodyOver(span(over.span()));
      } else if (correction instanceof Correction.NoMelodyOver over) {
        return new Correction.NoMelodyOver(span(over.span()));
      } else if (correction instanceof Correction.VoiceNoteOver over) {
        return new Correction.VoiceNoteOver(
            over.voice(), span(over.span()), pitch(over.midiPitch()));
      } else if (correction instanceof Correction.NoVoiceOver over) {
        return new Correction.NoVoiceOver(over.voice(), span(over.span()));
      } else if (correction instanceof Correction.LineNoteOver over) {
        return new Correction.LineNoteOver(over.line(), span(over.span()), pitch(over.midiPitch()));
      } else if (correction instanceof Correction.NoLineOver over) {
        return new Correction.NoLineOver(over.line(), span(over.span()));
      } else if (correction instanceof Correction.SamenessOver over) {
        return new Correction.SamenessOver(span(over.span()), over.letter());
      } else if (correction instanceof Correction.NameOver over) {
        return new Correction.NameOver(span(over.span()), over.role());
      } else if (correction instanceof Correction.PlacementOver over) {
        return new Correction.PlacementOver(span(over.span()), over.source(), over.placement());
      } else if (correction instanceof Correction.LayerOver over) {
        return new Correction.LayerOver(span(over.span()), over.layer(), over.sounds());
      } else if (correction instanceof Correction.EchoOver over) {
        return new Correction.EchoOver(span(over.span()), over.echo(), over.lagSeconds());
      } else if (correction instanceof Correction.NoEchoOver over) {
        return new Correction.NoEchoOver(span(over.span()));
      } else if (correction instanceof Correction.RoomOver over) {
        return new Correction.RoomOver(span(over.span()), over.decaySeconds(), over.wetToDryDb());
      }
      throw new AssertionError(correction);
    }

    private double seconds(double at) {
      return place.applyAsDouble(at);
    }

    private Span span(Span span) {
      return new Span(seconds(span.startSeconds()), seconds(span.endSeconds()));
    }

    private double pitch(double midiPitch) {
      return midiPitch + semitones;
    }

    private ChordSymbol chord(ChordSymbol symbol) {
      if (symbol instanceof ChordSymbol.Chord chord) {
        return new ChordSymbol.Chord(
            note(chord.root()),
            chord.quality(),
            chord.addedSemitones(),
            chord.omittedSemitones(),
            note(chord.bass()));
      }
      return symbol;
    }

    /** Moved along the line of fifths the shorter way: up a semitone, C becomes Db. */
    private NoteName note(NoteName name) {
      int fifths = Math.floorMod(7 * semitones + 5, 12) - 5;
      return NoteName.ofPitchClass(
          Math.floorMod(name.pitchClass() + semitones, 12), near(name.fifths() + fifths));
    }

    /** No further from the middle of the line than two accidentals, so that all names exist. */
    private static int near(int fifths) {
      return Math.max(-9, Math.min(11, fifths));
    }
  }
}
