package undersong.bench.plant;

import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.function.Consumer;
import undersong.technique.Technique;

/**
 * How one technique is put into a song. Chords come first, then the tune is written over them, then
 * the sections are laid out, then arranged; a recipe may have a hand in each step.
 *
 * @param takes what of the song it needs for itself, so that no two recipes undo each other
 * @param tonality the keys it can live in
 * @param arguable what else a listener might name where this is planted
 */
record Recipe(
    Technique technique,
    Set<Slot> takes,
    Tonality tonality,
    Set<Technique> arguable,
    Consumer<Plan> chords,
    Consumer<Plan> tune,
    Consumer<Plan> form,
    Consumer<Plan> arrange) {

  /** What a recipe can need for itself. */
  enum Slot {
    VERSE_CHORDS,
    CHORUS_CHORDS,
    VERSE_TUNE,
    CHORUS_TUNE,
    KEYS,
    BASS,
    DRUMS,
    SECOND,
    LINE,
    PAD,
    GUITAR,
    OPENING,
    SECOND_VERSE,
    SECOND_CHORUS,
    BRIDGE,
    ENDING,
    INTO_CHORUS,
    SUB,
    LEVELS
  }

  /** Which keys it can live in. */
  enum Tonality {
    MAJOR,
    MINOR,
    ANY
  }

  static Recipe of(Technique technique, Tonality tonality, Slot... takes) {
    Set<Slot> slots = EnumSet.noneOf(Slot.class);
    slots.addAll(List.of(takes));
    Consumer<Plan> nothing = plan -> {};
    return new Recipe(technique, slots, tonality, Set.of(), nothing, nothing, nothing, nothing);
  }

  Recipe besides(Technique... others) {
    return new Recipe(technique, takes, tonality, Set.of(others), chords, tune, form, arrange);
  }

  Recipe chords(Consumer<Plan> step) {
    return new Recipe(technique, takes, tonality, arguable, step, tune, form, arrange);
  }

  Recipe tune(Consumer<Plan> step) {
    return new Recipe(technique, takes, tonality, arguable, chords, step, form, arrange);
  }

  /** Adds, takes away or lengthens sections. */
  Recipe form(Consumer<Plan> step) {
    return new Recipe(technique, takes, tonality, arguable, chords, tune, step, arrange);
  }

  Recipe arrange(Consumer<Plan> step) {
    return new Recipe(technique, takes, tonality, arguable, chords, tune, form, step);
  }
}
