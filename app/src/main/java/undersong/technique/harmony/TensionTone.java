package undersong.technique.harmony;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import undersong.reading.Facet;
import undersong.reading.Reading;
import undersong.technique.ChordPath;
import undersong.technique.ChordStep;
import undersong.technique.Finding;
import undersong.technique.FindingDraft;
import undersong.technique.NotesOverHarmony;
import undersong.technique.Part;
import undersong.technique.Pulse;
import undersong.technique.Technique;
import undersong.technique.TechniqueFinder;
import undersong.technique.Tone;
import undersong.technique.ToneRole;
import undersong.theory.ChordQuality;
import undersong.time.Span;

/** The tune, or a voice with it, rests on a note that is foreign to the chord below. */
final class TensionTone implements TechniqueFinder {
  private final Settings settings;

  TensionTone(Settings settings) {
    this.settings = settings;
  }

  /**
   * @param leastBeats for which the note rests
   * @param leastShare of its chord, where it does not begin on a strong beat
   */
  record Settings(double leastBeats, double leastShare) {
    static final Settings DEFAULTS = new Settings(1, 0.5);
  }

  @Override
  public Set<Technique> techniques() {
    return Set.of(Technique.TENSION_TONE);
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
    List<Finding> findings = new ArrayList<>();
    for (Part part : Part.sung(reading)) {
      List<Tone> resting =
          NotesOverHarmony.of(part.notes(), path, pulse).stream()
              .filter(tone -> rests(tone, pulse))
              .toList();
      for (int i = 0; i < resting.size(); ) {
        int end = i + 1;
        while (end < resting.size() && resting.get(end).stepIndex() == resting.get(i).stepIndex()) {
          end++;
        }
        findings.add(finding(part, resting.subList(i, end), pulse));
        i = end;
      }
    }
    return findings;
  }

  private boolean rests(Tone tone, Pulse pulse) {
    boolean longEnough = tone.beats() >= settings.leastBeats() - 0.05;
    boolean weighty =
        tone.strong() || tone.beats() >= settings.leastShare() * pulse.beats(tone.step().span());
    return tone.role() == ToneRole.TENSION && longEnough && weighty && isTension(tone);
  }

  /** 9, #11 over a major third, 13, major 7; over a dominant also b9, #9 and b13. */
  private static boolean isTension(Tone tone) {
    ChordStep step = tone.step();
    ChordQuality quality = step.chord().quality();
    boolean diminishedSeventh = quality == ChordQuality.DIMINISHED_SEVENTH;
    if (quality.hasNoThird() || diminishedSeventh) {
      return false;
    }
    int semitones = Math.floorMod(tone.note().pitchClass() - step.chord().root().pitchClass(), 12);
    return switch (semitones) {
      case 2, 9, 11 -> true;
      case 6 -> step.major();
      case 1, 3, 8 -> step.major() && (step.dominant() || step.applied());
      default -> false;
    };
  }

  private static Finding finding(Part part, List<Tone> tones, Pulse pulse) {
    Tone first = tones.get(0);
    ChordStep step = first.step();
    Span span =
        new Span(first.span().startSeconds(), tones.get(tones.size() - 1).span().endSeconds());
    String degrees =
        tones.stream()
            .map(tone -> tone.overRoot().toString())
            .distinct()
            .collect(Collectors.joining(", "));
    String notes =
        tones.stream()
            .map(tone -> tone.name().toString())
            .distinct()
            .collect(Collectors.joining(" "));
    FindingDraft draft =
        FindingDraft.of(Technique.TENSION_TONE, span)
            .bars(pulse.bars(span))
            .sure(tones.stream().mapToDouble(Tone::sure).max().orElse(0))
            .strength(tones.stream().mapToDouble(TensionTone::strength).max().orElse(0))
            .group(part.name() + " " + degrees)
            .says("summary", part.words(), notes, degrees, step.chordText())
            .hear("hear", notes, step.chordText());
    for (Tone tone : tones) {
      draft.read(Facet.MELODY, tone.span(), tone.name() + " = " + tone.overRoot());
    }
    return draft
        .read(Facet.CHORDS, first.span(), step.chordText())
        .atLeast(
            "beats",
            tones.stream().mapToDouble(Tone::beats).max().orElse(0),
            TensionTone.Settings.DEFAULTS.leastBeats(),
            "beats")
        .make();
  }

  /** The further from the triad the more marked; the tonic over the chord on b7 is everyday. */
  private static double strength(Tone tone) {
    boolean everyday =
        tone.step().root() == 10
            && Math.floorMod(tone.note().pitchClass() - tone.step().key().tonic().pitchClass(), 12)
                == 0;
    double colour =
        switch (tone.overRoot().toString()) {
          case "#11", "b9", "#9", "b13" -> 0.8;
          case "13", "7" -> 0.5;
          default -> 0.35;
        };
    return everyday ? 0.1 : colour + 0.05 * Math.min(4, tone.beats());
  }
}
