package undersong.bench.render;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import undersong.bench.metrics.Timed;
import undersong.bench.render.Part.Role;

/** Performs lines a second time, at once or afterwards, as people do: never quite the same. */
final class SecondTakes {
  private final Song song;
  private final TempoMap tempo;
  private final List<Staging.Take> takes = new ArrayList<>();
  private final List<Timed<String>> techniques = new ArrayList<>();

  SecondTakes(Song song, TempoMap tempo) {
    this.song = song;
    this.tempo = tempo;
  }

  /** What was performed so far. */
  List<Staging.Take> takes() {
    return takes;
  }

  List<Timed<String>> techniques() {
    return techniques;
  }

  /** The last notes of every second phrase once more, as a person repeats them. */
  Part answers(Part lead, List<List<PlayedNote>> phrases) {
    Random random = song.random(45);
    double placement = random.nextBoolean() ? 0.6 : -0.6;
    double wanderCents = song.sung() ? 22 : 0;
    List<PlayedNote> answers = new ArrayList<>();
    for (int i = 1; i < phrases.size(); i += 2) {
      List<PlayedNote> phrase = phrases.get(i);
      double end = phrase.get(phrase.size() - 1).endBeat();
      List<PlayedNote> tail = phrase.subList(Math.max(0, phrase.size() - 4), phrase.size());
      double lagBeats = Math.ceil(end - tail.get(0).startBeat() + 0.2);
      double late = 0.03 * random.nextGaussian();
      List<Double> lags = new ArrayList<>();
      for (PlayedNote n : tail) {
        double wander = Math.max(-0.045, Math.min(0.045, 0.02 * random.nextGaussian()));
        double lag = lagBeats * 60 / song.bpm() + late + wander;
        lags.add(lag);
        answers.add(later(n, lag, -8));
      }
      take(Staging.TakeKind.AGAIN, "lead", tail, lags, wanderCents, placement);
      techniques.add(
          new Timed<>(
              tempo.secondsAt(tail.get(0).startBeat()),
              tempo.secondsAt(end) + lagBeats * 60 / song.bpm(),
              "resung-echo"));
    }
    Strip strip = Strip.at(placement, -2, 0.2);
    return lead.sung()
        ? Part.sung(Role.ANSWER, answers, wanderCents, strip)
        : Part.played(Role.ANSWER, lead.program(), answers, strip);
  }

  /** A second take of a part, 5 to 40 ms behind the first by a distance that wanders. */
  List<PlayedNote> doubled(
      Part part, List<Passage> where, double wanderCents, double placement, Random random) {
    List<PlayedNote> again = new ArrayList<>();
    double gap = 0.018;
    for (Passage p : where) {
      List<Double> gaps = new ArrayList<>();
      List<PlayedNote> notes = part.notes().stream().filter(n -> p.holds(n.startBeat())).toList();
      double lastBeat = -1;
      for (PlayedNote n : notes) {
        if (n.startBeat() - lastBeat > 0.1) {
          gap = Math.max(0.006, Math.min(0.038, gap + 0.008 * random.nextGaussian()));
        }
        lastBeat = n.startBeat();
        gaps.add(gap);
        again.add(later(n, gap, random.nextInt(11) - 5));
      }
      if (!notes.isEmpty()) {
        String name = part.role().words();
        take(Staging.TakeKind.DOUBLE, name, notes, gaps, wanderCents, placement);
        techniques.add(
            new Timed<>(
                tempo.secondsAt(p.startBeat()), tempo.secondsAt(p.endBeat()), "wide-double"));
      }
    }
    return again;
  }

  private PlayedNote later(PlayedNote n, double seconds, int louder) {
    double beats = seconds * song.bpm() / 60;
    int velocity = Math.max(30, Math.min(127, n.velocity() + louder));
    return new PlayedNote(n.startBeat() + beats, n.endBeat() + beats, n.pitch(), velocity);
  }

  private void take(
      Staging.TakeKind kind,
      String part,
      List<PlayedNote> notes,
      List<Double> lags,
      double wanderCents,
      double placement) {
    double mean = lags.stream().mapToDouble(d -> d).average().orElseThrow();
    double squares = lags.stream().mapToDouble(d -> (d - mean) * (d - mean)).sum();
    takes.add(
        new Staging.Take(
            kind,
            part,
            tempo.secondsAt(notes.get(0).startBeat()),
            tempo.secondsAt(notes.get(notes.size() - 1).endBeat()),
            mean,
            Math.sqrt(squares / lags.size()),
            wanderCents,
            placement));
  }
}
