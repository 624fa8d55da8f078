package undersong.lesson;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.Optional;
import java.util.function.IntPredicate;
import undersong.notation.WrittenBar;
import undersong.notation.WrittenChord;
import undersong.notation.WrittenNote;
import undersong.notation.WrittenPart;
import undersong.notation.WrittenScore;
import undersong.reading.ChordSpan;
import undersong.reading.Facet;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.technique.BarRange;
import undersong.technique.Evidence;
import undersong.technique.Finding;
import undersong.theory.ChordSymbol.Chord;
import undersong.theory.LeadSheet;
import undersong.theory.NoteName;
import undersong.time.Span;

/** One example of a lesson, as the page draws and plays it: bars written down, and plain tones. */
final class Example {
  private static final JsonNodeFactory JSON = JsonNodeFactory.instance;

  /** Chords are played in close position from the F below middle C. */
  private static final int LOWEST_CHORD_NOTE = 53;

  private final Reading reading;
  private final WrittenScore score;

  Example(Reading reading, WrittenScore score) {
    this.reading = reading;
    this.score = score;
  }

  /**
   * @param finding whose notes are marked; empty for none
   * @return null-free; without bars where the song has none of these
   */
  ObjectNode print(BarRange bars, Optional<Finding> finding) {
    WrittenScore excerpt = score.bars(bars.first(), bars.last());
    ObjectNode node = JSON.objectNode();
    node.put("bpm", Math.round(score.bpm())).put("swing", score.swing());
    ArrayNode parts = node.putArray("parts");
    for (WrittenPart part : excerpt.parts()) {
      boolean heard =
          part.bars().stream().anyMatch(bar -> bar.notes().stream().anyMatch(n -> !n.isRest()));
      if (heard || part.name().equals("melody")) {
        parts.add(part(part, finding));
      }
    }
    span(bars)
        .ifPresent(
            span -> {
              node.put("start", rounded(span.startSeconds()))
                  .put("end", rounded(span.endSeconds()));
              node.set("tones", tones(span));
            });
    return node;
  }

  /** Where bars sound; empty where the song has none of them. */
  Optional<Span> span(BarRange bars) {
    List<undersong.reading.Bar> meant =
        reading.get(Facet.METER).bars().stream()
            .filter(bar -> bar.number() >= bars.first() && bar.number() <= bars.last())
            .toList();
    return meant.isEmpty()
        ? Optional.empty()
        : Optional.of(
            new Span(
                meant.get(0).span().startSeconds(),
                meant.get(meant.size() - 1).span().endSeconds()));
  }

  private ObjectNode part(WrittenPart part, Optional<Finding> finding) {
    ObjectNode node = JSON.objectNode().put("name", part.name()).put("clef", part.clef().name());
    IntPredicate marked = marked(part.name(), finding);
    ArrayNode bars = node.putArray("bars");
    for (WrittenBar bar : part.bars()) {
      ObjectNode one = bars.addObject();
      one.put("number", bar.number())
          .put("signature", bar.signature().toString())
          .put("ticks", bar.ticks())
          .put("beatTicks", WrittenBar.beatTicks(bar.signature()))
          .put("fifths", bar.key().signatureFifths());
      ArrayNode notes = one.putArray("notes");
      bar.notes().forEach(note -> notes.add(note(note, marked)));
      ArrayNode chords = one.putArray("chords");
      bar.chords().forEach(chord -> chords.add(chord(chord)));
    }
    return node;
  }

  private static ObjectNode note(WrittenNote note, IntPredicate marked) {
    ObjectNode node =
        JSON.objectNode()
            .put("at", note.startTicks())
            .put("type", note.value().type())
            .put("dots", note.value().dots())
            .put("triplet", note.triplet());
    note.pitch()
        .ifPresent(
            pitch ->
                node.put("pitch", pitch.toString())
                    .put("tied", note.tiedOn())
                    .put("begins", note.begins())
                    .put("syllable", note.syllable())
                    .put("marked", note.begins() && marked.test(note.heard())));
    return node;
  }

  private static ObjectNode chord(WrittenChord chord) {
    return JSON.objectNode()
        .put("at", chord.startTicks())
        .put("label", LeadSheet.say(chord.symbol()))
        .put("numeral", chord.numeral())
        .put("held", chord.held());
  }

  /** Notes that the finding's evidence read: those a class should look at. */
  private IntPredicate marked(String part, Optional<Finding> finding) {
    List<NoteEvent> notes = notes(part);
    String facet = part.equals("bass") ? "bass" : part.equals("melody") ? "melody" : "voices";
    List<Span> read =
        finding.map(Finding::evidence).orElse(List.of()).stream()
            .filter(Evidence.Read.class::isInstance)
            .map(Evidence.Read.class::cast)
            .filter(evidence -> evidence.facet().name().equals(facet))
            .map(Evidence.Read::span)
            .toList();
    return heard ->
        heard >= 0
            && heard < notes.size()
            && read.stream()
                .anyMatch(span -> span.contains(notes.get(heard).span().middleSeconds()));
  }

  private List<NoteEvent> notes(String part) {
    return switch (part) {
      case "melody" -> reading.get(Facet.MELODY).notes();
      case "bass" -> reading.get(Facet.BASS).notes();
      default ->
          reading
              .find(Facet.VOICES)
              .flatMap(voices -> voices.named(part))
              .map(voice -> voice.events())
              .orElse(List.of());
    };
  }

  /** Every part's notes and the chords within a span, in seconds of the recording. */
  private ArrayNode tones(Span span) {
    ArrayNode tones = JSON.arrayNode();
    for (WrittenPart part : score.parts()) {
      for (NoteEvent note : notes(part.name())) {
        if (note.span().overlaps(span)) {
          tone(tones, part.name(), note.span(), span, (int) Math.round(note.midiPitch()));
        }
      }
    }
    for (ChordSpan chord : reading.get(Facet.CHORDS).spans()) {
      if (chord.span().overlaps(span) && chord.symbol() instanceof Chord named) {
        for (NoteName name : named.tones()) {
          int midi = LOWEST_CHORD_NOTE + Math.floorMod(name.pitchClass() - LOWEST_CHORD_NOTE, 12);
          tone(tones, "chords", chord.span(), span, midi);
        }
      }
    }
    return tones;
  }

  private static void tone(ArrayNode tones, String part, Span sounding, Span within, int midi) {
    double from = Math.max(sounding.startSeconds(), within.startSeconds());
    double to = Math.min(sounding.endSeconds(), within.endSeconds());
    if (to > from) {
      tones
          .addObject()
          .put("part", part)
          .put("at", rounded(from - within.startSeconds()))
          .put("for", rounded(to - from))
          .put("midi", midi);
    }
  }

  private static double rounded(double seconds) {
    return Math.round(seconds * 1000) / 1000.0;
  }
}
