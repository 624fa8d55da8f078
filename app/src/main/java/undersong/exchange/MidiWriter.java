package undersong.exchange;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import javax.sound.midi.InvalidMidiDataException;
import javax.sound.midi.MetaMessage;
import javax.sound.midi.MidiEvent;
import javax.sound.midi.MidiMessage;
import javax.sound.midi.MidiSystem;
import javax.sound.midi.Sequence;
import javax.sound.midi.ShortMessage;
import javax.sound.midi.Track;
import undersong.reading.Bar;
import undersong.reading.Bass;
import undersong.reading.ChordSpan;
import undersong.reading.Chords;
import undersong.reading.Facet;
import undersong.reading.Form;
import undersong.reading.KeyRegion;
import undersong.reading.Keys;
import undersong.reading.Line;
import undersong.reading.Lines;
import undersong.reading.Melody;
import undersong.reading.Meter;
import undersong.reading.NoteEvent;
import undersong.reading.PartName;
import undersong.reading.Reading;
import undersong.reading.Section;
import undersong.reading.TimeSignature;
import undersong.reading.Tuning;
import undersong.reading.Voice;
import undersong.reading.Voices;
import undersong.theory.ChordSymbol.Chord;
import undersong.theory.LeadSheet;

/**
 * Writes a reading as a Standard MIDI File, format 1: a first track with tempo map, meter, keys and
 * section names, then bass, chords (close position around middle C, symbols as text), melody, and a
 * track for each further voice and line. The tempo map follows the beats, so that the file lines up
 * with the recording; the recording's tuning is sent as fine tuning of each channel.
 *
 * <p>Source: Standard MIDI Files 1.0, MIDI Manufacturers Association (from memory).
 */
public final class MidiWriter {
  private static final int TEXT = 0x01;
  private static final int TRACK_NAME = 0x03;
  private static final int MARKER = 0x06;
  private static final int SET_TEMPO = 0x51;
  private static final int TIME_SIGNATURE = 0x58;
  private static final int KEY_SIGNATURE = 0x59;
  private static final int FRETLESS_BASS = 35;
  private static final int PIANO = 0;
  private static final int OBOE = 68;
  private static final int CHOIR = 52;
  private static final int HARP = 46;
  private static final int DRUM_CHANNEL = 9;
  private static final int LAST_CHANNEL = 15;
  private static final int VELOCITY = 80;
  private static final int LOWEST_CHORD_NOTE = 54;

  private final Reading reading;
  private final MidiClock clock;
  private final Sequence sequence;

  private MidiWriter(Reading reading) throws InvalidMidiDataException {
    this.reading = reading;
    this.clock = MidiClock.of(reading);
    this.sequence = new Sequence(Sequence.PPQ, MidiClock.TICKS_PER_QUARTER);
  }

  /** The reading as the bytes of a MIDI file; parts that were not heard have an empty track. */
  public static byte[] print(Reading reading, SongFacts facts) {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try {
      MidiSystem.write(new MidiWriter(reading).sequence(facts), 1, bytes);
    } catch (InvalidMidiDataException | IOException impossible) {
      throw new AssertionError("Every message is built within its limits.", impossible);
    }
    return bytes.toByteArray();
  }

  private Sequence sequence(SongFacts facts) throws InvalidMidiDataException {
    Track map = sequence.createTrack();
    meta(map, TRACK_NAME, 0, text(facts.title()));
    tempi(map);
    meters(map);
    keys(map);
    sections(map);
    Track bass = part(PartName.BASS, 0, FRETLESS_BASS);
    notes(bass, 0, reading.find(Facet.BASS).map(Bass::notes).orElse(List.of()));
    chords(part("chords", 1, PIANO));
    Track melody = part(PartName.MELODY, 2, OBOE);
    notes(melody, 2, reading.find(Facet.MELODY).map(Melody::notes).orElse(List.of()));
    int channel = 3;
    for (Voice voice : reading.find(Facet.VOICES).map(Voices::voices).orElse(List.of())) {
      notes(part(voice.name(), channel, CHOIR), channel, voice.events());
      channel = nextChannel(channel);
    }
    for (Line line : reading.find(Facet.LINES).map(Lines::lines).orElse(List.of())) {
      notes(part(line.name(), channel, HARP), channel, line.notes());
      channel = nextChannel(channel);
    }
    return sequence;
  }

  /** Drums have the tenth channel to themselves; parts beyond the last channel share it. */
  private static int nextChannel(int channel) {
    int next = channel + 1 == DRUM_CHANNEL ? channel + 2 : channel + 1;
    return Math.min(LAST_CHANNEL, next);
  }

  private void tempi(Track map) throws InvalidMidiDataException {
    for (MidiClock.Tempo tempo : clock.tempi()) {
      int us = tempo.microsecondsPerQuarter();
      meta(
          map,
          SET_TEMPO,
          tempo.tick(),
          new byte[] {(byte) (us >> 16), (byte) (us >> 8), (byte) us});
    }
  }

  /** The beats before the first full bar stand in a short bar of their own. */
  private void meters(Track map) throws InvalidMidiDataException {
    List<Bar> bars = reading.find(Facet.METER).map(Meter::bars).orElse(List.of());
    if (bars.isEmpty()) {
      return;
    }
    TimeSignature before = null;
    int upbeats = clock.leadInBeats() + bars.get(0).firstBeat();
    if (upbeats > 0) {
      int perBar = bars.get(0).signature().beats();
      int shortBar = upbeats % perBar == 0 ? perBar : Math.min(12, upbeats % perBar);
      before = new TimeSignature(shortBar, bars.get(0).signature().compound());
      meter(map, 0, before);
      if (upbeats % perBar != 0 && upbeats > perBar) {
        before = bars.get(0).signature();
        meter(map, clock.tickOfBeat(upbeats % perBar - clock.leadInBeats()), before);
      }
    }
    for (Bar bar : bars) {
      TimeSignature signature = new TimeSignature(bar.beats(), bar.signature().compound());
      if (!signature.equals(before)) {
        meter(map, clock.tickOfBeat(bar.firstBeat()), signature);
        before = signature;
      }
    }
  }

  private static void meter(Track map, long tick, TimeSignature signature)
      throws InvalidMidiDataException {
    int numerator = signature.compound() ? 3 * signature.beats() : signature.beats();
    int denominatorPower = signature.compound() ? 3 : 2;
    int clocksPerBeat = signature.compound() ? 36 : 24;
    meta(
        map,
        TIME_SIGNATURE,
        tick,
        new byte[] {(byte) numerator, (byte) denominatorPower, (byte) clocksPerBeat, 8});
  }

  private void keys(Track map) throws InvalidMidiDataException {
    for (KeyRegion region : reading.find(Facet.KEYS).map(Keys::regions).orElse(List.of())) {
      int fifths = region.key().signatureFifths();
      int written = fifths > 7 ? fifths - 12 : fifths < -7 ? fifths + 12 : fifths;
      byte minor = (byte) (region.key().mode().hasMinorThird() ? 1 : 0);
      long tick = clock.tickAt(region.span().startSeconds());
      meta(map, KEY_SIGNATURE, tick, new byte[] {(byte) written, minor});
    }
  }

  private void sections(Track map) throws InvalidMidiDataException {
    List<String> titles = SectionNames.titles(reading);
    List<Section> sections = reading.find(Facet.FORM).map(Form::sections).orElse(List.of());
    for (int i = 0; i < sections.size(); i++) {
      long tick = clock.tickAt(sections.get(i).span().startSeconds());
      meta(map, MARKER, tick, text(titles.get(i)));
    }
  }

  private Track part(String name, int channel, int program) throws InvalidMidiDataException {
    Track track = sequence.createTrack();
    meta(track, TRACK_NAME, 0, text(name));
    add(track, 0, new ShortMessage(ShortMessage.PROGRAM_CHANGE, channel, program, 0));
    double cents = reading.find(Facet.TUNING).map(Tuning::cents).orElse(0.0);
    int tuning = (int) Math.max(0, Math.min(16_383, Math.round(8192 + 81.92 * cents)));
    int[][] fineTuning = {{101, 0}, {100, 1}, {6, tuning >> 7}, {38, tuning & 127}};
    for (int[] control : fineTuning) {
      ShortMessage message =
          new ShortMessage(ShortMessage.CONTROL_CHANGE, channel, control[0], control[1]);
      add(track, 0, message);
    }
    return track;
  }

  private void chords(Track track) throws InvalidMidiDataException {
    for (ChordSpan span : reading.find(Facet.CHORDS).map(Chords::spans).orElse(List.of())) {
      long from = clock.tickAt(span.span().startSeconds());
      long to = clock.tickAt(span.span().endSeconds());
      meta(track, TEXT, from, text(LeadSheet.print(span.symbol())));
      if (span.symbol() instanceof Chord chord) {
        for (int pitch : closePosition(chord)) {
          note(track, 1, pitch, from, to);
        }
      }
    }
  }

  private static Set<Integer> closePosition(Chord chord) {
    Set<Integer> pitches = new TreeSet<>();
    for (int pitch = LOWEST_CHORD_NOTE; pitch < LOWEST_CHORD_NOTE + 12; pitch++) {
      if ((chord.pitchClassBits() & 1 << pitch % 12) != 0) {
        pitches.add(pitch);
      }
    }
    return pitches;
  }

  private void notes(Track track, int channel, List<NoteEvent> notes)
      throws InvalidMidiDataException {
    for (NoteEvent note : notes) {
      long from = clock.tickAt(note.span().startSeconds());
      long to = clock.tickAt(note.span().endSeconds());
      note(track, channel, (int) Math.round(note.midiPitch()), from, to);
    }
  }

  private static void note(Track track, int channel, int pitch, long from, long to)
      throws InvalidMidiDataException {
    add(track, from, new ShortMessage(ShortMessage.NOTE_ON, channel, pitch, VELOCITY));
    long end = Math.max(from + 1, to);
    add(track, end, new ShortMessage(ShortMessage.NOTE_OFF, channel, pitch, 0));
  }

  private static void meta(Track track, int type, long tick, byte[] bytes)
      throws InvalidMidiDataException {
    add(track, tick, new MetaMessage(type, bytes, bytes.length));
  }

  private static void add(Track track, long tick, MidiMessage message) {
    track.add(new MidiEvent(message, tick));
  }

  private static byte[] text(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }
}
