package undersong.bench.render;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;

/** What a producer sends into a delay; its time is a note value of the tempo. */
final class Delays {
  private Delays() {}

  /** The last note of every other phrase of the lead. */
  static List<Staging.Echo> thrown(Song song, TempoMap tempo, List<List<PlayedNote>> phrases) {
    Random random = song.random(42);
    double delay = delaySeconds(song, random, 0.5, 0.75, 1);
    double lowPassHz = 2500 + 3500 * random.nextDouble();
    List<Staging.Echo> echoes = new ArrayList<>();
    for (int i = 0; i < phrases.size(); i += 2) {
      PlayedNote last = phrases.get(i).get(phrases.get(i).size() - 1);
      double start = tempo.secondsAt(last.startBeat()) - 0.03;
      double end = tempo.secondsAt(last.endBeat()) + 0.05;
      echoes.add(new Staging.Echo("lead", start, end, delay, 4, -5, -5, lowPassHz, false));
    }
    return echoes;
  }

  /** The lead through whole choruses. */
  static List<Staging.Echo> ofChoruses(Song song, TempoMap tempo, List<Passage> passages) {
    double delay = delaySeconds(song, song.random(43), 0.5, 0.75, 1.5);
    return passages.stream()
        .filter(Passage::isChorus)
        .map(
            p ->
                new Staging.Echo(
                    "lead",
                    tempo.secondsAt(p.startBeat()),
                    tempo.secondsAt(p.endBeat()),
                    delay,
                    3,
                    -8,
                    -6,
                    5000,
                    false))
        .toList();
  }

  /** The arpeggio everywhere else, from side to side. */
  static List<Staging.Echo> pingPong(Song song, TempoMap tempo, List<Passage> passages) {
    double delay = delaySeconds(song, song.random(44), 0.75, 1.5);
    return passages.stream()
        .filter(p -> !p.isChorus())
        .map(
            p ->
                new Staging.Echo(
                    "arpeggio",
                    tempo.secondsAt(p.startBeat()),
                    tempo.secondsAt(p.endBeat()),
                    delay,
                    4,
                    -6,
                    -4,
                    6000,
                    true))
        .toList();
  }

  private static double delaySeconds(Song song, Random random, double... beats) {
    return beats[random.nextInt(beats.length)] * 60 / song.bpm();
  }
}
