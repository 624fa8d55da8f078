package undersong.technique.harmony;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import undersong.reading.Facet;
import undersong.reading.Reading;
import undersong.technique.ChordPath;
import undersong.technique.ChordStep;
import undersong.technique.Finding;
import undersong.technique.FindingDraft;
import undersong.technique.NotesOverHarmony;
import undersong.technique.Part;
import undersong.technique.Pulse;
import undersong.technique.SongEnding;
import undersong.technique.Technique;
import undersong.technique.TechniqueFinder;
import undersong.technique.Tone;
import undersong.theory.ChordQuality;
import undersong.time.Span;

/**
 * The last sound is no plain tonic: another root, or a note beside the triad. The tonic with its
 * sixth, and in a blues with its lowered seventh, is coloured but at rest.
 */
final class UnresolvedEnding implements TechniqueFinder {
  private static final double LEAST_BEATS = 1;

  @Override
  public Set<Technique> techniques() {
    return Set.of(Technique.UNRESOLVED_ENDING);
  }

  @Override
  public Set<Facet<?>> reads() {
    return HarmonyFinders.with(Facet.MELODY, Facet.BASS);
  }

  @Override
  public Set<Facet<?>> alsoReads() {
    return Set.of(Facet.VOICES, Facet.DYNAMICS);
  }

  @Override
  public List<Finding> find(Reading reading) {
    Pulse pulse = Pulse.of(reading);
    ChordPath path = ChordPath.of(reading);
    boolean fades = SongEnding.of(reading).filter(SongEnding::fades).isPresent();
    if (!pulse.isThere() || path.size() < 2 || fades) {
      return List.of();
    }
    ChordStep last = path.get(path.size() - 1);
    if (pulse.beats(last.span()) < LEAST_BEATS) {
      return List.of();
    }
    List<Finding> findings = new ArrayList<>();
    if (last.root() != 0) {
      findings.add(
          draft(last, pulse)
              .sure(
                  last.sure(chord -> chord.root().pitchClass() != last.key().tonic().pitchClass()),
                  last.keyProbability())
              .strength(0.6)
              .says("summary.root", last.chordText(), last.numeralText())
              .hear("hear.root", last.key().tonic().toString())
              .make());
      return findings;
    }
    Tone held = held(reading, path, pulse);
    if (held != null) {
      findings.add(
          draft(last, pulse)
              .sure(held.sure(), last.keyProbability())
              .strength(0.7)
              .says(
                  "summary.voice",
                  new Part(partOf(reading, held), List.of()).words(),
                  held.name().toString(),
                  held.overRoot().toString(),
                  last.chordText())
              .hear("hear.voice", held.name().toString())
              .make());
    } else if (coloured(last)) {
      findings.add(
          draft(last, pulse)
              .sure(
                  last.sure(
                      chord ->
                          !chord.equals(plain(last)) && chord.root().equals(last.chord().root())),
                  last.keyProbability())
              .strength(0.5)
              .says("summary.chord", last.chordText())
              .hear("hear.chord", last.chordText())
              .make());
    }
    return findings;
  }

  private static FindingDraft draft(ChordStep last, Pulse pulse) {
    Span span = last.span();
    return FindingDraft.of(Technique.UNRESOLVED_ENDING, span)
        .bars(pulse.bars(span))
        .group("end")
        .read(Facet.HARMONY, span, last.numeralText() + " = " + last.chordText());
  }

  /** The last note of a voice where it rests beside the triad; null where none does. */
  private static Tone held(Reading reading, ChordPath path, Pulse pulse) {
    Tone found = null;
    for (Part part : Part.sung(reading)) {
      List<Tone> tones = NotesOverHarmony.of(part.notes(), path, pulse);
      if (tones.isEmpty()) {
        continue;
      }
      Tone end = tones.get(tones.size() - 1);
      boolean atTheEnd = end.stepIndex() == path.size() - 1 && end.beats() >= LEAST_BEATS;
      if (atTheEnd && !end.role().belongs() && !atRest(end)) {
        found = end;
      }
    }
    return found;
  }

  /** The sixth, and the lowered seventh of a major chord, rest on the tonic. */
  private static boolean atRest(Tone tone) {
    int semitones =
        Math.floorMod(tone.note().pitchClass() - tone.step().chord().root().pitchClass(), 12);
    return semitones == 9 || (semitones == 10 && tone.step().major());
  }

  private static String partOf(Reading reading, Tone tone) {
    return Part.sung(reading).stream()
        .filter(part -> part.notes().contains(tone.note()))
        .findFirst()
        .map(Part::name)
        .orElse("melody");
  }

  private static boolean coloured(ChordStep step) {
    ChordQuality quality = step.chord().quality();
    boolean addedBeyond =
        step.chord().addedSemitones().stream().anyMatch(s -> s % 12 != 9 && s % 12 != 10);
    boolean foreign =
        quality.contains(11) || quality.contains(2) || quality.contains(5) || quality.contains(6);
    return addedBeyond || foreign;
  }

  private static Object plain(ChordStep step) {
    return undersong.theory.ChordSymbol.of(
        step.chord().root(), step.minor() ? ChordQuality.MINOR : ChordQuality.MAJOR);
  }
}
