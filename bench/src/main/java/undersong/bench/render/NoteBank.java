package undersong.bench.render;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import javax.sound.midi.InvalidMidiDataException;
import javax.sound.midi.Sequence;
import javax.sound.midi.ShortMessage;
import javax.sound.midi.Track;

/** Single notes of a soundfont, played once each and kept. */
public final class NoteBank {
  private static final double GAP_SECONDS = 0.4;

  private final Map<Note, float[]> sounds;

  private NoteBank(Map<Note, float[]> sounds) {
    this.sounds = sounds;
  }

  /**
   * @param program General MIDI program; -1 = the drum kit, whose pitch says which drum
   * @param velocity 1 to 127
   */
  public record Note(int program, int pitch, int velocity) {}

  /**
   * Plays all notes in one run of FluidSynth.
   *
   * @param lengthSeconds each is held so long
   * @param folder for what lies there for a moment
   */
  public static NoteBank of(
      Path soundfont, Collection<Note> notes, double lengthSeconds, Path folder) {
    Path wave = folder.resolve("notes.wav");
    double step = lengthSeconds + GAP_SECONDS;
    List<Note> inOrder = new ArrayList<>(notes);
    try {
      SoundfontPlayer.render(soundfont, sequence(inOrder, step), wave);
      Map<Note, float[]> sounds = new LinkedHashMap<>();
      for (int i = 0; i < inOrder.size(); i++) {
        sounds.put(inOrder.get(i), Wave.readMono(wave, i * step, step - 0.02));
      }
      Files.delete(wave);
      return new NoteBank(sounds);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (InvalidMidiDataException impossible) {
      throw new IllegalStateException(impossible);
    }
  }

  private static Sequence sequence(List<Note> notes, double step) throws InvalidMidiDataException {
    Sequence sequence = SoundfontPlayer.sequence();
    Track track = sequence.createTrack();
    for (int i = 0; i < notes.size(); i++) {
      Note note = notes.get(i);
      int channel = note.program() < 0 ? 9 : 0;
      double start = i * step;
      if (note.program() >= 0) {
        track.add(
            SoundfontPlayer.event(
                ShortMessage.PROGRAM_CHANGE,
                channel,
                note.program(),
                0,
                Math.max(0, start - 0.05)));
      }
      track.add(
          SoundfontPlayer.event(
              ShortMessage.NOTE_ON, channel, note.pitch(), note.velocity(), start));
      track.add(
          SoundfontPlayer.event(
              ShortMessage.NOTE_OFF, channel, note.pitch(), 0, start + step - GAP_SECONDS));
      // what still rings must not reach into the next note
      track.add(
          SoundfontPlayer.event(ShortMessage.CONTROL_CHANGE, channel, 120, 0, start + step - 0.03));
    }
    return sequence;
  }

  /** Mono samples at 44.1 kHz; throws where the note was not asked for. */
  public float[] sound(Note note) {
    float[] sound = sounds.get(note);
    if (sound == null) {
      throw new IllegalArgumentException("%s was never played.".formatted(note));
    }
    return sound;
  }
}
