package undersong.render.synth;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import undersong.render.synth.TableInstrument.Settings;
import undersong.render.synth.TableInstrument.Spectrum;

/** The program's own players. Tables are kept, so use one orchestra for many notes. */
public final class Orchestra implements Ensemble {
  private static final List<Double> ONE = List.of(0.0);

  private final Map<Sound, Instrument> instruments = new EnumMap<>(Sound.class);

  public Orchestra() {
    Spectrum sineOnly = (n, f) -> n == 1 ? 1 : 0;
    put(
        Sound.BASS,
        rolledOff(0.9, 1_400),
        rolledOff(1.1, 420),
        new Settings(0.006, 1.1, 0.35, 0.06, 0.35, ONE, 0, 0.03));
    put(Sound.SUB, sineOnly, sineOnly, new Settings(0.02, 5, 0.9, 0.08, 1, ONE, 0, 0));
    put(
        Sound.PLUCK,
        rolledOff(0.5, 6_500),
        rolledOff(0.8, 2_500),
        new Settings(0.002, 0.036, 0, 0.03, 0.03, ONE, 0, 0.05));
    put(
        Sound.STRING,
        rolledOff(0.6, 5_500),
        rolledOff(0.9, 1_800),
        new Settings(0.003, 0.75, 0, 0.09, 0.22, ONE, 0, 0.04));
    put(
        Sound.KEYS,
        (n, f) ->
            new double[] {1, 0.45, 0.3, 0.22, 0.14, 0.1, 0.16, 0.1}[Math.min(n, 8) - 1]
                / Math.max(1, n - 7.0),
        (n, f) -> n == 1 ? 1 : n == 2 ? 0.3 : n == 3 ? 0.12 : n == 4 ? 0.06 : 0,
        new Settings(0.004, 1.3, 0.12, 0.12, 0.16, ONE, 0, 0.015));
    put(
        Sound.ORGAN,
        Orchestra::drawbars,
        Orchestra::drawbars,
        new Settings(0.012, 1, 1, 0.05, 1, ONE, 4, 0.01));
    put(
        Sound.PAD,
        rolledOff(0.9, 3_000),
        rolledOff(0.9, 3_400),
        new Settings(0.22, 1, 1, 0.35, 1, List.of(-7.0, 0.0, 8.0), 0, 0));
    put(
        Sound.BRASS,
        rolledOff(0.55, 2_600),
        rolledOff(0.7, 1_700),
        new Settings(0.035, 0.3, 0.75, 0.06, 0.3, List.of(-3.0, 4.0), 6, 0));
    put(
        Sound.LEAD,
        rolledOff(0.8, 4_000),
        rolledOff(1, 2_400),
        new Settings(0.006, 0.5, 0.6, 0.06, 0.3, List.of(-4.0, 5.0), 0, 0.01));
    put(
        Sound.DRIVE,
        rolledOff(0.9, 3_500),
        rolledOff(1, 2_200),
        new Settings(0.005, 3, 0.6, 0.05, 0.6, ONE, 0, 0.03));
    put(Sound.PLAIN, sineOnly, sineOnly, new Settings(0.012, 1, 1, 0.03, 1, ONE, 0, 0));
    put(
        Sound.PLAIN_SOFT,
        (n, f) -> n <= 4 ? StrictMath.pow(0.4, n - 1) : 0,
        (n, f) -> n <= 4 ? StrictMath.pow(0.4, n - 1) : 0,
        new Settings(0.012, 1, 1, 0.03, 1, ONE, 0, 0));
    instruments.put(Sound.VOICE, new SungVoice(1, 5.4));
    instruments.put(Sound.LOW_VOICE, new SungVoice(0.87, 5.0));
    drum(Sound.KICK, Drums::kick);
    drum(Sound.SNARE, Drums::snare);
    drum(Sound.BRUSH, Drums::brush);
    drum(Sound.SNAP, Drums::snap);
    drum(Sound.HAT, tone -> Drums.hat(tone, 0.028));
    drum(Sound.OPEN_HAT, tone -> Drums.hat(tone, 0.11));
    drum(Sound.CYMBAL, Drums::cymbal);
    drum(Sound.TOM, Drums::tom);
    drum(Sound.RISER, Drums::riser);
    drum(Sound.SWELL, Drums::swell);
  }

  @Override
  public Instrument of(Sound sound) {
    return instruments.get(sound);
  }

  private void put(Sound sound, Spectrum bright, Spectrum dark, Settings settings) {
    instruments.put(sound, new TableInstrument(bright, dark, settings));
  }

  private void drum(Sound sound, Function<ToneRequest, float[]> strike) {
    instruments.put(sound, strike::apply);
  }

  /** Harmonics that fall with a power of their number and faster above a corner. */
  private static Spectrum rolledOff(double power, double cornerHz) {
    return (n, hertz) -> {
      double x = n * hertz / cornerHz;
      return StrictMath.pow(n, -power) / (1 + x * x);
    };
  }

  private static double drawbars(int n, double hertz) {
    return switch (n) {
      case 1 -> 1;
      case 2 -> 0.7;
      case 3 -> 0.35;
      case 4 -> 0.3;
      case 6 -> 0.12;
      case 8 -> 0.12;
      default -> 0;
    };
  }
}
