package undersong.bench.plant;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.stream.Stream;
import undersong.technique.Technique;

/**
 * Composes a set of songs, each with a few techniques that do not undo one another, so that over
 * the set each is planted about equally often; one song in eight holds nothing but what is plain.
 * Equal seeds give equal songs.
 */
public final class Composer {
  static final int LOWEST = 60;
  static final int HIGHEST = 72;
  static final boolean[] WHITE_KEYS = {
    true, false, true, false, true, true, false, true, false, true, false, true
  };

  private static final int MOST_PER_SONG = 6;
  private static final int PLAIN_EVERY = 8;

  /** Semitones between tunes that a listener may hear as a lift. */
  private static final double LIFT = 2.5;

  private static final List<String> PLAIN_MAJOR =
      List.of(
          "C|F|G|C|Am|F|G|C",
          "C|Em|Am|F|Dm|Am|G|C",
          "Am|C|F|Dm|Am|F|G|C",
          "F|C|Dm|Am|F|Em|G|C",
          "C|G|F|Am|Dm|F|G|C",
          "C|Dm|F|Am|C|F|G|C",
          "Em|Am|G|C|Dm|Am|G|C");
  private static final List<String> PLAIN_MINOR =
      List.of(
          "Am|Dm|C|F|Am|Dm|Em|Am",
          "Am|C|Dm|F|Dm|Am|Em|Am",
          "F|C|Dm|Am|F|Dm|Em|Am",
          "Dm|Am|C|F|C|Dm|Em|Am");
  private static final List<String> KEYS = List.of("x---x---", "x-x-x-x-", "x-------");
  private static final List<String> BASSES = List.of("x---x---", "x-x-x-x-", "x-------");

  private final Map<Technique, Integer> planted = new EnumMap<>(Technique.class);
  private final Random chance;

  private Composer(long seed) {
    this.chance = new Random(seed);
  }

  /**
   * @param id prefix of the songs' ids
   */
  public static List<PlantedSong> songs(String id, int count, long seed) {
    Composer composer = new Composer(seed);
    List<PlantedSong> songs = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      songs.add(composer.song("%s-%02d".formatted(id, i + 1), i % PLAIN_EVERY == PLAIN_EVERY - 1));
    }
    return songs;
  }

  static List<Recipe> recipes() {
    return Stream.of(
            HarmonyRecipes.all(),
            MelodyRecipes.all(),
            RhythmRecipes.all(),
            FormRecipes.all(),
            ProductionRecipes.all())
        .flatMap(List::stream)
        .toList();
  }

  private PlantedSong song(String id, boolean plain) {
    boolean minor = chance.nextInt(5) < 2;
    List<Recipe> chosen = plain ? List.of() : choose(minor);
    chosen.forEach(recipe -> planted.merge(recipe.technique(), 1, Integer::sum));
    List<String> pool = new ArrayList<>(minor ? PLAIN_MINOR : PLAIN_MAJOR);
    java.util.Collections.shuffle(pool, chance);
    Plan plan = new Plan(new Random(chance.nextLong()), minor, pool.get(0), pool.get(1));
    plan.bpm = 112 + chance.nextInt(36);
    plan.partSettings.put("keys", plan.any(KEYS));
    plan.partSettings.put("bass", plan.any(BASSES));
    plan.partSettings.put("hat", plan.any(List.of("xxxxxxxx", "x.x.x.x.")));
    chosen.forEach(recipe -> recipe.chords().accept(plan));
    tunes(plan);
    chosen.forEach(recipe -> recipe.tune().accept(plan));
    layOut(plan);
    chosen.forEach(recipe -> recipe.form().accept(plan));
    chosen.forEach(recipe -> recipe.arrange().accept(plan));
    chosen.forEach(recipe -> plan.arguable.addAll(recipe.arguable()));
    if (median(plan.last("B")) - median(plan.first("A")) >= LIFT) {
      // by chance, or because notes gave way to an answer: a lift is a lift
      plan.arguable.add(Technique.REGISTER_LIFT);
    }
    Set<Technique> names = EnumSet.noneOf(Technique.class);
    chosen.forEach(recipe -> names.add(recipe.technique()));
    return new PlantedSong(
        id,
        ScorePrinter.print(id, plan, chance.nextInt(10) - 4, chance.nextInt(1_000_000)),
        names,
        plan.arguable);
  }

  private List<Recipe> choose(boolean minor) {
    List<Recipe> order = new ArrayList<>(recipes());
    java.util.Collections.shuffle(order, chance);
    order.sort(Comparator.comparingInt(r -> planted.getOrDefault(r.technique(), 0)));
    Set<Recipe.Slot> taken = EnumSet.noneOf(Recipe.Slot.class);
    Set<Technique> arguable = EnumSet.noneOf(Technique.class);
    List<Recipe> chosen = new ArrayList<>();
    for (Recipe recipe : order) {
      boolean fits =
          recipe.tonality() == Recipe.Tonality.ANY
              || (recipe.tonality() == Recipe.Tonality.MINOR) == minor;
      boolean free = recipe.takes().stream().noneMatch(taken::contains);
      boolean clear =
          !arguable.contains(recipe.technique())
              && chosen.stream().noneMatch(c -> recipe.arguable().contains(c.technique()));
      if (fits && free && clear && chosen.size() < MOST_PER_SONG) {
        chosen.add(recipe);
        taken.addAll(recipe.takes());
        arguable.addAll(recipe.arguable());
      }
    }
    // Who thins a chorus out comes after those who dress it up.
    chosen.sort(Comparator.comparingInt(r -> r.technique() == Technique.DROP_CHORUS ? 1 : 0));
    return chosen;
  }

  /** Tunes of verse and chorus in the same place of the voice. */
  private static void tunes(Plan plan) {
    new TuneMaker(plan.chance, LOWEST, HIGHEST).write(plan.verse, WHITE_KEYS);
    double verse = median(plan.verse);
    for (int attempt = 0; attempt < 20; attempt++) {
      new TuneMaker(plan.chance, LOWEST, HIGHEST).write(plan.chorus, WHITE_KEYS);
      if (Math.abs(median(plan.chorus) - verse) < 2) {
        return;
      }
    }
  }

  private static double median(Passage passage) {
    int[] sorted =
        passage.tune.stream()
            .flatMapToInt(java.util.Arrays::stream)
            .filter(p -> p > 0)
            .sorted()
            .toArray();
    return sorted[sorted.length / 2];
  }

  private static void layOut(Plan plan) {
    plan.sections.add(plan.verse.copy());
    plan.sections.add(plan.chorus.copy());
    plan.sections.add(plan.verse.copy());
    plan.sections.add(plan.chorus.copy());
    String tonic = plan.minor ? "Am" : "C";
    Passage end = new Passage("outro", "Z", String.join("|", tonic, tonic, tonic));
    for (int bar = 0; bar < end.bars(); bar++) {
      end.tune.add(new int[Passage.SLOTS]);
    }
    end.parts.put("keys", "follows x-------|--------|--------");
    end.parts.put("bass", "follows x-------|--------|--------");
    end.parts.put("kick", "follows x.......|........|........");
    end.parts.put("snare", "rests");
    end.parts.put("hat", "rests");
    plan.sections.add(end);
  }

  /** What a part does where nothing else is said. */
  static String usual(Plan plan, String part) {
    return switch (part) {
      case "kick" -> "follows x...x...";
      case "snare" -> "follows ..x...x.";
      default -> "follows " + plan.partSettings.get(part);
    };
  }

  /** A bar of a tune as a score writes it, pitches in braces until the key is known. */
  static String bar(int[] slots) {
    StringBuilder text = new StringBuilder();
    boolean sounding = slots[0] == Passage.HOLD; // from the bar before
    for (int slot : slots) {
      boolean holds = slot == Passage.HOLD && sounding;
      sounding = holds || slot > 0;
      text.append(slot > 0 ? "{%d} ".formatted(slot) : holds ? "- " : ". ");
    }
    return text.toString().strip();
  }
}
