package undersong.render.score;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import undersong.reading.ChordSpan;
import undersong.reading.Chords;
import undersong.reading.Member;
import undersong.reading.Presence;
import undersong.theory.ChordSymbol;
import undersong.theory.ChordSymbol.Chord;
import undersong.time.Span;

/** The chords of a performance, with what of each really sounds and in whom. */
final class ChordTruth {
  /** A member counts as sounding where it is held for this share of its chord. */
  private static final double SHARE = 0.15;

  private final Performance performance;

  ChordTruth(Performance performance) {
    this.performance = performance;
  }

  /** From 0 to the end of the recording; no chord before the first. */
  Chords chords() {
    List<ChordSpan> spans = new ArrayList<>();
    Score score = performance.score();
    double start = 0;
    List<ChordEvent> events = performance.chords();
    for (int i = 0; i < events.size(); i++) {
      ChordEvent event = events.get(i);
      double arrival = score.secondsAt(event.arrivalBeat());
      if (i == 0 && arrival > 0) {
        spans.add(span(new Span(0, arrival), ChordSymbol.NONE));
        start = arrival;
      }
      double end =
          i + 1 < events.size() ? score.secondsAt(event.endBeat()) : score.durationSeconds();
      spans.add(span(new Span(start, end), event.symbol()));
      start = end;
    }
    return new Chords(spans);
  }

  List<Truth.Arrival> arrivals() {
    return performance.chords().stream()
        .map(
            event ->
                new Truth.Arrival(
                    performance.score().secondsAt(event.arrivalBeat()), -event.earlyBeats()))
        .toList();
  }

  private ChordSpan span(Span span, ChordSymbol symbol) {
    Member third = Member.ABSENT;
    Member fifth = Member.ABSENT;
    Member seventh = Member.ABSENT;
    if (symbol instanceof Chord chord) {
      third = member(span, chord, 3, 4);
      fifth = member(span, chord, 6, 7, 8);
      seventh = member(span, chord, 10, 11);
    }
    return new ChordSpan(span, symbol, third, fifth, seventh, 1, List.of(), Optional.empty());
  }

  private Member member(Span span, Chord chord, int... semitonesAboveRoot) {
    Presence accompaniment = Presence.ABSENT;
    Presence voices = Presence.ABSENT;
    for (int semitones : semitonesAboveRoot) {
      if (!chord.quality().contains(semitones) && !chord.quality().hasNoThird()) {
        continue;
      }
      int pitchClass = Math.floorMod(chord.root().pitchClass() + semitones, 12);
      if (soundsIn(span, pitchClass, false)) {
        accompaniment = Presence.SOUNDING;
      }
      if (soundsIn(span, pitchClass, true)) {
        voices = Presence.SOUNDING;
      }
    }
    return new Member(accompaniment, voices, "");
  }

  private boolean soundsIn(Span span, int pitchClass, boolean voices) {
    double seconds = 0;
    for (PlayedNote note : performance.notes()) {
      boolean sung = note.part().role() == PartRole.MELODY || note.part().role() == PartRole.VOICE;
      if (note.midiPitch() == 0
          || note.part().role() == PartRole.EFFECT
          || sung != voices
          || note.midiPitch() % 12 != pitchClass) {
        continue;
      }
      seconds +=
          Math.max(
              0,
              Math.min(span.endSeconds(), note.endSeconds())
                  - Math.max(span.startSeconds(), note.startSeconds()));
    }
    return seconds >= SHARE * span.lengthSeconds();
  }
}
