package undersong.technique.harmony;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import undersong.reading.Facet;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.technique.ChordPath;
import undersong.technique.ChordStep;
import undersong.technique.Finding;
import undersong.technique.FindingDraft;
import undersong.technique.Part;
import undersong.technique.Pulse;
import undersong.technique.SongSection;
import undersong.technique.Technique;
import undersong.technique.TechniqueFinder;
import undersong.theory.ChordSymbol.Chord;
import undersong.theory.Spelling;
import undersong.time.Span;

/**
 * One voice walks by semitones in one direction through three or more chords while their root
 * holds: the note each step arrives at is the one the next departs from.
 */
final class ChromaticInnerLine implements TechniqueFinder {
  private static final int LEAST_CHORDS = 3;

  @Override
  public Set<Technique> techniques() {
    return Set.of(Technique.CHROMATIC_INNER_LINE);
  }

  @Override
  public Set<Facet<?>> reads() {
    return HarmonyFinders.CHORDS_IN_SECTIONS;
  }

  @Override
  public Set<Facet<?>> alsoReads() {
    return Set.of(Facet.VOICES, Facet.LINES);
  }

  @Override
  public List<Finding> find(Reading reading) {
    Pulse pulse = Pulse.of(reading);
    List<SongSection> sections = SongSection.of(reading);
    ChordPath path = ChordPath.of(reading);
    int[] notes = path.steps().stream().mapToInt(ChromaticInnerLine::aboveRoot).toArray();
    List<Finding> findings = new ArrayList<>();
    int i = 0;
    while (i < path.size()) {
      List<Integer> line = longestFrom(path, notes, i);
      if (line.size() >= LEAST_CHORDS) {
        findings.add(finding(path, i, line, sections, pulse));
        i += line.size() - 1;
      } else {
        i++;
      }
    }
    for (Part part : parts(reading)) {
      for (ChromaticPart walk : ChromaticPart.in(part, path, pulse)) {
        if (findings.stream().noneMatch(told -> told.span().overlaps(walk.span()))) {
          findings.add(finding(walk, pulse));
        }
      }
    }
    return findings;
  }

  private static List<Part> parts(Reading reading) {
    List<Part> parts = new ArrayList<>();
    reading
        .find(Facet.VOICES)
        .ifPresent(heard -> heard.voices().forEach(v -> parts.add(new Part(v.name(), v.events()))));
    reading
        .find(Facet.LINES)
        .ifPresent(
            heard -> heard.lines().forEach(line -> parts.add(new Part(line.name(), line.notes()))));
    return parts;
  }

  private static Finding finding(ChromaticPart walk, Pulse pulse) {
    List<String> names = new ArrayList<>();
    double sure = walk.step().sureOfRoot();
    for (NoteEvent note : walk.notes()) {
      names.add(Spelling.passing(note.pitchClass(), walk.step().key(), !walk.falls()).toString());
      sure *= note.probability();
    }
    String notes = String.join(" ", names);
    FindingDraft draft =
        FindingDraft.of(Technique.CHROMATIC_INNER_LINE, walk.span())
            .bars(pulse.bars(walk.span()))
            .sure(sure)
            .strength(0.3 + 0.15 * walk.notes().size())
            .group(notes)
            .says(
                walk.falls() ? "summary.falls" : "summary.rises",
                notes,
                walk.step().chord().root().toString())
            .hear("hear", notes);
    for (int i = 0; i < walk.notes().size(); i++) {
      draft.read(
          walk.part().name().startsWith("line") ? Facet.LINES : Facet.VOICES,
          walk.notes().get(i).span(),
          names.get(i));
    }
    return draft.make();
  }

  /** Semitones above the root of the longest line that starts here, one entry per chord. */
  private static List<Integer> longestFrom(ChordPath path, int[] notes, int start) {
    List<Integer> longest = List.of();
    for (int direction : new int[] {-1, 1}) {
      for (int semitones = 0; semitones < 12; semitones++) {
        List<Integer> line = line(path, notes, start, semitones, direction);
        longest = line.size() > longest.size() ? line : longest;
      }
    }
    return longest;
  }

  private static List<Integer> line(
      ChordPath path, int[] notes, int start, int from, int direction) {
    List<Integer> line = new ArrayList<>();
    if (!has(notes[start], from)) {
      return line;
    }
    line.add(from);
    int root = path.get(start).chord().root().pitchClass();
    int at = from;
    int i = start;
    while (path.goesOn(i)) {
      int arrival = Math.floorMod(at + direction, 12);
      boolean rootHolds = path.get(i + 1).chord().root().pitchClass() == root;
      // The root is doubled, so that a line may leave it behind; any other note must be given up.
      boolean leaves = at == 0 || !has(notes[i + 1], at);
      boolean isNew = !has(notes[i], arrival);
      if (!rootHolds || !leaves || !isNew || !has(notes[i + 1], arrival)) {
        break;
      }
      line.add(arrival);
      at = arrival;
      i++;
    }
    return line;
  }

  /** What sounds, as bits by semitones above the root. */
  private static int aboveRoot(ChordStep step) {
    int bits = step.chord().pitchClassBits();
    int root = step.chord().root().pitchClass();
    return (bits >> root | bits << (12 - root)) & 0xFFF;
  }

  private static boolean has(int notes, int semitones) {
    return (notes & 1 << semitones) != 0;
  }

  private static boolean holds(Chord chord, int semitonesAboveRoot) {
    int pitchClass = Math.floorMod(chord.root().pitchClass() + semitonesAboveRoot, 12);
    return (chord.pitchClassBits() & 1 << pitchClass) != 0;
  }

  private static Finding finding(
      ChordPath path, int first, List<Integer> line, List<SongSection> sections, Pulse pulse) {
    int last = first + line.size() - 1;
    Span span = path.span(first, last);
    List<ChordStep> steps = path.steps().subList(first, last + 1);
    ChordStep start = steps.get(0);
    boolean falls = Math.floorMod(line.get(1) - line.get(0), 12) == 11;
    List<String> names = new ArrayList<>();
    double sure = 1;
    for (int i = 0; i < line.size(); i++) {
      int semitones = line.get(i);
      int pitchClass = Math.floorMod(start.chord().root().pitchClass() + semitones, 12);
      names.add(Spelling.passing(pitchClass, start.key(), !falls).toString());
      int root = start.chord().root().pitchClass();
      sure *=
          steps.get(i).sure(chord -> chord.root().pitchClass() == root && holds(chord, semitones));
    }
    String notes = String.join(" ", names);
    FindingDraft draft =
        FindingDraft.of(Technique.CHROMATIC_INNER_LINE, span)
            .bars(pulse.bars(span))
            .sure(sure)
            .strength(0.3 + 0.15 * line.size())
            .group(HarmonyFinders.letter(sections, span) + " " + start.chord().root())
            .says(falls ? "summary.falls" : "summary.rises", notes, start.chord().root().toString())
            .hear("hear", notes);
    steps.forEach(step -> draft.read(Facet.CHORDS, step.span(), step.chordText()));
    return draft.make();
  }
}
