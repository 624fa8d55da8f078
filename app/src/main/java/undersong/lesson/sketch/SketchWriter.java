package undersong.lesson.sketch;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.random.RandomGenerator;
import undersong.lesson.sketch.Shape.Part;
import undersong.lesson.sketch.Shape.Tune;
import undersong.lesson.sketch.TuneWriter.Note;
import undersong.technique.Technique;
import undersong.theory.ChordSymbol.Chord;
import undersong.theory.Key;
import undersong.theory.LeadSheet;
import undersong.theory.NumeralSettings;
import undersong.theory.Numerals;
import undersong.theory.SpelledPitch;
import undersong.theory.Spelling;

/** Writes a shape down as a score: a key, a pace, a tune, a small band. */
final class SketchWriter {
  private static final String PARTS =
      """
      part lead   sound voice role melody level -6 pan 0 reverb 0.15
      part second sound voice role voice level -10 pan -0.3 reverb 0.18 loose 6 untuned 4
      part pluck  sound pluck role line range C4..C6 level -6 pan 0.2 reverb 0.12
      part horn   sound brass role line level -8 pan 0.15 reverb 0.15
      part riff   sound lead  role line level -9 pan 0.05 reverb 0.1
      part keys   sound keys  role accompaniment range A3..A4 level -8 pan -0.1 reverb 0.12
      part pad    sound pad   role accompaniment range G3..G4 level -14 pan 0 reverb 0.2
      part guitar sound drive role accompaniment range D3..D4 level -11 pan 0 drive 3 reverb 0.08
      part bass   sound bass  role bass range E2..D#3 level -5 pan 0
      part sub    sound sub   role effect range C1..B1 level -5 pan 0
      part rise   sound riser role effect level -9 reverb 0.15
      part swell  sound swell role effect level -9 reverb 0.2
      part kick   sound kick  role drums level -6
      part snare  sound snare role drums level -7 reverb 0.1
      part hat    sound hat   role drums level -10 pan -0.2
      """;
  private static final List<String> SYLLABLES =
      List.of("no", "wind", "on", "the", "long", "low", "quay", "to", "night", "may", "row");
  private static final int EIGHTHS = 8;

  /** Lines that are written out here, note by note. */
  private static final Set<String> WRITTEN =
      Set.of("second thirds", "second octave", "horn answers", "riff figure");

  private final Technique technique;
  private final Shape shape;
  private final Key key;
  private final int bpm;
  private final RandomGenerator random;

  SketchWriter(Technique technique, Shape shape, Key key, int bpm, RandomGenerator random) {
    this.technique = technique;
    this.shape = shape;
    this.key = key;
    this.bpm = bpm;
    this.random = random;
  }

  String write(long seed) {
    StringBuilder text = new StringBuilder();
    text.append("title Sketch %d\nmeter 4/4\ntempo %d\n".formatted(seed, bpm));
    text.append(
        "key %s %s\n"
            .formatted(key.tonic(), key.mode().hasMinorThird() ? "natural-minor" : "major"));
    text.append("offset 0.3\ntail 2\ngain -1\nseed %d\n\n".formatted(Math.floorMod(seed, 100_000)));
    text.append(PARTS);
    Map<String, List<Note>> tunes = new LinkedHashMap<>();
    int bar = 0;
    int number = 1;
    for (Part part : shape.sections()) {
      section(text, part, number++, bar, tunes);
      bar += part.chords().size();
    }
    return text.toString();
  }

  private void section(
      StringBuilder text, Part part, int number, int barsBefore, Map<String, List<Note>> tunes) {
    int bars = part.chords().size();
    text.append(
        "\nsection s%d role %s letter %s bars %d"
            .formatted(number, part.role(), part.letter(), bars));
    text.append(part.head().isEmpty() ? "" : " " + head(part)).append('\n');
    List<Chord> chords =
        part.chords().stream()
            .map(n -> Numerals.chord(Numerals.parse(n, key, NumeralSettings.DEFAULTS), key))
            .toList();
    text.append("  chords |");
    chords.forEach(
        chord -> text.append(' ').append(LeadSheet.print(Spelling.chord(chord, key))).append(" |"));
    text.append('\n');
    if (part.tune() != Tune.SILENT) {
      List<Note> tune =
          tunes.computeIfAbsent(
              part.letter() + part.chords() + part.tune(),
              same -> new TuneWriter(key, random).write(chords, part.tune()));
      line(text, "lead", tune, bars, 0);
      if (part.lines().contains("second thirds")) {
        line(text, "second", thirdsBelow(tune), bars, 0);
      }
      if (part.lines().contains("second octave")) {
        line(text, "second", tune, bars, -12);
      }
    }
    if (part.lines().contains("horn answers")) {
      played(text, "horn", new TuneWriter(key, random).answers(chords), bars, 0);
    }
    if (part.lines().contains("riff figure")) {
      played(text, "riff", new TuneWriter(key, random).figure(bars), bars, 0);
    }
    band(text, part);
    int from = Math.max(shape.shownFrom(), barsBefore + 1);
    int to = Math.min(shape.shownTo(), barsBefore + bars);
    if (from <= to) {
      text.append(
          "  plant %s %d-%d shown here%n"
              .formatted(technique.id(), from - barsBefore, to - barsBefore)
              .replace("\r", ""));
    }
  }

  /** "pace 1.15" is a tempo as many times the sketch's own. */
  private String head(Part part) {
    return part.head().startsWith("pace ")
        ? "tempo " + Math.round(bpm * Double.parseDouble(part.head().substring(5)))
        : part.head();
  }

  private void band(StringBuilder text, Part part) {
    Map<String, String> lines = new LinkedHashMap<>();
    lines.put("keys follows", "x---x---");
    lines.put("bass follows", "x---x---");
    lines.put("kick follows", "x.......x.......");
    lines.put("snare follows", "....x.......x...");
    lines.put("hat follows", "x.x.x.x.x.x.x.x.");
    for (String line : part.lines()) {
      String[] words = line.split(" ", 3);
      if (words[1].equals("rests")) {
        lines.remove(words[0] + " follows");
      } else if (!WRITTEN.contains(line)) {
        lines.put(words[0] + " " + words[1], words[2]);
      }
    }
    lines.forEach(
        (what, does) -> text.append("  ").append(what).append(' ').append(does).append('\n'));
  }

  private void line(StringBuilder text, String part, List<Note> notes, int bars, int up) {
    played(text, part, notes, bars, up);
    text.append("  ").append(part).append(" sings");
    for (int i = 0; i < notes.size(); i++) {
      text.append(' ').append(SYLLABLES.get(random.nextInt(SYLLABLES.size())));
    }
    text.append('\n');
  }

  private void played(StringBuilder text, String part, List<Note> notes, int bars, int up) {
    String[] slots = new String[bars * EIGHTHS];
    for (Note note : notes) {
      for (int i = 0; i < note.eighths() && note.eighth() + i < slots.length; i++) {
        slots[note.eighth() + i] = i == 0 ? pitch(note.midi() + up) : "-";
      }
    }
    text.append("  ").append(part).append(" plays |");
    for (int i = 0; i < slots.length; i++) {
      text.append(' ').append(slots[i] == null ? "." : slots[i]);
      text.append((i + 1) % EIGHTHS == 0 ? " |" : "");
    }
    text.append('\n');
  }

  private String pitch(int midi) {
    SpelledPitch pitch = Spelling.pitch(midi, key);
    return (pitch.name() + "" + pitch.octave()).toLowerCase(Locale.ROOT);
  }

  /** Two steps of the scale below each note. */
  private List<Note> thirdsBelow(List<Note> tune) {
    List<Note> below = new ArrayList<>();
    for (Note note : tune) {
      int midi = note.midi();
      for (int step = 0; step < 2; step++) {
        do {
          midi--;
        } while (!key.contains(Math.floorMod(midi, 12)));
      }
      below.add(new Note(note.eighth(), note.eighths(), midi));
    }
    return below;
  }
}
