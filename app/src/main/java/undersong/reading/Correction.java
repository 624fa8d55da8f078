package undersong.reading;

import undersong.theory.ChordSymbol;
import undersong.theory.Key;
import undersong.time.Span;

/**
 * What the listener says against a facet. Anchored in seconds, so that it survives a moved beat
 * grid and a newer estimator.
 */
public sealed interface Correction {
  /** The facet it is said against. */
  Facet<?> facet();

  /** Beats are {@code factor} times as many: 2 = double, 0.5 = half. */
  record TempoLevel(double factor) implements Correction {
    public TempoLevel {
      if (factor != 2 && factor != 0.5 && factor != 3 && factor != 1.0 / 3) {
        throw new IllegalArgumentException(
            "Tempo level factor %s must be 2, 1/2, 3 or 1/3.".formatted(factor));
      }
    }

    @Override
    public Facet<?> facet() {
      return Facet.BEATS;
    }
  }

  /** A beat falls here. */
  record BeatAt(double seconds) implements Correction {
    @Override
    public Facet<?> facet() {
      return Facet.BEATS;
    }
  }

  /** A bar begins on the beat nearest to here. */
  record DownbeatAt(double seconds) implements Correction {
    @Override
    public Facet<?> facet() {
      return Facet.METER;
    }
  }

  record MeterOver(Span span, TimeSignature signature) implements Correction {
    @Override
    public Facet<?> facet() {
      return Facet.METER;
    }
  }

  record TuningIs(double cents) implements Correction {
    @Override
    public Facet<?> facet() {
      return Facet.TUNING;
    }
  }

  record KeyOver(Span span, Key key) implements Correction {
    @Override
    public Facet<?> facet() {
      return Facet.KEYS;
    }
  }

  record ChordOver(Span span, ChordSymbol chord) implements Correction {
    @Override
    public Facet<?> facet() {
      return Facet.CHORDS;
    }
  }

  /** Whatever sounds here, its third does not. */
  record NoThirdOver(Span span) implements Correction {
    @Override
    public Facet<?> facet() {
      return Facet.CHORDS;
    }
  }

  record BassNoteOver(Span span, double midiPitch) implements Correction {
    public BassNoteOver {
      checkPitch(midiPitch);
    }

    @Override
    public Facet<?> facet() {
      return Facet.BASS;
    }
  }

  record NoBassOver(Span span) implements Correction {
    @Override
    public Facet<?> facet() {
      return Facet.BASS;
    }
  }

  record MelodyNoteOver(Span span, double midiPitch) implements Correction {
    public MelodyNoteOver {
      checkPitch(midiPitch);
    }

    @Override
    public Facet<?> facet() {
      return Facet.MELODY;
    }
  }

  /** The tune sounds through the span, with the notes that were followed there. */
  record MelodyOver(Span span) implements Correction {
    @Override
    public Facet<?> facet() {
      return Facet.MELODY;
    }
  }

  record NoMelodyOver(Span span) implements Correction {
    @Override
    public Facet<?> facet() {
      return Facet.MELODY;
    }
  }

  /**
   * @param voice its name; one not heard before begins here
   */
  record VoiceNoteOver(String voice, Span span, double midiPitch) implements Correction {
    public VoiceNoteOver {
      PartName.checkVoice(voice);
      checkPitch(midiPitch);
    }

    @Override
    public Facet<?> facet() {
      return Facet.VOICES;
    }
  }

  record NoVoiceOver(String voice, Span span) implements Correction {
    public NoVoiceOver {
      PartName.checkVoice(voice);
    }

    @Override
    public Facet<?> facet() {
      return Facet.VOICES;
    }
  }

  /**
   * @param line its name; one not heard before begins here
   */
  record LineNoteOver(String line, Span span, double midiPitch) implements Correction {
    public LineNoteOver {
      PartName.checkLine(line);
      checkPitch(midiPitch);
    }

    @Override
    public Facet<?> facet() {
      return Facet.LINES;
    }
  }

  record NoLineOver(String line, Span span) implements Correction {
    public NoLineOver {
      PartName.checkLine(line);
    }

    @Override
    public Facet<?> facet() {
      return Facet.LINES;
    }
  }

  record BoundaryAt(double seconds) implements Correction {
    @Override
    public Facet<?> facet() {
      return Facet.FORM;
    }
  }

  record NoBoundaryAt(double seconds) implements Correction {
    @Override
    public Facet<?> facet() {
      return Facet.FORM;
    }
  }

  /** The section that sounds in the middle of the span is this music. */
  record SamenessOver(Span span, String letter) implements Correction {
    @Override
    public Facet<?> facet() {
      return Facet.FORM;
    }
  }

  /** The section that sounds in the middle of the span is called this. */
  record NameOver(Span span, SectionRole role) implements Correction {
    @Override
    public Facet<?> facet() {
      return Facet.ROLES;
    }
  }

  /** The sounds of this source that sound in the middle of the span stand here. */
  record PlacementOver(Span span, SoundSource source, double placement) implements Correction {
    public PlacementOver {
      if (!(placement >= -1 && placement <= 1)) {
        throw new IllegalArgumentException(
            "Placement %s must lie within -1 (left) to 1 (right).".formatted(placement));
      }
    }

    @Override
    public Facet<?> facet() {
      return Facet.SPACE;
    }
  }

  /** The layer sounds through the span, or is silent. */
  record LayerOver(Span span, LayerKind layer, boolean sounds) implements Correction {
    @Override
    public Facet<?> facet() {
      return Facet.TEXTURE;
    }
  }

  /** What is heard to come back in the span does so in this way. */
  record EchoOver(Span span, Echo.Kind echo, double lagSeconds) implements Correction {
    public EchoOver {
      if (!(lagSeconds > 0)) {
        throw new IllegalArgumentException("Lag of %s s must be positive.".formatted(lagSeconds));
      }
    }

    @Override
    public Facet<?> facet() {
      return Facet.ECHOES;
    }
  }

  /** Nothing comes back here. */
  record NoEchoOver(Span span) implements Correction {
    @Override
    public Facet<?> facet() {
      return Facet.ECHOES;
    }
  }

  /**
   * The room that sounds in the middle of the span is this one.
   *
   * @param decaySeconds to fall by 60 dB, in every band; 0 where there is no room to speak of
   * @param wetToDryDb level of the reverberant sound against the direct sound
   */
  record RoomOver(Span span, double decaySeconds, double wetToDryDb) implements Correction {
    public RoomOver {
      if (!(decaySeconds >= 0 && decaySeconds <= 30)) {
        throw new IllegalArgumentException(
            "A decay of %s s must lie within 0 to 30 s.".formatted(decaySeconds));
      }
      if (!(wetToDryDb >= -60 && wetToDryDb <= 20)) {
        throw new IllegalArgumentException(
            "A room at %s dB must lie within -60 to 20 dB.".formatted(wetToDryDb));
      }
    }

    @Override
    public Facet<?> facet() {
      return Facet.ECHOES;
    }
  }

  private static void checkPitch(double midiPitch) {
    if (!(midiPitch >= 0 && midiPitch <= 127)) {
      throw new IllegalArgumentException(
          "MIDI pitch %s must lie within 0 to 127.".formatted(midiPitch));
    }
  }
}
