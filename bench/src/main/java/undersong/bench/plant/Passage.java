package undersong.bench.plant;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * One section while it is being composed, written in C (or in the mode on C's white keys) and
 * turned into the song's key at the end.
 */
final class Passage {
  /** Eighths of a bar of four beats. */
  static final int SLOTS = 8;

  static final int REST = 0;
  static final int HOLD = -1;

  final String role;
  final String letter;
  double earlyBeats;

  /** Interval in words by which the whole section is lifted; empty where it is not. */
  String up = "";

  /** Beats of its bars, where they differ from the song's; 0 as a rule. */
  int beatsPerBar;

  /** Tempo against the song's. */
  double tempoFactor = 1;

  /** Chords of each bar as lead-sheet symbols, evenly spread: "C", "C G". */
  final List<String> chords = new ArrayList<>();

  /** The tune, a MIDI pitch, {@link #REST} or {@link #HOLD} per slot. */
  final List<int[]> tune = new ArrayList<>();

  /** What other parts do: a line of the score after the part's name. */
  final Map<String, String> parts = new LinkedHashMap<>();

  /** What is done to a part's sound. */
  final Map<String, String> mixes = new LinkedHashMap<>();

  /** Techniques as "id first-last", bars from 1. */
  final List<String> plants = new ArrayList<>();

  Passage(String role, String letter, String chordLine) {
    this.role = role;
    this.letter = letter;
    chords(chordLine);
  }

  int bars() {
    return chords.size();
  }

  /** Replaces all chords; bars are parted by "|". */
  void chords(String line) {
    chords.clear();
    Arrays.stream(line.split("\\|", -1)).map(String::strip).forEach(chords::add);
  }

  void plant(String id, int firstBar, int lastBar) {
    plants.add("%s %d-%d".formatted(id, firstBar, lastBar));
  }

  void plant(String id) {
    plant(id, 1, bars());
  }

  Passage copy() {
    Passage copy = new Passage(role, letter, String.join("|", chords));
    copy.earlyBeats = earlyBeats;
    copy.up = up;
    copy.beatsPerBar = beatsPerBar;
    copy.tempoFactor = tempoFactor;
    tune.forEach(bar -> copy.tune.add(bar.clone()));
    copy.parts.putAll(parts);
    copy.mixes.putAll(mixes);
    copy.plants.addAll(plants);
    return copy;
  }

  /** Moves the tune by semitones. */
  void shiftTune(int semitones) {
    for (int[] bar : tune) {
      for (int i = 0; i < SLOTS; i++) {
        bar[i] = bar[i] > 0 ? bar[i] + semitones : bar[i];
      }
    }
  }
}
