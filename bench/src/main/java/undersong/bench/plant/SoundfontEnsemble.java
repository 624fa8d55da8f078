package undersong.bench.plant;

import java.nio.file.Path;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import undersong.bench.render.NoteBank;
import undersong.render.DemoSong;
import undersong.render.score.PlayedNote;
import undersong.render.synth.Ensemble;
import undersong.render.synth.Instrument;
import undersong.render.synth.Orchestra;
import undersong.render.synth.Sound;
import undersong.render.synth.ToneRequest;

/**
 * Plays a score with the instruments of a soundfont, another band for every seed; what no soundfont
 * has (singers, sub-bass, noises that climb) is left to the program's own players.
 */
final class SoundfontEnsemble implements Ensemble {
  /** A note is held so long at most. */
  private static final double LONGEST_SECONDS = 7;

  private static final double RELEASE_SECONDS = 0.07;
  private static final Map<Sound, List<Integer>> PROGRAMS =
      Map.of(
          Sound.BASS, List.of(32, 33, 34, 36, 38),
          Sound.KEYS, List.of(0, 1, 4, 5, 24, 25, 27),
          Sound.ORGAN, List.of(16, 17, 19, 20),
          Sound.PAD, List.of(48, 49, 50, 89, 91),
          Sound.STRING, List.of(24, 25, 46, 104),
          Sound.PLUCK, List.of(45, 12, 13, 108),
          Sound.BRASS, List.of(56, 61, 62, 65, 66),
          Sound.LEAD, List.of(80, 81, 73, 68),
          Sound.DRIVE, List.of(29, 30));
  private static final Map<Sound, List<Integer>> DRUMS =
      Map.of(
          Sound.KICK, List.of(35, 36),
          Sound.SNARE, List.of(38, 40),
          Sound.BRUSH, List.of(38),
          Sound.SNAP, List.of(39, 37),
          Sound.HAT, List.of(42),
          Sound.OPEN_HAT, List.of(46),
          Sound.CYMBAL, List.of(49, 57),
          Sound.TOM, List.of(45, 47));

  private final Ensemble own = new Orchestra();
  private final Map<Sound, Integer> chosen = new EnumMap<>(Sound.class);
  private final NoteBank bank;
  private final Map<Sound, Float> gains = new HashMap<>();

  /**
   * @param folder for what lies there for a moment
   */
  SoundfontEnsemble(Path soundfont, DemoSong song, long seed, Path folder) {
    Random chance = new Random(seed);
    for (Map<Sound, List<Integer>> choices : List.of(PROGRAMS, DRUMS)) {
      for (Sound sound : Sound.values()) {
        if (choices.containsKey(sound)) {
          List<Integer> these = choices.get(sound);
          chosen.put(sound, these.get(chance.nextInt(these.size())));
        }
      }
    }
    Set<NoteBank.Note> notes = new LinkedHashSet<>();
    for (PlayedNote note : song.performance().notes()) {
      Sound sound = note.part().sound();
      if (chosen.containsKey(sound)) {
        notes.add(note(sound, note.midiPitch(), note.strength()));
      }
    }
    this.bank = NoteBank.of(soundfont, notes, LONGEST_SECONDS, folder);
  }

  @Override
  public Instrument of(Sound sound) {
    return chosen.containsKey(sound) ? tone -> play(sound, tone) : own.of(sound);
  }

  private NoteBank.Note note(Sound sound, int pitch, double strength) {
    int velocity = (int) Math.round(30 + 90 * strength);
    return sound.isDrum()
        ? new NoteBank.Note(-1, chosen.get(sound), velocity)
        : new NoteBank.Note(chosen.get(sound), pitch, velocity);
  }

  private float[] play(Sound sound, ToneRequest tone) {
    double midi = 69 + 12 * Math.log(tone.hertz() / 440) / Math.log(2);
    int pitch = (int) Math.round(midi);
    float[] source = bank.sound(note(sound, pitch, tone.strength()));
    double speed = sound.isDrum() ? 1 : Math.pow(2, (midi - pitch) / 12);
    int release = (int) (RELEASE_SECONDS * Instrument.SAMPLE_RATE_HZ);
    int wanted = sound.isDrum() ? source.length : tone.lengthSamples() + release;
    int length = Math.min(wanted, (int) ((source.length - 2) / speed));
    float gain = gains.computeIfAbsent(sound, s -> gain(s, tone, source));
    float[] played = new float[length];
    for (int i = 0; i < length; i++) {
      double at = i * speed;
      int before = (int) at;
      float rest = (float) (at - before);
      float value = source[before] * (1 - rest) + source[before + 1] * rest;
      float end = Math.min(1f, (float) (length - 1 - i) / release);
      played[i] = gain * value * end;
    }
    return played;
  }

  /** Brings a sound to the loudness the program's own player gives it, so that the mix holds. */
  private float gain(Sound sound, ToneRequest tone, float[] source) {
    int length = Math.min(source.length, Instrument.SAMPLE_RATE_HZ / 5);
    double wanted = power(own.of(sound).play(tone), length);
    return (float) Math.sqrt(wanted / Math.max(1e-9, power(source, length)));
  }

  private static double power(float[] sound, int length) {
    double sum = 0;
    for (int i = 0; i < Math.min(length, sound.length); i++) {
      sum += sound[i] * sound[i];
    }
    return sum / Math.max(1, Math.min(length, sound.length));
  }
}
