package undersong.search;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
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
 * what else a reading holds. As text it takes a few kilobytes.
 *
 * @param chords in order, repeats of the same chord joined
 */
public record SongLines(List<ChordAt> chords, List<NoteAt> tune, List<NoteAt> bass) {
  public static final SongLines NONE = new SongLines(List.of(), List.of(), List.of());

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

  public SongLines {
    chords = List.copyOf(chords);
    tune = List.copyOf(tune);
    bass = List.copyOf(bass);
  }

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
    StringBuilder text = new StringBuilder();
    for (ChordAt chord : chords) {
      text.append(
          String.format(
              Locale.ROOT,
              "%d %s %d %.2f %.2f %d;",
              chord.degree(),
              chord.quality().harte(),
              chord.bass(),
              chord.startSeconds(),
              chord.endSeconds(),
              chord.bar()));
    }
    text.append('|');
    tune.forEach(note -> print(text, note));
    text.append('|');
    bass.forEach(note -> print(text, note));
    return text.toString();
  }

  private static void print(StringBuilder text, NoteAt note) {
    text.append(
        String.format(
            Locale.ROOT,
            "%d %d %.2f %.2f %.2f %d;",
            note.degree(),
            note.midi(),
            note.beats(),
            note.startSeconds(),
            note.endSeconds(),
            note.bar()));
  }

  /** Reads what {@link #print} wrote. */
  public static SongLines parse(String text) {
    String[] parts = text.split("\\|", -1);
    List<ChordAt> chords = new ArrayList<>();
    for (String[] cells : rows(parts[0])) {
      chords.add(
          new ChordAt(
              Integer.parseInt(cells[0]),
              quality(cells[1]),
              Integer.parseInt(cells[2]),
              Double.parseDouble(cells[3]),
              Double.parseDouble(cells[4]),
              Integer.parseInt(cells[5])));
    }
    return new SongLines(chords, parseNotes(parts[1]), parseNotes(parts[2]));
  }

  private static List<NoteAt> parseNotes(String text) {
    List<NoteAt> notes = new ArrayList<>();
    for (String[] cells : rows(text)) {
      notes.add(
          new NoteAt(
              Integer.parseInt(cells[0]),
              Integer.parseInt(cells[1]),
              Double.parseDouble(cells[2]),
              Double.parseDouble(cells[3]),
              Double.parseDouble(cells[4]),
              Integer.parseInt(cells[5])));
    }
    return notes;
  }

  private static List<String[]> rows(String text) {
    List<String[]> rows = new ArrayList<>();
    for (String row : text.split(";", -1)) {
      if (!row.isEmpty()) {
        rows.add(row.split(" ", -1));
      }
    }
    return rows;
  }

  private static ChordQuality quality(String harte) {
    for (ChordQuality quality : ChordQuality.values()) {
      if (quality.harte().equals(harte)) {
        return quality;
      }
    }
    throw new IllegalArgumentException("\"%s\" is no chord quality.".formatted(harte));
  }
}
