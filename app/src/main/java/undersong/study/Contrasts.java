package undersong.study;

import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import undersong.reading.Bass;
import undersong.reading.Correction;
import undersong.reading.CorrectionEntry;
import undersong.reading.Corrections;
import undersong.reading.Facet;
import undersong.reading.Form;
import undersong.reading.Melody;
import undersong.reading.NoteEvent;
import undersong.reading.PartName;
import undersong.reading.Reading;
import undersong.reading.Repeat;
import undersong.reading.Repeats;
import undersong.reading.Section;
import undersong.reading.Tuning;
import undersong.reading.Voices;
import undersong.render.PlainTones;
import undersong.shelf.Hearing;
import undersong.shelf.Song;
import undersong.technique.Finding;
import undersong.technique.Technique;
import undersong.technique.plain.PlainVersion;
import undersong.time.BeatGrid;
import undersong.time.Span;
import undersong.work.Cancellation;
import undersong.work.Trouble;

/** Plain tones that show by contrast what is done: bars without it, a part where it was not yet. */
final class Contrasts {
  private static final double SAME_START_SECONDS = 0.01;
  private static final Set<PlainTones.Layer> LAYERS =
      Set.of(PlainTones.Layer.BASS, PlainTones.Layer.CHORDS, PlainTones.Layer.MELODY);

  private final CurrentReadings readings;
  private final CurrentFindings findings;
  private final Renderings renderings;

  Contrasts(CurrentReadings readings, CurrentFindings findings, Renderings renderings) {
    this.readings = readings;
    this.findings = findings;
    this.renderings = renderings;
  }

  Path plain(
      Studied studied,
      Technique technique,
      double atSeconds,
      Span asked,
      Cancellation cancellation) {
    Song song = studied.song();
    Reading reading = studied.stored().reading();
    Reading plain =
        findings.of(studied.stored()).stream()
            .filter(finding -> finding.technique() == technique)
            .filter(finding -> begins(finding, atSeconds))
            .findFirst()
            .flatMap(finding -> PlainVersion.of(finding, reading))
            .orElseThrow(() -> nothing(song, technique, atSeconds));
    Span span = Renderings.insideOf(song, asked);
    String what =
        "plain-%s-%d-%d"
            .formatted(technique.id(), Math.round(1e3 * atSeconds), studied.stored().revision());
    return renderings.tones(
        readings.recording(song),
        what,
        span,
        () -> PlainTones.render(plain, LAYERS, span),
        cancellation);
  }

  private static boolean begins(Finding finding, double atSeconds) {
    return Math.abs(finding.span().startSeconds() - atSeconds) < SAME_START_SECONDS;
  }

  private static Trouble.NotOnShelf nothing(Song song, Technique technique, double atSeconds) {
    return new Trouble.NotOnShelf(
        "Song %d has no %s at %.2f s that could be taken out of its notes. Maybe the reading has changed."
            .formatted(song.id(), technique.id(), atSeconds));
  }

  /** A song as it would be with a listener's word, of a chord or a note. */
  Path heard(Studied studied, Hearing hearing, Span asked, Cancellation cancellation) {
    Song song = studied.song();
    Span span = Renderings.insideOf(song, asked);
    String what = "heard-%d-%d".formatted(hearing.id(), studied.stored().revision());
    return renderings.tones(
        readings.recording(song),
        what,
        span,
        () -> PlainTones.render(with(studied, hearing.heard()), LAYERS, span),
        cancellation);
  }

  private Reading with(Studied studied, Correction heard) {
    Derivation.Basis basis = readings.basis(studied.stored());
    List<CorrectionEntry> entries = new ArrayList<>(basis.said().entries());
    entries.add(new CorrectionEntry(Long.MAX_VALUE, "", Instant.EPOCH, heard));
    // Chords are told last of what is played by tones.
    return readings
        .derivation()
        .deriveThrough(
            Facet.CHORDS, readings.features(studied.song()), basis, new Corrections(entries));
  }

  Path partOver(
      Studied studied,
      String letter,
      int occurrence,
      String part,
      Span asked,
      Cancellation cancellation) {
    Song song = studied.song();
    Reading reading = studied.stored().reading();
    Repeat repeat =
        reading.find(Facet.REPEATS).map(Repeats::repeats).orElse(List.of()).stream()
            .filter(one -> one.letter().equals(letter) && one.occurrence() == occurrence)
            .findFirst()
            .orElseThrow(
                () ->
                    new Trouble.NotOnShelf(
                        "Song %d has no copy %d of section %s."
                            .formatted(song.id(), occurrence, letter)));
    List<NoteEvent> notes = overEarlier(reading, repeat, part);
    double tuning = reading.find(Facet.TUNING).map(Tuning::cents).orElse(0.0);
    Span span = Renderings.insideOf(song, asked);
    String what =
        "over-%s-%d-%s-%d"
            .formatted(
                Integer.toHexString(letter.hashCode()),
                occurrence,
                part,
                studied.stored().revision());
    return renderings.tones(
        readings.recording(song),
        what,
        span,
        () -> PlainTones.render(notes, tuning, span),
        cancellation);
  }

  /**
   * The part's notes of a later copy, beat by beat where the earlier copy stands, at its height.
   */
  static List<NoteEvent> overEarlier(Reading reading, Repeat repeat, String part) {
    BeatGrid grid = reading.get(Facet.BEATS).grid();
    Section later = section(reading, repeat.letter(), repeat.occurrence());
    Section earlier = section(reading, repeat.letter(), repeat.against());
    double beats =
        grid.positionAt(earlier.span().startSeconds())
            - grid.positionAt(later.span().startSeconds());
    int semitones = earlier.transposedSemitones() - later.transposedSemitones();
    return notes(reading, part).stream()
        .filter(note -> repeat.span().contains(note.span().startSeconds()))
        .map(
            note ->
                new NoteEvent(
                    new Span(
                        moved(note.span().startSeconds(), beats, grid),
                        moved(note.span().endSeconds(), beats, grid)),
                    Math.max(0, Math.min(127, note.midiPitch() + semitones)),
                    note.probability()))
        .toList();
  }

  private static double moved(double seconds, double beats, BeatGrid grid) {
    return Math.max(0, grid.secondsAtPosition(grid.positionAt(seconds) + beats));
  }

  private static Section section(Reading reading, String letter, int occurrence) {
    return reading.find(Facet.FORM).map(Form::sections).orElse(List.of()).stream()
        .filter(one -> one.letter().equals(letter) && one.occurrence() == occurrence)
        .findFirst()
        .orElseThrow(() -> new IllegalStateException("No section " + letter + occurrence));
  }

  private static List<NoteEvent> notes(Reading reading, String part) {
    if (part.equals(PartName.BASS)) {
      return reading.find(Facet.BASS).map(Bass::notes).orElse(List.of());
    }
    if (part.equals(PartName.MELODY)) {
      return reading.find(Facet.MELODY).map(Melody::notes).orElse(List.of());
    }
    if (PartName.isVoice(part)) {
      return reading.find(Facet.VOICES).map(Voices::voices).orElse(List.of()).stream()
          .filter(voice -> voice.name().equals(part))
          .flatMap(voice -> voice.events().stream())
          .toList();
    }
    if (PartName.isLine(part)) {
      return reading
          .find(Facet.LINES)
          .flatMap(lines -> lines.named(part))
          .map(line -> line.notes())
          .orElse(List.of());
    }
    throw new Trouble.WrongUsage(
        "There is no part \"%s\"; parts are bass, melody, voice-2, line-1 and so on."
            .formatted(part));
  }
}
