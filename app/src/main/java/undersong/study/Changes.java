package undersong.study;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import undersong.reading.Bass;
import undersong.reading.Beats;
import undersong.reading.Chords;
import undersong.reading.Dynamics;
import undersong.reading.Echoes;
import undersong.reading.Facet;
import undersong.reading.FacetValue;
import undersong.reading.Form;
import undersong.reading.Harmony;
import undersong.reading.HarmonyEvent;
import undersong.reading.Keys;
import undersong.reading.Lines;
import undersong.reading.Melody;
import undersong.reading.Meter;
import undersong.reading.Motif;
import undersong.reading.Motifs;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.reading.Repeats;
import undersong.reading.Roles;
import undersong.reading.Space;
import undersong.reading.Texture;
import undersong.reading.Tuning;
import undersong.reading.Voices;
import undersong.theory.LeadSheet;
import undersong.theory.NoteName;
import undersong.theory.Numerals;
import undersong.theory.SpelledPitch;
import undersong.time.BeatGrid;
import undersong.time.Span;

/** Compares two readings of one recording, stretch by stretch. */
final class Changes {
  private Changes() {}

  /** The facets that say something different, in their order. */
  static List<FacetChange> between(Reading before, Reading after) {
    List<FacetChange> changes = new ArrayList<>();
    for (Facet<?> facet : Facet.IN_ORDER) {
      of(facet, before, after).ifPresent(changes::add);
    }
    return changes;
  }

  /** What one facet says differently; empty where only its probabilities differ, if those. */
  static Optional<FacetChange> of(Facet<?> facet, Reading before, Reading after) {
    Optional<FacetValue> old = before.find(facet).map(FacetValue.class::cast);
    Optional<FacetValue> now = after.find(facet).map(FacetValue.class::cast);
    if (old.map(FacetValue::essence).equals(now.map(FacetValue::essence))) {
      return Optional.empty();
    }
    Span whole = new Span(0, after.durationSeconds());
    List<Stretch> gone =
        new ArrayList<>(old.map(v -> stretches(v, before, whole)).orElse(List.of()));
    List<Stretch> come =
        new ArrayList<>(now.map(v -> stretches(v, after, whole)).orElse(List.of()));
    Set<Stretch> same = new HashSet<>(gone);
    same.retainAll(new HashSet<>(come));
    gone.removeAll(same);
    come.removeAll(same);
    return Optional.of(new FacetChange(facet, gone, come));
  }

  private static List<Stretch> stretches(FacetValue value, Reading reading, Span whole) {
    if (value instanceof Tuning tuning) {
      return List.of(new Stretch(whole, "%+.0f cents".formatted(tuning.cents())));
    } else if (value instanceof Beats beats) {
      return beats(beats, whole);
    } else if (value instanceof Meter meter) {
      return meter.bars().stream()
          .map(bar -> new Stretch(bar.span(), "bar " + bar.number() + ", " + bar.signature()))
          .toList();
    } else if (value instanceof Form form) {
      return form.sections().stream()
          .map(section -> new Stretch(section.span(), section.letter() + section.occurrence()))
          .toList();
    } else if (value instanceof Bass bass) {
      return notes(bass.notes());
    } else if (value instanceof Melody melody) {
      return notes(melody.notes());
    } else if (value instanceof Voices voices) {
      return voices.voices().stream()
          .flatMap(voice -> notes(voice.name(), voice.events()))
          .toList();
    } else if (value instanceof Lines lines) {
      return lines.lines().stream().flatMap(line -> notes(line.name(), line.notes())).toList();
    } else if (value instanceof Repeats repeats) {
      return repeats.repeats().stream().flatMap(repeat -> RepeatWords.of(repeat)).toList();
    } else if (value instanceof Motifs motifs) {
      return motifs.motifs().stream().flatMap(Changes::motif).toList();
    } else if (value instanceof Chords chords) {
      return chords.spans().stream()
          .map(chord -> new Stretch(chord.span(), LeadSheet.say(chord.symbol())))
          .toList();
    } else if (value instanceof Keys keys) {
      return keys.regions().stream()
          .map(region -> new Stretch(region.span(), region.key().toString()))
          .toList();
    } else if (value instanceof Harmony harmony) {
      return harmony.events().stream()
          .map(event -> new Stretch(event.span(), numeral(event)))
          .toList();
    } else if (value instanceof Dynamics dynamics) {
      return dynamics(dynamics, reading, whole);
    } else if (value instanceof Space space) {
      return SoundStretches.of(space);
    } else if (value instanceof Texture texture) {
      return SoundStretches.of(texture);
    } else if (value instanceof Echoes echoes) {
      return SoundStretches.of(echoes);
    } else if (value instanceof Roles roles) {
      return roles.sections().stream()
          .map(section -> new Stretch(section.span(), roles(section)))
          .toList();
    }
    return List.of(new Stretch(whole, value.essence().toString()));
  }

  private static List<Stretch> beats(Beats beats, Span whole) {
    BeatGrid grid = beats.grid();
    List<Stretch> stretches = new ArrayList<>();
    stretches.add(
        new Stretch(
            whole,
            grid.isEmpty()
                ? "no pulse"
                : "%.1f bpm, %d tatums a beat, swing %.2f"
                    .formatted(grid.medianBpm(), beats.tatumsPerBeat(), beats.swingRatio())));
    for (int beat = 1; beat < grid.size(); beat++) {
      stretches.add(new Stretch(new Span(grid.secondsAt(beat - 1), grid.secondsAt(beat)), "beat"));
    }
    return stretches;
  }

  private static List<Stretch> notes(List<NoteEvent> notes) {
    return notes.stream().map(note -> new Stretch(note.span(), pitch(note.midiPitch()))).toList();
  }

  private static Stream<Stretch> notes(String part, List<NoteEvent> notes) {
    return notes.stream()
        .map(note -> new Stretch(note.span(), part + " " + pitch(note.midiPitch())));
  }

  private static Stream<Stretch> motif(Motif motif) {
    String words = "figure of %d notes in %s".formatted(motif.cell().size(), motif.part());
    return motif.occurrences().stream().map(heard -> new Stretch(heard.span(), words));
  }

  /** The nearest named pitch, and the cents it is off by: "E4", "E4 +30". */
  static String pitch(double midiPitch) {
    int midi = (int) Math.round(midiPitch);
    NoteName name = NoteName.ofPitchClass(Math.floorMod(midi, 12), 0);
    long cents = Math.round(100 * (midiPitch - midi));
    return SpelledPitch.ofMidi(midi, name) + (cents == 0 ? "" : " %+d".formatted(cents));
  }

  private static List<Stretch> dynamics(Dynamics dynamics, Reading reading, Span whole) {
    List<Stretch> stretches = new ArrayList<>();
    stretches.add(
        new Stretch(
            whole,
            "%.1f LUFS, range %.1f LU".formatted(dynamics.integratedLufs(), dynamics.rangeLu())));
    var bars = reading.find(Facet.METER).map(Meter::bars).orElse(List.of());
    for (int bar = 0; bar < Math.min(bars.size(), dynamics.barLufs().size()); bar++) {
      stretches.add(
          new Stretch(bars.get(bar).span(), "%.1f LUFS".formatted(dynamics.barLufs().get(bar))));
    }
    return stretches;
  }

  private static String numeral(HarmonyEvent event) {
    return event.numeral().map(n -> Numerals.print(n, event.key())).orElse("no chord");
  }

  private static String roles(Roles.NamedSection section) {
    String place = section.place().words();
    return section.place() == section.function()
        ? place
        : place + ", works as " + section.function().words();
  }
}
