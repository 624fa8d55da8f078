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
import undersong.technique.Pulse;
import undersong.technique.SongSection;
import undersong.technique.Technique;
import undersong.technique.TechniqueFinder;
import undersong.time.Span;

/**
 * One degree tells the mode: major IV in minor without the raised 7 (dorian), bVII led home in
 * major (mixolydian), bVI bVII i in minor (aeolian), major II over a tonic that stays (lydian), bII
 * that goes to the tonic and not to V (phrygian). Told once a section.
 */
final class ModalColour implements TechniqueFinder {
  /** A colour heard so often within a section is the section's. */
  private static final int OFTEN = 2;

  @Override
  public Set<Technique> techniques() {
    return Set.of(Technique.MODAL_COLOUR);
  }

  @Override
  public Set<Facet<?>> reads() {
    return HarmonyFinders.CHORDS_IN_SECTIONS;
  }

  /** A mode and the chord that tells it. */
  private enum Colour {
    DORIAN,
    MIXOLYDIAN,
    AEOLIAN,
    LYDIAN,
    PHRYGIAN;

    String key() {
      return name().toLowerCase(java.util.Locale.ROOT);
    }
  }

  @Override
  public List<Finding> find(Reading reading) {
    Pulse pulse = Pulse.of(reading);
    ChordPath path = ChordPath.of(reading);
    List<Finding> findings = new ArrayList<>();
    for (SongSection section : SongSection.of(reading)) {
      for (Colour colour : Colour.values()) {
        List<Integer> places = new ArrayList<>();
        for (int i : path.within(section.span())) {
          if (tells(colour, path, i)) {
            places.add(i);
          }
        }
        if (!places.isEmpty()) {
          findings.add(finding(colour, path, places, section, pulse));
        }
      }
    }
    return findings;
  }

  private static boolean tells(Colour colour, ChordPath path, int i) {
    ChordStep step = path.get(i);
    boolean minorKey = step.key().mode().hasMinorThird();
    boolean next = path.goesOn(i);
    return switch (colour) {
      case DORIAN ->
          minorKey
              && step.root() == 5
              && step.major()
              && !step.applied()
              && !(next && hasRaisedSeventh(path.get(i + 1)));
      case MIXOLYDIAN ->
          !minorKey
              && step.root() == 10
              && step.major()
              && !step.applied()
              && leadsHome(path, i)
              && !(path.goesOn(i - 1) && path.get(i - 1).root() == 8);
      case AEOLIAN ->
          minorKey
              && step.root() == 8
              && step.major()
              && path.goesOn(i + 1)
              && next
              && path.get(i + 1).root() == 10
              && path.get(i + 1).major()
              && path.get(i + 2).root() == 0
              && path.get(i + 2).minor();
      case LYDIAN ->
          !minorKey
              && step.root() == 2
              && step.major()
              && !step.chord().quality().contains(10)
              && !step.applied()
              && next
              && path.get(i + 1).root() == 0;
      case PHRYGIAN -> step.root() == 1 && step.major() && next && path.get(i + 1).root() == 0;
    };
  }

  private static boolean hasRaisedSeventh(ChordStep step) {
    int raisedSeventh = Math.floorMod(step.key().tonic().pitchClass() + 11, 12);
    return (step.chord().pitchClassBits() & 1 << raisedSeventh) != 0;
  }

  /** To the tonic, at once or by way of IV. */
  private static boolean leadsHome(ChordPath path, int i) {
    if (!path.goesOn(i)) {
      return false;
    }
    if (path.get(i + 1).root() == 0) {
      return true;
    }
    return path.get(i + 1).root() == 5 && path.goesOn(i + 1) && path.get(i + 2).root() == 0;
  }

  private static Finding finding(
      Colour colour, ChordPath path, List<Integer> places, SongSection section, Pulse pulse) {
    ChordStep step = path.get(places.get(0));
    Span span = places.size() >= OFTEN ? section.span() : step.span();
    double sure = 0;
    for (int place : places) {
      sure = Math.max(sure, path.get(place).sureOfTriad() * path.get(place).keyProbability());
    }
    FindingDraft draft =
        FindingDraft.of(Technique.MODAL_COLOUR, span)
            .bars(places.size() >= OFTEN ? section.barRange() : pulse.bars(span))
            .sure(sure)
            .strength(colour == Colour.MIXOLYDIAN || colour == Colour.AEOLIAN ? 0.3 : 0.6)
            .group(section.letter() + " " + colour.key())
            .says("summary." + colour.key(), step.chordText(), step.numeralText(), places.size())
            .hear(step.span(), "hear." + colour.key());
    places.forEach(i -> draft.read(Facet.HARMONY, path.get(i).span(), path.get(i).numeralText()));
    return draft.make();
  }
}
