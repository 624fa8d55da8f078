package undersong.bench.render;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import javax.sound.midi.InvalidMidiDataException;
import javax.sound.midi.MidiEvent;
import javax.sound.midi.MidiSystem;
import javax.sound.midi.Sequence;
import javax.sound.midi.ShortMessage;
import javax.sound.midi.Track;

/**
 * Plays parts through FluidSynth, all in one run: each part in its own stretch of one long file,
 * which is then cut. Loading a large soundfont takes longer than playing.
 */
final class SoundfontPlayer {
  private static final int TICKS_PER_SECOND = 1000;
  private static final int DRUM_CHANNEL = 9;
  private final Path soundfont;

  SoundfontPlayer(Path soundfont) {
    this.soundfont = soundfont;
  }

  /** One mono signal per part, each as long as asked. */
  List<float[]> play(List<Part> parts, TempoMap tempo, double lengthSeconds, Path folder)
      throws IOException {
    Path wave = folder.resolve("parts.wav");
    try {
      render(soundfont, sequence(parts, tempo, lengthSeconds), wave);
    } catch (InvalidMidiDataException impossible) {
      throw new IllegalStateException(impossible);
    }
    List<float[]> signals = new ArrayList<>();
    for (int i = 0; i < parts.size(); i++) {
      signals.add(Wave.readMono(wave, i * lengthSeconds, lengthSeconds));
    }
    Files.delete(wave);
    return signals;
  }

  /** Plays a sequence, without room or chorus, into a WAV file. */
  static void render(Path soundfont, Sequence sequence, Path wave) throws IOException {
    Path midi = wave.resolveSibling(wave.getFileName() + ".mid");
    MidiSystem.write(sequence, 0, midi.toFile());
    Tool.run(
        "fluidsynth",
        "-ni",
        "-q",
        "-g",
        "0.5",
        "-R",
        "0",
        "-C",
        "0",
        "-r",
        "44100",
        "-o",
        "synth.dynamic-sample-loading=1",
        "-F",
        wave.toString(),
        soundfont.toString(),
        midi.toString());
    Files.delete(midi);
  }

  /** An empty sequence of which a second has so many ticks as {@link #event} counts. */
  static Sequence sequence() throws InvalidMidiDataException {
    // at the default 120 beats a minute, 500 ticks a beat are 1000 a second
    return new Sequence(Sequence.PPQ, TICKS_PER_SECOND / 2);
  }

  private static Sequence sequence(List<Part> parts, TempoMap tempo, double lengthSeconds)
      throws InvalidMidiDataException {
    Sequence sequence = sequence();
    Track track = sequence.createTrack();
    int channel = 0;
    for (int i = 0; i < parts.size(); i++) {
      Part part = parts.get(i);
      boolean drums = part.role() == Part.Role.DRUMS;
      int played = drums ? DRUM_CHANNEL : channel;
      if (!drums) {
        channel += channel + 1 == DRUM_CHANNEL ? 2 : 1;
      }
      double offset = i * lengthSeconds;
      track.add(
          event(
              ShortMessage.PROGRAM_CHANGE, played, part.program(), 0, Math.max(0, offset - 0.05)));
      for (PlayedNote note : part.notes()) {
        double start = offset + tempo.secondsAt(note.startBeat());
        double end = offset + tempo.secondsAt(note.endBeat());
        track.add(event(ShortMessage.NOTE_ON, played, note.pitch(), note.velocity(), start));
        track.add(
            event(
                ShortMessage.NOTE_OFF,
                played,
                note.pitch(),
                0,
                Math.max(start + 0.03, end - 0.003)));
      }
    }
    track.add(event(ShortMessage.CONTROL_CHANGE, 0, 120, 0, parts.size() * lengthSeconds));
    return sequence;
  }

  static MidiEvent event(int command, int channel, int first, int second, double seconds)
      throws InvalidMidiDataException {
    return new MidiEvent(
        new ShortMessage(command, channel, first, second),
        Math.max(0, Math.round(seconds * TICKS_PER_SECOND)));
  }
}
