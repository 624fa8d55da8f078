package undersong.technique.harmony;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import undersong.reading.Facet;
import undersong.reading.Keys;
import undersong.reading.Reading;
import undersong.technique.BarChords;
import undersong.technique.Finding;
import undersong.technique.FindingDraft;
import undersong.technique.SongSection;
import undersong.technique.Technique;
import undersong.technique.TechniqueFinder;
import undersong.theory.Key;
import undersong.time.Span;

/** The last copies of a section come back higher. */
final class KeyLift implements TechniqueFinder {
  private final Settings settings;

  KeyLift(Settings settings) {
    this.settings = settings;
  }

  /**
   * @param mostCopies at the end of the song that may be lifted
   * @param mostSemitones by which they may be
   * @param sureWithoutKey how telling the form alone is where the keys do not agree
   * @param sureWithoutForm how telling chords and keys are where the form hears new music
   * @param alike likeness from which a stretch has the chords of another
   * @param unlike likeness up to which it has other chords
   * @param fewestChords different ones, without which likeness at another height says little
   */
  record Settings(
      int mostCopies,
      int mostSemitones,
      double sureWithoutKey,
      double sureWithoutForm,
      double alike,
      double unlike,
      int fewestChords) {
    static final Settings DEFAULTS = new Settings(3, 6, 0.4, 0.9, 0.85, 0.5, 3);
  }

  @Override
  public Set<Technique> techniques() {
    return Set.of(Technique.KEY_LIFT);
  }

  @Override
  public Set<Facet<?>> reads() {
    return Set.of(Facet.FORM, Facet.ROLES, Facet.KEYS);
  }

  @Override
  public Set<Facet<?>> alsoReads() {
    return Set.of(Facet.METER, Facet.CHORDS);
  }

  @Override
  public List<Finding> find(Reading reading) {
    List<SongSection> sections = SongSection.of(reading);
    Keys keys = reading.get(Facet.KEYS);
    List<Finding> findings = new ArrayList<>();
    for (String letter : sections.stream().map(SongSection::letter).distinct().toList()) {
      List<SongSection> copies =
          sections.stream().filter(section -> section.letter().equals(letter)).toList();
      int first = firstLifted(copies);
      if (first > 0 && copies.size() - first <= settings.mostCopies()) {
        for (SongSection lifted : copies.subList(first, copies.size())) {
          findings.add(finding(copies.get(first - 1), lifted, keys));
        }
      }
    }
    if (findings.isEmpty()
        && reading.find(Facet.METER).isPresent()
        && reading.find(Facet.CHORDS).isPresent()) {
      byChords(sections, reading, keys).ifPresent(findings::add);
    }
    return findings;
  }

  /**
   * The first late section whose chords were there before, lower, while the form takes it for new
   * music; the key must have risen with it and stay.
   */
  private Optional<Finding> byChords(List<SongSection> sections, Reading reading, Keys keys) {
    BarChords chords = BarChords.of(reading);
    for (int i = Math.max(1, sections.size() - settings.mostCopies()); i < sections.size(); i++) {
      SongSection late = sections.get(i);
      boolean asItWas = chords.likenessBefore(late, 0) > settings.unlike();
      if (asItWas || chords.variety(late) < settings.fewestChords()) {
        continue;
      }
      for (int up = 1; up <= settings.mostSemitones(); up++) {
        Optional<Span> before = chords.likestBefore(late, up);
        double likeness = chords.likenessBefore(late, up);
        if (before.isPresent()
            && likeness >= settings.alike()
            && agree(keys, before.get(), late.span(), up)) {
          return Optional.of(finding(before.get(), late, likeness, up, keys));
        }
      }
    }
    return Optional.empty();
  }

  private static boolean agree(Keys keys, Span before, Span lifted, int up) {
    Optional<Key> from = keys.keyAt(before.middleSeconds());
    Optional<Key> to = keys.keyAt(lifted.middleSeconds());
    return from.isPresent()
        && to.isPresent()
        && Math.floorMod(to.get().tonic().pitchClass() - from.get().tonic().pitchClass() - up, 12)
            == 0;
  }

  /** A lift that the form does not tell: by its chords alone. */
  private Finding finding(Span before, SongSection lifted, double likeness, int up, Keys keys) {
    FindingDraft draft =
        FindingDraft.of(Technique.KEY_LIFT, lifted.span())
            .bars(lifted.barRange())
            .sure(likeness, settings.sureWithoutForm())
            .strength(0.8)
            .group("lift " + up)
            .says("summary.chords", lifted.words(), up)
            .hear(before, "before")
            .hear("hear")
            .atLeast("semitones", up, 1, "semitones");
    read(draft, keys, before, lifted.span());
    return draft.make();
  }

  private static void read(FindingDraft draft, Keys keys, Span before, Span lifted) {
    keys.keyAt(before.middleSeconds())
        .ifPresent(key -> draft.read(Facet.KEYS, before, key.toString()));
    keys.keyAt(lifted.middleSeconds())
        .ifPresent(key -> draft.read(Facet.KEYS, lifted, key.toString()));
  }

  /** The first copy from which on all stand higher than all before; -1 where there is none. */
  private int firstLifted(List<SongSection> copies) {
    for (int first = 1; first < copies.size(); first++) {
      int before = copies.get(first - 1).section().transposedSemitones();
      int end = first;
      while (end < copies.size() && isLift(copies.get(end), before)) {
        end++;
      }
      if (end == copies.size()) {
        return first;
      }
    }
    return -1;
  }

  private boolean isLift(SongSection copy, int before) {
    int up = copy.section().transposedSemitones() - before;
    return up >= 1 && up <= settings.mostSemitones();
  }

  private Finding finding(SongSection before, SongSection lifted, Keys keys) {
    int up = lifted.section().transposedSemitones() - before.section().transposedSemitones();
    boolean agree = agree(keys, before.span(), lifted.span(), up);
    FindingDraft draft =
        FindingDraft.of(Technique.KEY_LIFT, lifted.span())
            .bars(lifted.barRange())
            .sure(lifted.section().probability(), agree ? 0.98 : settings.sureWithoutKey())
            .strength(0.8)
            .group("lift " + up)
            .says("summary", lifted.words(), up, before.words())
            .hear(before.span(), "before")
            .hear("hear")
            .atLeast("semitones", up, 1, "semitones");
    read(draft, keys, before.span(), lifted.span());
    return draft.make();
  }
}
