package undersong.technique.melody;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import undersong.reading.Facet;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.technique.Certainty;
import undersong.technique.Finding;
import undersong.technique.FindingDraft;
import undersong.technique.PitchName;
import undersong.technique.Pulse;
import undersong.technique.SongSection;
import undersong.technique.Technique;
import undersong.technique.TechniqueFinder;

/** The highest note of the tune is saved for one late section. */
final class MelodicPeak implements TechniqueFinder {
  private final Settings settings;

  MelodicPeak(Settings settings) {
    this.settings = settings;
  }

  /**
   * @param leastSemitones above the highest note elsewhere
   * @param leastSeconds a note must last to count at all
   * @param earliestShare of the song after which a section is late
   * @param leapSemitones from both neighbors beyond which the octave is in doubt
   */
  record Settings(
      double leastSemitones, double leastSeconds, double earliestShare, double leapSemitones) {
    static final Settings DEFAULTS = new Settings(2, 0.12, 0.5, 10);
  }

  @Override
  public Set<Technique> techniques() {
    return Set.of(Technique.MELODIC_PEAK);
  }

  @Override
  public Set<Facet<?>> reads() {
    return Set.of(Facet.BEATS, Facet.METER, Facet.FORM, Facet.ROLES, Facet.MELODY);
  }

  @Override
  public Set<Facet<?>> alsoReads() {
    return Set.of(Facet.KEYS);
  }

  @Override
  public List<Finding> find(Reading reading) {
    List<NoteEvent> tune =
        reading.get(Facet.MELODY).notes().stream()
            .filter(note -> note.span().lengthSeconds() >= settings.leastSeconds())
            .toList();
    int highest = -1;
    for (int i = 0; i < tune.size(); i++) {
      highest =
          highest < 0 || tune.get(i).midiPitch() > tune.get(highest).midiPitch() ? i : highest;
    }
    List<SongSection> sections = SongSection.of(reading);
    if (highest < 0 || sections.size() < 2) {
      return List.of();
    }
    NoteEvent peak = tune.get(highest);
    Optional<SongSection> section = SongSection.at(sections, peak.span());
    boolean late =
        peak.span().startSeconds() >= settings.earliestShare() * reading.durationSeconds();
    if (section.isEmpty() || !late) {
      return List.of();
    }
    double elsewhere =
        tune.stream()
            .filter(note -> !note.span().overlaps(section.get().span()))
            .mapToDouble(NoteEvent::midiPitch)
            .max()
            .orElse(Double.NEGATIVE_INFINITY);
    double above = peak.midiPitch() - elsewhere;
    if (!(above >= settings.leastSemitones() - 0.6) || Double.isInfinite(above)) {
      return List.of();
    }
    return List.of(finding(tune, highest, elsewhere, section.get(), reading));
  }

  private Finding finding(
      List<NoteEvent> tune, int highest, double elsewhere, SongSection section, Reading reading) {
    NoteEvent peak = tune.get(highest);
    double above = peak.midiPitch() - elsewhere;
    String name = PitchName.of(peak.midiPitch(), peak.span().startSeconds(), reading);
    return FindingDraft.of(Technique.MELODIC_PEAK, peak.span())
        .bars(Pulse.of(reading).bars(peak.span()))
        .sure(
            peak.probability(),
            Certainty.beyond(above, settings.leastSemitones() - 0.5, 0.5),
            sureOfOctave(tune, highest))
        .strength(0.4 + above / 12)
        .group(section.letter())
        .says("summary", section.words(), name, above)
        .hear("hear", name)
        .atLeast("above", above, settings.leastSemitones(), "semitones")
        .read(Facet.MELODY, peak.span(), name)
        .make();
  }

  /** A note that leaps far up and far down again is an octave error more often than a peak. */
  private double sureOfOctave(List<NoteEvent> tune, int at) {
    double before = at > 0 ? tune.get(at).midiPitch() - tune.get(at - 1).midiPitch() : 0;
    double after =
        at + 1 < tune.size() ? tune.get(at).midiPitch() - tune.get(at + 1).midiPitch() : 0;
    return Math.min(before, after) > settings.leapSemitones() ? 0.3 : 1;
  }
}
