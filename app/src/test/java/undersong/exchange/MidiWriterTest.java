package undersong.exchange;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import javax.sound.midi.MetaMessage;
import javax.sound.midi.MidiEvent;
import javax.sound.midi.MidiSystem;
import javax.sound.midi.Sequence;
import javax.sound.midi.ShortMessage;
import javax.sound.midi.Track;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import undersong.reading.Bar;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.Line;
import undersong.reading.Lines;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.reading.TimeSignature;
import undersong.time.Span;

class MidiWriterTest {
  /**
   * Standard MIDI Files 1.0 (from memory): a tick lasts (microseconds per quarter / division); the
   * JDK's own reader reads the file, and time is summed up here from its set-tempo events.
   */
  @ParameterizedTest
  @CsvSource({"4/4, 0, 1", "4/4, 3, 2", "3/4, 1, 3", "6/8, 0, 4", "6/8, 1, 5", "5/4, 7, 6"})
  void linesUpWithTheRecording(String signature, int upbeats, long seed) throws Exception {
    Reading reading = SampleReadings.of(TimeSignature.parse(signature), upbeats, seed);
    Sequence sequence = read(MidiWriter.print(reading, SongFacts.UNKNOWN));
    double halfTick = 0.002;
    checkNotes(sequence, 1, reading.get(Facet.BASS).notes(), halfTick);
    checkNotes(sequence, 3, reading.get(Facet.MELODY).notes(), halfTick);
    List<Double> barLines = barLines(sequence);
    for (Bar bar : reading.get(Facet.METER).bars()) {
      double start = bar.span().startSeconds();
      double nearest =
          barLines.stream().mapToDouble(line -> Math.abs(line - start)).min().orElseThrow();
      assertThat(nearest).as("bar %d at %s s", bar.number(), start).isLessThan(0.0001);
    }
  }

  private static void checkNotes(
      Sequence sequence, int track, List<NoteEvent> notes, double toleranceSeconds) {
    int found = 0;
    for (MidiEvent event : events(sequence.getTracks()[track])) {
      if (event.getMessage() instanceof ShortMessage message
          && message.getCommand() == ShortMessage.NOTE_ON) {
        NoteEvent note = notes.get(found++);
        assertThat(seconds(sequence, event.getTick()))
            .isCloseTo(note.span().startSeconds(), within(toleranceSeconds));
        assertThat(message.getData1()).isEqualTo((int) Math.round(note.midiPitch()));
      }
    }
    assertThat(found).isEqualTo(notes.size());
  }

  /** Every place where a reader of the file draws a bar line, in seconds. */
  private static List<Double> barLines(Sequence sequence) {
    List<Double> lines = new ArrayList<>();
    List<MidiEvent> map = events(sequence.getTracks()[0]);
    long tick = 0;
    while (tick <= sequence.getTickLength()) {
      lines.add(seconds(sequence, tick));
      long bar = 0;
      for (MidiEvent event : map) {
        if (event.getMessage() instanceof MetaMessage meta
            && meta.getType() == 0x58
            && event.getTick() <= tick) {
          byte[] data = meta.getData();
          bar = (data[0] * 4L * sequence.getResolution()) >> data[1];
        }
      }
      tick += bar;
    }
    return lines;
  }

  private static double seconds(Sequence sequence, long atTick) {
    double microseconds = 0;
    long from = 0;
    int tempo = 500_000;
    for (MidiEvent event : events(sequence.getTracks()[0])) {
      if (event.getMessage() instanceof MetaMessage meta
          && meta.getType() == 0x51
          && event.getTick() <= atTick) {
        microseconds += (double) (event.getTick() - from) * tempo / sequence.getResolution();
        from = event.getTick();
        byte[] data = meta.getData();
        tempo = (data[0] & 255) << 16 | (data[1] & 255) << 8 | (data[2] & 255);
      }
    }
    return (microseconds + (double) (atTick - from) * tempo / sequence.getResolution()) / 1e6;
  }

  private static List<MidiEvent> events(Track track) {
    List<MidiEvent> events = new ArrayList<>();
    for (int i = 0; i < track.size(); i++) {
      events.add(track.get(i));
    }
    return events;
  }

  private static Sequence read(byte[] bytes) throws Exception {
    return MidiSystem.getSequence(new ByteArrayInputStream(bytes));
  }

  /** Header chunk of Standard MIDI Files 1.0: MThd, length 6, format 1 (from memory). */
  @Test
  void writesFormatOneWithNamedTracks() throws Exception {
    Reading reading = SampleReadings.of(TimeSignature.FOUR_FOUR, 0, 1);
    byte[] bytes = MidiWriter.print(reading, new SongFacts("The Kiln", "", "", ""));
    assertThat(new String(bytes, 0, 4, StandardCharsets.US_ASCII)).isEqualTo("MThd");
    assertThat(List.of(bytes[7], bytes[9], bytes[11]))
        .containsExactly((byte) 6, (byte) 1, (byte) 4);
    Sequence sequence = read(bytes);
    assertThat(sequence.getResolution()).isEqualTo(480);
    assertThat(texts(sequence, 0x03)).containsExactly("The Kiln", "bass", "chords", "melody");
    assertThat(texts(sequence, 0x06)).containsExactly("Verse 1", "Chorus 1", "Verse 2", "Chorus 2");
    assertThat(texts(sequence, 0x01)).startsWith("Dm7/F", "N.C.", "E7(b9)", "A5");
  }

  /** Channel 10 (9 counted from 0) is for drums in General MIDI (from memory). */
  @Test
  void givesVoicesAndLinesTracksOfTheirOwnButNoneTheDrumsChannel() throws Exception {
    List<Line> lines = new ArrayList<>();
    for (int line = 1; line <= 14; line++) {
      NoteEvent note = new NoteEvent(new Span(line, line + 1), 60, 1);
      lines.add(new Line("line-" + line, List.of(note), Optional.empty(), Optional.empty(), 1));
    }
    Reading reading = Reading.empty(20).with(Facet.LINES, Derived.of(new Lines(lines, List.of())));
    Sequence sequence = read(MidiWriter.print(reading, SongFacts.UNKNOWN));
    assertThat(texts(sequence, 0x03)).hasSize(18).contains("line-1", "line-14");
    for (Track track : sequence.getTracks()) {
      assertThat(events(track))
          .noneMatch(
              event ->
                  event.getMessage() instanceof ShortMessage message && message.getChannel() == 9);
    }
  }

  private static List<String> texts(Sequence sequence, int type) {
    List<String> texts = new ArrayList<>();
    for (Track track : sequence.getTracks()) {
      for (MidiEvent event : events(track)) {
        if (event.getMessage() instanceof MetaMessage meta && meta.getType() == type) {
          texts.add(new String(meta.getData(), StandardCharsets.UTF_8));
        }
      }
    }
    return texts;
  }

  @Test
  void writesAReadingWithoutPulse() throws Exception {
    Sequence sequence = read(MidiWriter.print(Reading.empty(10), SongFacts.UNKNOWN));
    assertThat(sequence.getTracks()).hasSize(4);
  }

  /**
   * MIDI 1.0 registered parameter 1, fine tuning: 8192 is none, 100 cents are 8192 (from memory).
   */
  @Test
  void sendsTheTuningOfTheRecording() throws Exception {
    Reading reading = SampleReadings.of(TimeSignature.FOUR_FOUR, 0, 1);
    Sequence sequence = read(MidiWriter.print(reading, SongFacts.UNKNOWN));
    int tuning = 0;
    for (MidiEvent event : events(sequence.getTracks()[1])) {
      if (event.getMessage() instanceof ShortMessage message
          && message.getCommand() == ShortMessage.CONTROL_CHANGE) {
        tuning += message.getData1() == 6 ? message.getData2() << 7 : 0;
        tuning += message.getData1() == 38 ? message.getData2() : 0;
      }
    }
    assertThat((tuning - 8192) / 81.92).isCloseTo(-14, within(0.01));
  }
}
