package undersong.theory;

import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import undersong.theory.ChordSymbol.Chord;

/** Seeded chords for properties. */
final class RandomChords {
  private RandomChords() {}

  static Chord any(Random random) {
    NoteName root = new NoteName(random.nextInt(22) - 8);
    List<ChordQuality> qualities = List.of(ChordQuality.values());
    ChordQuality quality = qualities.get(random.nextInt(qualities.size()));
    Set<Integer> added = new TreeSet<>();
    for (int i = random.nextInt(4); i > 0; i--) {
      int semitones = 1 + random.nextInt(21);
      boolean third = semitones == 3 || semitones == 4;
      boolean free = !ChordNaming.members(quality).contains(semitones);
      if (free && !(third && quality.hasNoThird())) {
        added.add(semitones);
      }
    }
    Set<Integer> omitted = new TreeSet<>();
    if (quality.contains(7) && !quality.hasNoThird() && random.nextInt(4) == 0) {
      omitted.add(7);
    }
    Chord upright = new Chord(root, quality, added, omitted, root);
    int bass = 1 + random.nextInt(11);
    return random.nextBoolean()
        ? upright
        : upright.withBass(ChordNaming.spelledAdded(upright, bass).above(root));
  }
}
