package undersong.technique.harmony;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import undersong.reading.Bar;
import undersong.reading.Facet;
import undersong.reading.Reading;
import undersong.reading.Repeat;
import undersong.technique.Finding;
import undersong.technique.FindingDraft;
import undersong.technique.PitchName;
import undersong.technique.Pulse;
import undersong.technique.SongSection;
import undersong.technique.Technique;
import undersong.technique.TechniqueFinder;
import undersong.theory.LeadSheet;
import undersong.time.Span;

/**
 * A third or fifth left out in one copy of a section and sounded in a later one: told at the place
 * that is left open, with where and how it is settled.
 */
final class SettledLater implements TechniqueFinder {
  private final Settings settings;

  SettledLater(Settings settings) {
    this.settings = settings;
  }

  /**
   * @param fewestBars in which the open chord is settled
   */
  record Settings(int fewestBars) {
    static final Settings DEFAULTS = new Settings(1);
  }

  @Override
  public Set<Technique> techniques() {
    return Set.of(Technique.WITHHELD_THIRD);
  }

  @Override
  public Set<Facet<?>> reads() {
    return Set.of(Facet.BEATS, Facet.METER, Facet.FORM, Facet.ROLES, Facet.REPEATS);
  }

  @Override
  public Set<Facet<?>> alsoReads() {
    return Set.of(Facet.KEYS);
  }

  @Override
  public List<Finding> find(Reading reading) {
    Pulse pulse = Pulse.of(reading);
    if (!pulse.isThere()) {
      return List.of();
    }
    List<SongSection> sections = SongSection.of(reading);
    List<Finding> findings = new ArrayList<>();
    for (Repeat repeat : reading.get(Facet.REPEATS).repeats()) {
      for (Repeat.Settled settled : repeat.settled()) {
        Optional<Span> open = earlier(repeat, settled, pulse);
        Optional<SongSection> later = SongSection.at(sections, settled.span());
        if (open.isPresent()
            && later.isPresent()
            && settled.bars().size() >= settings.fewestBars()) {
          findings.add(finding(repeat, settled, open.get(), later.get(), reading, pulse));
        }
      }
    }
    return findings;
  }

  /** The bars of the earlier copy in which the member is missing. */
  private static Optional<Span> earlier(Repeat repeat, Repeat.Settled settled, Pulse pulse) {
    int back = repeat.occurrence() - repeat.against();
    Optional<Span> span = Optional.empty();
    for (Repeat.AlignedBar aligned : repeat.bars()) {
      int under = aligned.earlier().size() - back;
      if (!settled.bars().contains(aligned.bar()) || under < 0) {
        continue;
      }
      int number = aligned.earlier().get(under);
      for (Bar bar : pulse.meter().bars()) {
        if (bar.number() == number) {
          span = Optional.of(span.map(before -> joined(before, bar.span())).orElse(bar.span()));
        }
      }
    }
    return span;
  }

  private static Span joined(Span one, Span other) {
    return new Span(
        Math.min(one.startSeconds(), other.startSeconds()),
        Math.max(one.endSeconds(), other.endSeconds()));
  }

  private static Finding finding(
      Repeat repeat,
      Repeat.Settled settled,
      Span open,
      SongSection later,
      Reading reading,
      Pulse pulse) {
    String note =
        PitchName.of(60.0 + settled.pitchClass(), settled.span().middleSeconds(), reading)
            .replaceAll("-?[0-9]+$", "");
    String member = settled.member() == Repeat.ChordMember.THIRD ? "third" : "fifth";
    return FindingDraft.of(Technique.WITHHELD_THIRD, open)
        .bars(pulse.bars(open))
        .sure(settled.probability())
        .strength(0.55 + 0.05 * Math.min(4, settled.bars().size()))
        .group(repeat.letter())
        .says(
            "settled." + member,
            LeadSheet.say(settled.before()),
            later.words(),
            note,
            settled.beat(),
            LeadSheet.say(settled.after()))
        .hear(open, "hear")
        .hear(settled.span(), "settled.hear", note)
        .atLeast("settled.bars", settled.bars().size(), 1, "bars")
        .read(Facet.REPEATS, settled.span(), LeadSheet.say(settled.after()))
        .make();
  }
}
