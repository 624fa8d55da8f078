package undersong.bench.plant;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import undersong.technique.Technique;

/** A song while it is being composed. */
final class Plan {
  final Random chance;
  final boolean minor;
  double bpm;
  int fadeBars;
  String mode;
  final Passage verse;
  final Passage chorus;

  /** The sections in order, once they are laid out. */
  final List<Passage> sections = new ArrayList<>();

  /** Settings of parts for the whole song, laid over the usual ones. */
  final Map<String, String> partSettings = new LinkedHashMap<>();

  /** Techniques a listener might name here beside those planted: neither right nor wrong. */
  final Set<Technique> arguable = new HashSet<>();

  Plan(Random chance, boolean minor, String verseChords, String chorusChords) {
    this.chance = chance;
    this.minor = minor;
    this.mode = minor ? "natural-minor" : "major";
    this.verse = new Passage("verse", "A", verseChords);
    this.chorus = new Passage("chorus", "B", chorusChords);
  }

  /** Sections of a letter, in order. */
  List<Passage> copies(String letter) {
    return sections.stream().filter(s -> s.letter.equals(letter)).toList();
  }

  Passage last(String letter) {
    List<Passage> copies = copies(letter);
    return copies.get(copies.size() - 1);
  }

  Passage first(String letter) {
    return copies(letter).get(0);
  }

  Passage ending() {
    return sections.get(sections.size() - 1);
  }

  <T> T any(List<T> choices) {
    return choices.get(chance.nextInt(choices.size()));
  }
}
