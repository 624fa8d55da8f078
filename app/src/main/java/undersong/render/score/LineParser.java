package undersong.render.score;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import undersong.reading.TimeSignature;
import undersong.theory.ChordQuality;
import undersong.theory.ChordSymbol;
import undersong.theory.ChordSymbol.Chord;
import undersong.theory.Interval;
import undersong.theory.LeadSheet;
import undersong.theory.NoteName;
import undersong.theory.SpelledPitch;

/**
 * Reads the bars of one section. A bar is cut into as many equal slots as it has words; {@code -}
 * holds what went before, {@code .} rests. Fewer bars than the section has are repeated.
 */
final class LineParser {
  private static final double NORMAL = 0.72;
  private static final double ACCENT = 0.95;

  private final TimeSignature meter;
  private final int bars;
  private final Optional<Interval> up;

  LineParser(TimeSignature meter, int bars, Optional<Interval> up) {
    this.meter = meter;
    this.bars = bars;
    this.up = up;
  }

  private interface WordReader<T> {
    T read(SourceLine line, String word);
  }

  List<Placed<ChordSymbol>> chords(List<SourceLine> lines) {
    return slots(lines, this::chord);
  }

  List<Placed<Written>> notes(List<SourceLine> lines) {
    return slots(lines, this::note);
  }

  private <T> List<Placed<T>> slots(List<SourceLine> lines, WordReader<T> reader) {
    List<Placed<T>> placed = new ArrayList<>();
    boolean holding = false;
    int bar = 0;
    int written = written(lines);
    for (int round = 0; round < bars / written; round++) {
      for (SourceLine line : lines) {
        for (String text : line.bars()) {
          String[] words = text.split("\\s+", -1);
          double slot = (double) meter.beats() / words.length;
          for (int i = 0; i < words.length; i++) {
            double start = bar * meter.beats() + i * slot;
            if (words[i].equals("-")) {
              if (!holding) {
                throw line.wrong("\"-\" in bar %d holds nothing", bar + 1);
              }
              Placed<T> last = placed.remove(placed.size() - 1);
              placed.add(new Placed<>(last.startBeat(), last.lengthBeats() + slot, last.value()));
            } else if (words[i].equals(".")) {
              holding = false;
            } else {
              placed.add(new Placed<>(start, slot, reader.read(line, words[i])));
              holding = true;
            }
          }
          bar++;
        }
      }
    }
    return placed;
  }

  private int written(List<SourceLine> lines) {
    int written = lines.stream().mapToInt(line -> line.bars().size()).sum();
    if (bars % written != 0) {
      throw lines
          .get(lines.size() - 1)
          .wrong("%d bars are written, which do not fill the section's %d", written, bars);
    }
    return written;
  }

  Pattern pattern(List<SourceLine> lines) {
    if (lines.get(0).rest().equals("held")) {
      return Pattern.HELD;
    }
    written(lines);
    List<String> texts = new ArrayList<>();
    for (SourceLine line : lines) {
      for (String bar : line.bars()) {
        String text = bar.replace(" ", "");
        if (!text.matches("[xX1-8.-]+")) {
          throw line.wrong("a pattern is made of x X 1 to 8 - and . only, not \"%s\"", bar);
        }
        texts.add(text);
      }
    }
    return new Pattern(texts);
  }

  /** Syllables: spaces part words, hyphens part syllables, "_" sings on. */
  List<String> syllables(List<SourceLine> lines) {
    List<String> syllables = new ArrayList<>();
    for (SourceLine line : lines) {
      for (String word : line.rest().split("\\s+", -1)) {
        syllables.addAll(Arrays.asList(word.split("-", -1)));
      }
    }
    return syllables;
  }

  private ChordSymbol chord(SourceLine line, String word) {
    ChordSymbol symbol;
    try {
      symbol =
          word.matches("[A-G][#b]?1")
              ? ChordSymbol.of(
                  NoteName.parse(word.substring(0, word.length() - 1)), ChordQuality.ROOT)
              : LeadSheet.parse(word);
    } catch (IllegalArgumentException wrong) {
      throw line.wrong("%s", wrong.getMessage());
    }
    if (up.isPresent() && symbol instanceof Chord chord) {
      return chord.up(up.get().fifths());
    }
    return symbol;
  }

  private Written note(SourceLine line, String word) {
    String text = word;
    boolean thrown = text.endsWith("!");
    text = thrown ? text.substring(0, text.length() - 1) : text;
    boolean accented = text.endsWith(">");
    text = accented ? text.substring(0, text.length() - 1) : text;
    double strength = accented ? ACCENT : NORMAL;
    int pitch = text.equals("x") ? 0 : pitch(line, text) + up.map(Interval::semitones).orElse(0);
    return new Written(pitch, strength, thrown);
  }

  /** Reads "f#4" as a MIDI pitch. */
  static int pitch(SourceLine line, String word) {
    try {
      String letter = word.substring(0, 1).toUpperCase(Locale.ROOT);
      return SpelledPitch.parse(letter + word.substring(1)).midi();
    } catch (IllegalArgumentException | StringIndexOutOfBoundsException wrong) {
      throw line.wrong("\"%s\" is no pitch; write one like f#4, - to hold or . to rest", word);
    }
  }

  static Mix mix(SourceLine line, Map<String, String> named) {
    Map<String, Double> values = new HashMap<>();
    named.forEach(
        (name, value) -> {
          if (!Mix.names().contains(name)) {
            throw line.wrong("a mix has no \"%s\"; it has %s", name, Mix.names());
          }
          values.put(name, line.number(value));
        });
    return new Mix(values);
  }
}
