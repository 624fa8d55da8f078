package undersong.technique.form;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import undersong.reading.Facet;
import undersong.reading.PartName;
import undersong.reading.Reading;
import undersong.reading.Repeat;
import undersong.technique.Certainty;
import undersong.technique.Finding;
import undersong.technique.FindingDraft;
import undersong.technique.Part;
import undersong.technique.Pulse;
import undersong.technique.Sentence;
import undersong.technique.SongSection;
import undersong.technique.Technique;
import undersong.technique.TechniqueFinder;
import undersong.theory.LeadSheet;

/**
 * The same music comes back with a layer added; what that does to the harmony is told with it.
 * Lines of the accompaniment come and go in the ear's notes though nobody joins: where only such
 * are new, some band of hearing must be fuller, too.
 */
final class LayeredRepeat implements TechniqueFinder {
  private final Settings settings;

  LayeredRepeat(Settings settings) {
    this.settings = settings;
  }

  /**
   * @param mostOtherChords share of the bars that may have another chord, for the same music
   * @param leastRiseDb of the band that rises most, where only lines are added
   * @param widthDb how sharp that limit is
   * @param fuller when a band of hearing is fuller than before
   */
  record Settings(
      double mostOtherChords, double leastRiseDb, double widthDb, FullerBand.Settings fuller) {
    static final Settings DEFAULTS = new Settings(0.35, 0.6, 0.3, FullerBand.Settings.DEFAULTS);
  }

  @Override
  public Set<Technique> techniques() {
    return Set.of(Technique.LAYERED_REPEAT);
  }

  @Override
  public Set<Facet<?>> reads() {
    return Set.of(Facet.BEATS, Facet.METER, Facet.FORM, Facet.ROLES, Facet.REPEATS);
  }

  @Override
  public Set<Facet<?>> alsoReads() {
    return Set.of(Facet.TEXTURE);
  }

  @Override
  public List<Finding> find(Reading reading) {
    Pulse pulse = Pulse.of(reading);
    List<SongSection> sections = SongSection.of(reading);
    List<Finding> findings = new ArrayList<>();
    for (Repeat repeat : reading.get(Facet.REPEATS).repeats()) {
      List<Repeat.LayerChange> added =
          repeat.layers().stream().filter(Repeat.LayerChange::entered).toList();
      double otherChords =
          (double) repeat.chords().stream().map(Repeat.ChordChange::bar).distinct().count()
              / repeat.bars().size();
      Optional<SongSection> section = SongSection.at(sections, repeat.span());
      if (section.isEmpty() || otherChords > settings.mostOtherChords() || !pulse.isThere()) {
        continue;
      }
      if (!added.isEmpty()) {
        double sounding = sounding(reading, repeat, added);
        findings.add(finding(repeat, added, sounding, otherChords, section.get(), pulse));
      } else if (reading.find(Facet.TEXTURE).isPresent()) {
        FullerBand.of(reading, repeat, settings.fuller())
            .ifPresent(
                fuller -> findings.add(finding(repeat, fuller, otherChords, section.get(), pulse)));
      }
    }
    return findings;
  }

  /** That what is added sounds: sure of drums, bass and voices. */
  private double sounding(Reading reading, Repeat repeat, List<Repeat.LayerChange> added) {
    boolean onlyLines = added.stream().allMatch(layer -> PartName.isLine(layer.layer()));
    return onlyLines && reading.find(Facet.TEXTURE).filter(t -> !t.bars().isEmpty()).isPresent()
        ? Certainty.beyond(
            FullerBand.mostRiseDb(reading, repeat), settings.leastRiseDb(), settings.widthDb())
        : 1;
  }

  private Finding finding(
      Repeat repeat,
      List<Repeat.LayerChange> added,
      double sounding,
      double otherChords,
      SongSection section,
      Pulse pulse) {
    double doubt =
        added.stream().mapToDouble(layer -> 1 - layer.probability()).reduce(1, (a, b) -> a * b);
    FindingDraft draft =
        FindingDraft.of(Technique.LAYERED_REPEAT, repeat.span())
            .bars(pulse.bars(repeat.span()))
            .sure(1 - doubt, sounding, section.section().probability())
            .strength(0.25 + 0.1 * added.size() + 0.2 * repeat.settled().size())
            .group(repeat.letter() + repeat.occurrence())
            .hear("hear")
            .atMost("other-chords", 100 * otherChords, 100 * settings.mostOtherChords(), "%");
    for (Repeat.LayerChange layer : added) {
      draft.hear(layer.span(), "layer", words(layer.layer()));
    }
    for (Repeat.Settled settled : repeat.settled()) {
      draft.hear(
          settled.span(),
          "settled",
          LeadSheet.say(settled.before()),
          LeadSheet.say(settled.after()),
          words(settled.part()));
    }
    Sentence what = joined(added.stream().map(layer -> words(layer.layer())).toList());
    return repeat.settled().isEmpty()
        ? draft.says("summary", section.words(), what).make()
        : draft
            .says(
                "summary.settles",
                section.words(),
                what,
                LeadSheet.say(repeat.settled().get(0).before()),
                LeadSheet.say(repeat.settled().get(0).after()))
            .make();
  }

  private Finding finding(
      Repeat repeat, FullerBand fuller, double otherChords, SongSection section, Pulse pulse) {
    double least = settings.fuller().leastRiseDb();
    Sentence band = Sentence.of("layered-repeat.band." + fuller.band().words().replace(' ', '-'));
    return FindingDraft.of(Technique.LAYERED_REPEAT, fuller.span())
        .bars(pulse.bars(fuller.span()))
        .sure(Certainty.beyond(fuller.riseDb(), least - 0.5, 1))
        .strength(0.25)
        .group(repeat.letter() + repeat.occurrence())
        .says("summary", section.words(), band)
        .hear("hear")
        .atLeast("rise", fuller.riseDb(), least, "dB")
        .atMost("other-chords", 100 * otherChords, 100 * settings.mostOtherChords(), "%")
        .make();
  }

  private static Sentence joined(List<Sentence> words) {
    Sentence all = words.get(0);
    for (Sentence word : words.subList(1, words.size())) {
      all = Sentence.of("respect.and", all, word);
    }
    return all;
  }

  /** A part by its number, a layer by its name. */
  private static Sentence words(String name) {
    boolean part =
        PartName.isVoice(name)
            || PartName.isLine(name)
            || name.equals(PartName.BASS)
            || name.equals(PartName.MELODY);
    return part
        ? new Part(name, List.of()).words()
        : Sentence.of("layered-repeat.of." + name.replace(' ', '-'));
  }
}
