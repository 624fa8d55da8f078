package undersong.notation;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import undersong.notation.Quantiser.Placed;
import undersong.notation.WrittenPart.Clef;
import undersong.reading.Bass;
import undersong.reading.Beats;
import undersong.reading.ChordSpan;
import undersong.reading.Chords;
import undersong.reading.Facet;
import undersong.reading.Harmony;
import undersong.reading.HarmonyEvent;
import undersong.reading.KeyRegion;
import undersong.reading.Keys;
import undersong.reading.Melody;
import undersong.reading.Meter;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.reading.Voice;
import undersong.reading.Voices;
import undersong.theory.ChordSymbol;
import undersong.theory.ChordSymbol.Chord;
import undersong.theory.Key;
import undersong.theory.Mode;
import undersong.theory.NoteName;
import undersong.theory.SpelledPitch;
import undersong.theory.Spelling;
import undersong.theory.Syllables;

/**
 * Writes a reading down: the tune, the further voices and the bass, with chords over the first
 * part.
 *
 * <p><b>In:</b> a reading with beats and bars; keys, chords and notes where there are any. <br>
 * <b>Out:</b> a score whose parts have the same bars. Where no pulse is heard there is nothing to
 * write on: no parts. A part without notes is left out. <br>
 * <b>Cost:</b> linear in the notes.
 */
public final class Notator {
  /** From D2 down a bass stands below the staff; if one note in ten does, it is written higher. */
  private static final int LOW_MIDI = 38;

  private static final int TENOR_MIDI = 55;

  private final Reading reading;
  private final NotationSettings settings;
  private final TickGrid grid;
  private final List<HarmonyEvent> harmony;
  private final List<ChordSpan> chords;

  private Notator(Reading reading, NotationSettings settings, TickGrid grid) {
    this.reading = reading;
    this.settings = settings;
    this.grid = grid;
    this.harmony = reading.find(Facet.HARMONY).map(Harmony::events).orElse(List.of());
    this.chords = reading.find(Facet.CHORDS).map(Chords::spans).orElse(List.of());
  }

  /** The whole song. */
  public static WrittenScore write(Reading reading, NotationSettings settings) {
    Beats beats = reading.get(Facet.BEATS);
    Meter meter = reading.get(Facet.METER);
    if (beats.grid().isEmpty() || meter.bars().isEmpty()) {
      return new WrittenScore(0, false, settings.instrument(), List.of());
    }
    double earliest =
        Stream.concat(melody(reading).stream(), bass(reading).stream())
            .mapToDouble(note -> note.span().startSeconds())
            .min()
            .orElse(meter.bars().get(0).span().startSeconds());
    TickGrid grid = TickGrid.of(beats.grid(), meter, earliest);
    return new Notator(reading, settings, grid).write(beats);
  }

  private static List<NoteEvent> melody(Reading reading) {
    return reading.find(Facet.MELODY).map(Melody::notes).orElse(List.of());
  }

  private static List<NoteEvent> bass(Reading reading) {
    return reading.find(Facet.BASS).map(Bass::notes).orElse(List.of());
  }

  private WrittenScore write(Beats beats) {
    List<WrittenPart> parts = new ArrayList<>();
    Quantiser quantiser = new Quantiser(grid, beats.swingRatio());
    part("melody", melody(reading), quantiser, parts);
    for (Voice voice : reading.find(Facet.VOICES).map(Voices::voices).orElse(List.of())) {
      part(voice.name(), voice.events(), quantiser, parts);
    }
    part("bass", bass(reading), quantiser, parts);
    return new WrittenScore(
        beats.grid().medianBpm(),
        Quantiser.isSwing(beats.swingRatio()),
        settings.instrument(),
        parts);
  }

  private void part(
      String name, List<NoteEvent> notes, Quantiser quantiser, List<WrittenPart> parts) {
    if (notes.isEmpty()) {
      return;
    }
    Quantiser.Result placed = quantiser.quantise(notes);
    List<WrittenBar> bars = new ArrayList<>();
    int beat = 0;
    for (TickGrid.PaperBar bar : grid.bars()) {
      List<Boolean> triplets = placed.tripletBeats().subList(beat, beat + bar.bar().beats());
      bars.add(bar(bar, notes, placed.notes(), triplets, parts.isEmpty()));
      beat += triplets.size();
    }
    parts.add(new WrittenPart(name, clef(name, notes), bars));
  }

  private static Clef clef(String name, List<NoteEvent> notes) {
    double[] pitches = notes.stream().mapToDouble(NoteEvent::midiPitch).sorted().toArray();
    if (name.equals("bass")) {
      return pitches[pitches.length / 10] <= LOW_MIDI ? Clef.BASS_OCTAVE_DOWN : Clef.BASS;
    }
    return pitches[pitches.length / 2] < TENOR_MIDI ? Clef.TREBLE_OCTAVE_DOWN : Clef.TREBLE;
  }

  private WrittenBar bar(
      TickGrid.PaperBar paper,
      List<NoteEvent> notes,
      List<Placed> placed,
      List<Boolean> triplets,
      boolean withChords) {
    Signs signs = new Signs(paper.ticks(), paper.beatTicks(), triplets);
    List<WrittenNote> written = new ArrayList<>();
    int from = paper.startTick();
    int to = from + paper.ticks();
    int at = from;
    for (Placed note : placed) {
      if (note.endTick() <= from || note.startTick() >= to) {
        continue;
      }
      int start = Math.max(from, note.startTick());
      int end = Math.min(to, note.endTick());
      rest(signs, at - from, start - from, written);
      sound(
          signs,
          start - from,
          end - from,
          note,
          notes.get(note.heard()),
          after(notes, note.heard()),
          to,
          written);
      at = end;
    }
    rest(signs, at - from, to - from, written);
    return new WrittenBar(
        paper.bar().number(),
        paper.bar().signature(),
        paper.ticks(),
        written(keyAt(paper.bar().span().startSeconds())),
        paper.bar().span(),
        written,
        withChords ? chords(paper) : List.of());
  }

  private static void rest(Signs signs, int from, int to, List<WrittenNote> written) {
    for (Signs.Piece piece : signs.write(from, to, true)) {
      written.add(
          new WrittenNote(
              piece.startTicks(),
              piece.ticks(),
              piece.value(),
              piece.triplet(),
              Optional.empty(),
              false,
              false,
              "",
              -1));
    }
  }

  private static Optional<NoteEvent> after(List<NoteEvent> notes, int place) {
    return place + 1 < notes.size() ? Optional.of(notes.get(place + 1)) : Optional.empty();
  }

  /**
   * A member of the chord or scale by its own name; a foreign note that moves on by a semitone is
   * raised where it goes up and lowered where it goes down.
   */
  private static SpelledPitch spelled(
      NoteEvent heard, Optional<NoteEvent> next, Key key, ChordSymbol sounding) {
    int midi = (int) Math.round(heard.midiPitch());
    int pitchClass = Math.floorMod(midi, 12);
    boolean member =
        sounding instanceof Chord chord && (chord.pitchClassBits() & 1 << pitchClass) != 0;
    int move = next.map(n -> (int) Math.round(n.midiPitch()) - midi).orElse(0);
    return !member && !key.contains(pitchClass) && Math.abs(move) == 1
        ? SpelledPitch.ofMidi(midi, Spelling.passing(pitchClass, key, move > 0))
        : Spelling.pitch(midi, key, sounding);
  }

  private void sound(
      Signs signs,
      int from,
      int to,
      Placed note,
      NoteEvent heard,
      Optional<NoteEvent> next,
      int barEnd,
      List<WrittenNote> written) {
    double seconds = heard.span().startSeconds();
    Key key = keyAt(seconds);
    SpelledPitch pitch = spelled(heard, next, key, soundingAt(seconds));
    String syllable = Syllables.print(pitch.name(), key, settings.syllables());
    SpelledPitch onPaper = settings.instrument().written(pitch, key);
    List<Signs.Piece> pieces = signs.write(from, to, false);
    boolean heldOver = note.endTick() > barEnd;
    for (int i = 0; i < pieces.size(); i++) {
      Signs.Piece piece = pieces.get(i);
      boolean begins = i == 0 && note.startTick() >= barEnd - barTicksOf(barEnd);
      written.add(
          new WrittenNote(
              piece.startTicks(),
              piece.ticks(),
              piece.value(),
              piece.triplet(),
              Optional.of(onPaper),
              i + 1 < pieces.size() || heldOver,
              begins,
              begins ? syllable : "",
              note.heard()));
    }
  }

  private int barTicksOf(int barEnd) {
    return grid.bars().stream()
        .filter(bar -> bar.startTick() + bar.ticks() == barEnd)
        .findFirst()
        .orElseThrow()
        .ticks();
  }

  private List<WrittenChord> chords(TickGrid.PaperBar paper) {
    List<WrittenChord> written = new ArrayList<>();
    double length = paper.bar().span().lengthSeconds();
    for (ChordSpan chord : chords) {
      if (!chord.span().overlaps(paper.bar().span()) || !(chord.symbol() instanceof Chord named)) {
        continue;
      }
      double into = chord.span().startSeconds() - paper.bar().span().startSeconds();
      int sixteenth = NoteValue.SIXTEENTH.ticks();
      int tick = (int) Math.round(into / length * paper.ticks() / sixteenth) * sixteenth;
      if (tick >= paper.ticks()) {
        continue; // arrives with the next bar line
      }
      boolean held = tick < 0;
      Key key = keyAt(chord.span().middleSeconds());
      ChordSymbol symbol = settings.instrument().written(Spelling.chord(named, key), key);
      WrittenChord one =
          WrittenChord.of(
              Math.max(0, tick), symbol, eventAt(chord.span().middleSeconds()), settings, held);
      if (written.isEmpty() || written.get(written.size() - 1).startTicks() < one.startTicks()) {
        written.add(one);
      }
    }
    return written;
  }

  private Optional<HarmonyEvent> eventAt(double seconds) {
    return harmony.stream().filter(event -> event.span().contains(seconds)).findFirst();
  }

  private ChordSymbol soundingAt(double seconds) {
    return chords.stream()
        .filter(chord -> chord.span().contains(seconds + 0.03))
        .findFirst()
        .map(ChordSpan::symbol)
        .orElse(ChordSymbol.NONE);
  }

  private Key written(Key key) {
    return settings.instrument().written(key);
  }

  /** The key in force; before and after all regions the nearest, C major where there is none. */
  private Key keyAt(double seconds) {
    Keys keys = reading.find(Facet.KEYS).orElse(new Keys(List.of()));
    return keys.keyAt(seconds)
        .or(
            () ->
                keys.regions().stream()
                    .min(
                        Comparator.comparingDouble(
                            region -> Math.abs(region.span().middleSeconds() - seconds)))
                    .map(KeyRegion::key))
        .orElse(new Key(new NoteName(0), Mode.MAJOR));
  }
}
