package undersong.technique.harmony;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import undersong.reading.Facet;
import undersong.reading.Reading;
import undersong.technique.ChordPath;
import undersong.technique.Finding;
import undersong.technique.FindingDraft;
import undersong.technique.NotesOverHarmony;
import undersong.technique.Part;
import undersong.technique.Pulse;
import undersong.technique.SongSection;
import undersong.technique.Technique;
import undersong.technique.TechniqueFinder;
import undersong.technique.Tone;
import undersong.technique.ToneRole;
import undersong.time.Span;

/** A note held or struck again means something new because the bass moved under it. */
final class ReinterpretedTone implements TechniqueFinder {
  private final Settings settings;

  ReinterpretedTone(Settings settings) {
    this.settings = settings;
  }

  /**
   * @param leastBeats for which the note sounds with each chord
   * @param longestGapBeats after which it is not the same note any more
   * @param sameCents within which two pitches are the same
   */
  record Settings(double leastBeats, double longestGapBeats, double sameCents) {
    static final Settings DEFAULTS = new Settings(0.9, 1, 50);
  }

  @Override
  public Set<Technique> techniques() {
    return Set.of(Technique.REINTERPRETED_TONE);
  }

  @Override
  public Set<Facet<?>> reads() {
    return HarmonyFinders.with(Facet.MELODY);
  }

  @Override
  public Set<Facet<?>> alsoReads() {
    return Set.of(Facet.VOICES);
  }

  @Override
  public List<Finding> find(Reading reading) {
    Pulse pulse = Pulse.of(reading);
    ChordPath path = ChordPath.of(reading);
    List<SongSection> sections = SongSection.of(reading);
    List<Finding> findings = new ArrayList<>();
    for (Part part : Part.sung(reading)) {
      List<Tone> tones = NotesOverHarmony.of(part.notes(), path, pulse);
      for (int i = 0; i + 1 < tones.size(); i++) {
        if (turns(tones.get(i), tones.get(i + 1), pulse)) {
          findings.add(finding(part, tones.get(i), tones.get(i + 1), sections, pulse));
        }
      }
    }
    return findings;
  }

  private boolean turns(Tone before, Tone after, Pulse pulse) {
    double cents = 100 * Math.abs(before.note().midiPitch() - after.note().midiPitch());
    double gap = pulse.beats(before.span().endSeconds(), after.span().startSeconds());
    boolean sameNote = cents <= settings.sameCents() && gap <= settings.longestGapBeats();
    boolean bassMoves =
        after.stepIndex() == before.stepIndex() + 1
            && before.step().chord().bass().pitchClass()
                != after.step().chord().bass().pitchClass();
    boolean oneIsForeign = before.role().belongs() != after.role().belongs();
    boolean bothRest =
        before.beats() >= settings.leastBeats() && after.beats() >= settings.leastBeats();
    boolean thirds =
        !before.step().chord().quality().hasNoThird()
            && !after.step().chord().quality().hasNoThird();
    // A suspension is old news: the ear expects it to fall.
    boolean suspended = after.role() == ToneRole.SUSPENSION;
    return sameNote && bassMoves && oneIsForeign && bothRest && thirds && !suspended;
  }

  private Finding finding(
      Part part, Tone before, Tone after, List<SongSection> sections, Pulse pulse) {
    Span span = new Span(before.span().startSeconds(), after.span().endSeconds());
    String note = before.name().toString();
    return FindingDraft.of(Technique.REINTERPRETED_TONE, span)
        .bars(pulse.bars(span))
        .sure(before.sure(), after.step().sureOfTriad())
        .strength(before.role().belongs() ? 0.5 : 0.7)
        .group(part.name() + " " + HarmonyFinders.letter(sections, span))
        .says(
            "summary",
            part.words(),
            note,
            before.overRoot().toString(),
            before.step().chordText(),
            after.overRoot().toString(),
            after.step().chordText())
        .hear("hear", note)
        .read(Facet.CHORDS, before.span(), note + " = " + before.overRoot())
        .read(Facet.CHORDS, after.span(), note + " = " + after.overRoot())
        .atLeast("beats", Math.min(before.beats(), after.beats()), settings.leastBeats(), "beats")
        .make();
  }
}
