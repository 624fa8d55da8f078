package undersong.bench.decode;

import java.util.Arrays;
import java.util.List;
import undersong.bench.metrics.SungNote;
import undersong.bench.metrics.Timed;
import undersong.bench.peers.Program;
import undersong.bench.render.Staging;
import undersong.bench.render.Truth;
import undersong.reading.Facet;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.render.DemoSong;
import undersong.theory.HarteSyntax;
import undersong.time.Span;

/** The truth of a composed song as that of a rendered chart; nothing of how it was produced. */
final class ComposedTruth {
  private ComposedTruth() {}

  static Truth of(DemoSong song) {
    Reading truth = song.truth().reading();
    return new Truth(
        song.id(),
        truth.durationSeconds(),
        song.score().tuningCents(),
        truth.get(Facet.METER).mainSignature().toString(),
        song.score().bpm(),
        song.score().swingRatio(),
        false,
        Arrays.stream(truth.get(Facet.BEATS).grid().toArray()).boxed().toList(),
        truth.get(Facet.METER).bars().stream().map(b -> b.span().startSeconds()).toList(),
        truth.get(Facet.KEYS).regions().stream()
            .map(r -> timed(r.span(), Program.label(r.key())))
            .toList(),
        truth.get(Facet.CHORDS).spans().stream()
            .map(c -> timed(c.span(), HarteSyntax.print(c.symbol())))
            .toList(),
        List.of(),
        notes(truth.get(Facet.BASS).notes()),
        notes(truth.get(Facet.MELODY).notes()),
        List.of(),
        false,
        List.of(),
        truth.get(Facet.FORM).sections().stream().map(s -> timed(s.span(), s.letter())).toList(),
        Staging.NONE,
        List.of());
  }

  private static <T> Timed<T> timed(Span span, T value) {
    return new Timed<>(span.startSeconds(), span.endSeconds(), value);
  }

  private static List<SungNote> notes(List<NoteEvent> notes) {
    return notes.stream()
        .map(n -> new SungNote(n.span().startSeconds(), n.span().endSeconds(), n.midiPitch()))
        .toList();
  }
}
