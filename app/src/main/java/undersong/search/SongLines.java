package undersong.search;

import java.util.ArrayList;
import java.util.List;
import undersong.reading.Facet;
import undersong.reading.HarmonyEvent;
import undersong.reading.Keys;
import undersong.reading.Meter;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.theory.ChordQuality;
import undersong.theory.Key;
import undersong.theory.RomanNumeral;
import undersong.theory.ScaleDegree;
import undersong.time.BeatGrid;

/**
 * What is searched of a song: its chords, its tune and its bass, all seen from the key, without
 * what else a reading holds. Packed, so that a hundred thousand songs lie in memory: two to six
 * kilobytes a song, and a third more as text. Times are kept to a hundredth of a second.
 */
public record SongLines(ChordLine chordLine, NoteLine tuneLine, NoteLine bassLine) {
  public static final SongLines NONE = new SongLines(List.of(), List.of(), List.of());

  /**
   * @param chords in order, repeats of the same chord joined
   */
  public SongLines(List<ChordAt> chords, List<NoteAt> tune, List<NoteAt> bass) {
    this(ChordLine.of(chords), NoteLine.of(tune), NoteLine.of(bass));
  }

  /** Unpacked at each call, as are the others. */
  public List<ChordAt> chords() {
    return chordLine.list();
  }

  public List<NoteAt> tune() {
    return tuneLine.list();
  }

  public List<NoteAt> bass() {
    return bassLine.list();
  }

  /**
   * A chord in its place.
   *
   * @param degree semitones of its root above the tonic, 0 to 11
   * @param bass semitones of its lowest note above the tonic
   * @param bar it arrives in; 0 where there is none
   */
  public record ChordAt(
      int degree, ChordQuality quality, int bass, double startSeconds, double endSeconds, int bar) {
    boolean sameChord(ChordAt other) {
      return degree == other.degree && quality == other.quality && bass == other.bass;
    }
  }

  /**
   * A note in its place.
   *
   * @param degree semitones above the tonic, 0 to 11
   * @param beats from the beginning of the note before to this one's; 0 for the first
   */
  public record NoteAt(
      int degree, int midi, double beats, double startSeconds, double endSeconds, int bar) {}

  /** Empty lines where a facet is missing or nothing tonal sounds. */
  public static SongLines of(Reading reading) {
    Meter meter = reading.find(Facet.METER).orElse(new Meter(List.of(), 0, List.of()));
    List<ChordAt> chords = new ArrayList<>();
    reading.find(Facet.HARMONY).map(h -> h.events()).orElse(List.of()).stream()
        .filter(event -> event.numeral().isPresent())
        .map(event -> chord(event, meter))
        .forEach(
            chord -> {
              int last = chords.size() - 1;
              if (last >= 0 && chords.get(last).sameChord(chord)) {
                ChordAt before = chords.get(last);
                chords.set(
                    last,
                    new ChordAt(
                        before.degree(),
                        before.quality(),
                        before.bass(),
                        before.startSeconds(),
                        chord.endSeconds(),
                        before.bar()));
              } else {
                chords.add(chord);
              }
            });
    return new SongLines(
        chords,
        notes(reading, reading.find(Facet.MELODY).map(m -> m.notes()).orElse(List.of()), meter),
        notes(reading, reading.find(Facet.BASS).map(b -> b.notes()).orElse(List.of()), meter));
  }

  private static ChordAt chord(HarmonyEvent event, Meter meter) {
    RomanNumeral numeral = event.numeral().orElseThrow();
    int above = numeral.appliedTo().map(ScaleDegree::semitones).orElse(0);
    // An early chord belongs to the bar it is meant for.
    double place = event.span().startSeconds() + 0.02;
    double meant =
        Math.min(event.span().endSeconds(), place - 0.5 * Math.min(0, event.arrivalBeats()));
    return new ChordAt(
        (above + numeral.root().semitones()) % 12,
        numeral.quality(),
        (above + numeral.bass().semitones()) % 12,
        event.span().startSeconds(),
        event.span().endSeconds(),
        meter.barAt(meant).map(bar -> bar.number()).orElse(0));
  }

  private static List<NoteAt> notes(Reading reading, List<NoteEvent> events, Meter meter) {
    Keys keys = reading.find(Facet.KEYS).orElse(new Keys(List.of()));
    BeatGrid grid = reading.find(Facet.BEATS).map(b -> b.grid()).orElse(BeatGrid.NO_PULSE);
    List<NoteAt> notes = new ArrayList<>();
    double before = Double.NaN;
    for (NoteEvent event : events) {
      double start = event.span().startSeconds();
      int tonic = keys.keyAt(start).or(keys::mainKey).map(SongLines::tonic).orElse(0);
      int midi = (int) Math.round(event.midiPitch());
      double at = grid.isEmpty() ? start : grid.positionAt(start);
      notes.add(
          new NoteAt(
              Math.floorMod(midi - tonic, 12),
              midi,
              Double.isNaN(before) ? 0 : Math.round(4 * (at - before)) / 4.0,
              start,
              event.span().endSeconds(),
              meter.barAt(start + 0.02).map(bar -> bar.number()).orElse(0)));
      before = at;
    }
    return notes;
  }

  private static int tonic(Key key) {
    return key.tonic().pitchClass();
  }

  /** As text, to be kept. */
  public String print() {
    return String.join("|", chordLine.print(), tuneLine.print(), bassLine.print());
  }

  /** Reads what {@link #print} wrote. */
  public static SongLines parse(String text) {
    String[] parts = text.split("\\|", -1);
    if (parts.length != 7) {
      throw new IllegalArgumentException(
          "The lines of a song have 7 parts; these have %d.".formatted(parts.length));
    }
    return new SongLines(
        ChordLine.parse(parts[0], parts[1], parts[2]),
        NoteLine.parse(parts[3], parts[4]),
        NoteLine.parse(parts[5], parts[6]));
  }
}
