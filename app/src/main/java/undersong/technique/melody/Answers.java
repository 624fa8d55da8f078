package undersong.technique.melody;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import undersong.reading.Facet;
import undersong.reading.Line;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.technique.Certainty;
import undersong.technique.Finding;
import undersong.technique.FindingDraft;
import undersong.technique.Part;
import undersong.technique.Pulse;
import undersong.technique.SongSection;
import undersong.technique.Technique;
import undersong.technique.TechniqueFinder;
import undersong.time.Span;

/** The tune and another part answer each other in short phrases. */
final class Answers implements TechniqueFinder {
  private final Settings settings;

  Answers(Settings settings) {
    this.settings = settings;
  }

  /**
   * @param breathSeconds that parts two phrases
   * @param longestBars of a phrase
   * @param fewestChanges from one part to the other
   * @param mostOverlap of both, as a share of the shorter
   */
  record Settings(double breathSeconds, double longestBars, int fewestChanges, double mostOverlap) {
    static final Settings DEFAULTS = new Settings(0.4, 2.6, 3, 0.2);
  }

  private record Phrase(boolean answers, Span span, double probability) {}

  @Override
  public Set<Technique> techniques() {
    return Set.of(Technique.CALL_AND_RESPONSE);
  }

  @Override
  public Set<Facet<?>> reads() {
    return Set.of(Facet.BEATS, Facet.METER, Facet.FORM, Facet.ROLES, Facet.MELODY);
  }

  @Override
  public Set<Facet<?>> alsoReads() {
    return Set.of(Facet.VOICES, Facet.LINES);
  }

  @Override
  public List<Finding> find(Reading reading) {
    Pulse pulse = Pulse.of(reading);
    if (!pulse.isThere()) {
      return List.of();
    }
    List<Part> others = new ArrayList<>(Part.sung(reading));
    others.remove(0);
    reading
        .find(Facet.LINES)
        .ifPresent(lines -> lines.lines().stream().map(Answers::part).forEach(others::add));
    List<Finding> findings = new ArrayList<>();
    for (SongSection section : SongSection.of(reading)) {
      List<Phrase> calls = phrases(false, reading.get(Facet.MELODY).notes(), section.span());
      for (Part other : others) {
        List<Phrase> answers = phrases(true, other.notes(), section.span());
        if (isShort(calls, pulse) && isShort(answers, pulse)) {
          find(section, other, calls, answers, pulse, findings);
        }
      }
    }
    return findings;
  }

  private static Part part(Line line) {
    return new Part(line.name(), line.notes());
  }

  private List<Phrase> phrases(boolean answers, List<NoteEvent> notes, Span section) {
    List<Phrase> phrases = new ArrayList<>();
    List<NoteEvent> inside =
        notes.stream().filter(n -> section.contains(n.span().middleSeconds())).toList();
    int begin = 0;
    double end = 0;
    for (int i = 0; i < inside.size(); i++) {
      end =
          i == begin
              ? inside.get(i).span().endSeconds()
              : Math.max(end, inside.get(i).span().endSeconds());
      boolean last = i + 1 == inside.size();
      if (last || inside.get(i + 1).span().startSeconds() - end > settings.breathSeconds()) {
        double heard =
            inside.subList(begin, i + 1).stream()
                .mapToDouble(NoteEvent::probability)
                .average()
                .orElse(0);
        phrases.add(
            new Phrase(answers, new Span(inside.get(begin).span().startSeconds(), end), heard));
        begin = i + 1;
      }
    }
    return phrases;
  }

  private boolean isShort(List<Phrase> phrases, Pulse pulse) {
    return phrases.size() >= 2
        && phrases.stream()
            .allMatch(phrase -> pulse.lengthBars(phrase.span()) <= settings.longestBars());
  }

  private void find(
      SongSection section,
      Part other,
      List<Phrase> calls,
      List<Phrase> answers,
      Pulse pulse,
      List<Finding> findings) {
    List<Phrase> all = new ArrayList<>(calls);
    all.addAll(answers);
    all.sort(Comparator.comparingDouble(phrase -> phrase.span().startSeconds()));
    int changes = 0;
    for (int i = 1; i < all.size(); i++) {
      changes += all.get(i).answers() != all.get(i - 1).answers() ? 1 : 0;
    }
    double overlap = 0;
    for (Phrase call : calls) {
      overlap +=
          answers.stream().mapToDouble(answer -> answer.span().overlapSeconds(call.span())).sum();
    }
    double share = overlap / Math.max(0.1, Math.min(seconds(calls), seconds(answers)));
    if (changes < settings.fewestChanges() || share > settings.mostOverlap()) {
      return;
    }
    Span span =
        new Span(
            all.get(0).span().startSeconds(),
            all.stream().mapToDouble(phrase -> phrase.span().endSeconds()).max().orElseThrow());
    double heard = all.stream().mapToDouble(Phrase::probability).average().orElse(0);
    findings.add(
        FindingDraft.of(Technique.CALL_AND_RESPONSE, span)
            .bars(pulse.bars(span))
            .sure(
                heard,
                Certainty.beyond(changes, settings.fewestChanges() - 0.5, 1),
                Certainty.beyond(settings.mostOverlap() - share, 0, 0.1))
            .strength(0.3 + 0.05 * changes)
            .group(other.name() + " " + section.letter())
            .says("summary", other.words(), section.words(), changes)
            .hear(all.get(0).span(), "call")
            .hear(all.get(1).span(), "answer")
            .atLeast("changes", changes, settings.fewestChanges(), "times")
            .atMost("overlap", 100 * share, 100 * settings.mostOverlap(), "%")
            .make());
  }

  private static double seconds(List<Phrase> phrases) {
    return phrases.stream().mapToDouble(phrase -> phrase.span().lengthSeconds()).sum();
  }
}
