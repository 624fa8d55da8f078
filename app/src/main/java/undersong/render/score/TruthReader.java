package undersong.render.score;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import undersong.reading.Bar;
import undersong.reading.Bass;
import undersong.reading.Beats;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.Form;
import undersong.reading.KeyRegion;
import undersong.reading.Keys;
import undersong.reading.Lines;
import undersong.reading.Melody;
import undersong.reading.Meter;
import undersong.reading.NoteEvent;
import undersong.reading.PartName;
import undersong.reading.Reading;
import undersong.reading.Roles;
import undersong.reading.Section;
import undersong.reading.Tuning;
import undersong.reading.Voice;
import undersong.reading.Voices;
import undersong.theory.Key;
import undersong.time.BeatGrid;
import undersong.time.Span;

/** Reads the truth off a performance. */
public final class TruthReader {
  private final Performance performance;
  private final Score score;

  private TruthReader(Performance performance) {
    this.performance = performance;
    this.score = performance.score();
  }

  public static Truth read(Performance performance) {
    return new TruthReader(performance).read();
  }

  private Truth read() {
    ChordTruth chords = new ChordTruth(performance);
    Reading reading =
        Reading.empty(score.durationSeconds())
            .with(Facet.TUNING, Derived.of(new Tuning(score.tuningCents(), 1)))
            .with(Facet.BEATS, Derived.of(beats()))
            .with(Facet.METER, Derived.of(meter()))
            .with(Facet.FORM, Derived.of(form()))
            .with(Facet.BASS, Derived.of(new Bass(notes(PartRole.BASS))))
            .with(Facet.MELODY, Derived.of(new Melody(notes(PartRole.MELODY))))
            .with(Facet.CHORDS, Derived.of(chords.chords()))
            .with(Facet.KEYS, Derived.of(keys()))
            .with(Facet.VOICES, Derived.of(furtherVoices()))
            .with(Facet.LINES, Derived.of(lines()))
            .with(Facet.ROLES, Derived.of(roles()));
    return new Truth(reading, chords.arrivals(), voices(), placements(), echoes(), planted());
  }

  private Beats beats() {
    double[] seconds = new double[score.beats() + 1];
    for (int i = 0; i < seconds.length; i++) {
      seconds[i] = score.secondsAt(i);
    }
    int tatums = score.meter().compound() || score.swingRatio() > 1.2 ? 3 : 2;
    return new Beats(BeatGrid.of(seconds), tatums, score.swingRatio(), 1, List.of());
  }

  private Meter meter() {
    List<Bar> bars = new ArrayList<>();
    int beat = 0;
    for (ScoreSection section : score.sections()) {
      int beats = section.meter().beats();
      for (int i = 0; i < section.bars(); i++) {
        Span span = new Span(score.secondsAt(beat), score.secondsAt(beat + beats));
        bars.add(new Bar(bars.size() + 1, beat, beats, section.meter(), span));
        beat += beats;
      }
    }
    return new Meter(bars, 1, List.of());
  }

  private Form form() {
    Map<String, Integer> occurrences = new HashMap<>();
    List<Section> sections = new ArrayList<>();
    int bar = 1;
    for (int s = 0; s < performance.sections(); s++) {
      ScoreSection section = score.sections().get(s);
      int occurrence = occurrences.merge(section.letter(), 1, Integer::sum);
      sections.add(
          new Section(
              span(s),
              bar,
              bar + section.bars() - 1,
              section.letter(),
              occurrence,
              section.transposedSemitones(),
              1));
      bar += section.bars();
    }
    return new Form(sections);
  }

  private Roles roles() {
    List<Roles.NamedSection> named = new ArrayList<>();
    for (int s = 0; s < performance.sections(); s++) {
      ScoreSection section = score.sections().get(s);
      named.add(new Roles.NamedSection(span(s), section.role(), section.role(), 1));
    }
    return new Roles(named);
  }

  private Keys keys() {
    List<KeyRegion> regions = new ArrayList<>();
    double start = 0;
    for (int s = 0; s < performance.sections(); s++) {
      Key key = score.sections().get(s).key();
      boolean last = s + 1 == performance.sections();
      if (last || !score.sections().get(s + 1).key().equals(key)) {
        double end = last ? score.durationSeconds() : performance.sectionEndSeconds(s);
        regions.add(new KeyRegion(new Span(start, end), key, 1, List.of()));
        start = end;
      }
    }
    return new Keys(regions);
  }

  private Span span(int section) {
    return new Span(
        performance.sectionStartSeconds(section), performance.sectionEndSeconds(section));
  }

  private List<NoteEvent> notes(PartRole role) {
    return performance.notes(role).stream().map(TruthReader::event).toList();
  }

  private static NoteEvent event(PlayedNote note) {
    return new NoteEvent(new Span(note.startSeconds(), note.endSeconds()), note.midiPitch(), 1);
  }

  private Voices furtherVoices() {
    Melody lead = new Melody(notes(PartRole.MELODY));
    List<Voice> voices = new ArrayList<>();
    for (List<NoteEvent> notes : partsOf(PartRole.VOICE)) {
      voices.add(Voice.beside(lead, PartName.voice(voices.size() + 2), notes, List.of()));
    }
    return new Voices(voices);
  }

  private Lines lines() {
    List<undersong.reading.Line> lines = new ArrayList<>();
    for (List<NoteEvent> notes : partsOf(PartRole.LINE)) {
      lines.add(
          new undersong.reading.Line(
              PartName.line(lines.size() + 1), notes, Optional.empty(), Optional.empty(), 1));
    }
    return new Lines(lines, List.of());
  }

  /** The notes of each part with a role, in the order of the score; none that is silent. */
  private List<List<NoteEvent>> partsOf(PartRole role) {
    return score.parts().stream()
        .filter(part -> part.role() == role)
        .map(
            part ->
                performance.notes().stream()
                    .filter(note -> note.part().equals(part))
                    .map(TruthReader::event)
                    .toList())
        .filter(notes -> !notes.isEmpty())
        .toList();
  }

  private List<Truth.Voice> voices() {
    List<Truth.Voice> voices = new ArrayList<>();
    for (Part part : score.parts()) {
      boolean sings =
          part.role() == PartRole.MELODY
              || part.role() == PartRole.VOICE
              || part.role() == PartRole.LINE;
      List<PlayedNote> notes =
          performance.notes().stream().filter(note -> note.part().equals(part)).toList();
      if (sings && !notes.isEmpty()) {
        voices.add(
            new Truth.Voice(
                part.name(),
                part.role(),
                notes.stream().map(TruthReader::event).toList(),
                notes.stream().map(n -> n.beginsSyllable() ? n.syllable() : "").toList()));
      }
    }
    voices.sort(Comparator.comparing(Truth.Voice::role));
    return voices;
  }

  private List<Truth.Placement> placements() {
    List<Truth.Placement> placements = new ArrayList<>();
    for (int s = 0; s < performance.sections(); s++) {
      for (Part part : score.parts()) {
        Span span = span(s);
        performance
            .mix(part, s)
            .ifPresent(
                mix ->
                    placements.add(
                        new Truth.Placement(
                            part.name(),
                            part.role(),
                            span,
                            mix.get("pan"),
                            mix.get("sway"),
                            mix.get("double"))));
      }
    }
    return placements;
  }

  private List<Truth.Echo> echoes() {
    List<Truth.Echo> echoes = new ArrayList<>();
    for (int s = 0; s < performance.sections(); s++) {
      for (Part part : score.parts()) {
        Mix mix = performance.mix(part, s).orElse(new Mix(Map.of()));
        for (String kind : List.of("echo", "throw")) {
          double lag = mix.get(kind);
          if (lag > 0) {
            echoes.add(
                new Truth.Echo(
                    part.name(),
                    span(s),
                    lag,
                    lag * 60 / score.bpm(),
                    mix.get("echo-fall"),
                    kind.equals("throw")));
          }
        }
      }
    }
    return echoes;
  }

  private List<Truth.Planted> planted() {
    List<Truth.Planted> planted = new ArrayList<>();
    int barsBefore = 0;
    for (int s = 0; s < performance.sections(); s++) {
      ScoreSection section = score.sections().get(s);
      double beat = Performance.firstBeat(score, s);
      int beats = section.meter().beats();
      for (Plant plant : section.plants()) {
        int first = barsBefore + plant.firstBar();
        int last = barsBefore + plant.lastBar();
        Span span =
            new Span(
                score.secondsAt(beat + (plant.firstBar() - 1.0) * beats),
                score.secondsAt(beat + (double) plant.lastBar() * beats));
        planted.add(
            new Truth.Planted(
                plant.techniqueId(), section.name(), span, first, last, plant.remark()));
      }
      barsBefore += section.bars();
    }
    return planted;
  }
}
