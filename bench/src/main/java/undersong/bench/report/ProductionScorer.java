package undersong.bench.report;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Set;
import undersong.bench.metrics.EchoMetrics;
import undersong.bench.metrics.LayerMetrics;
import undersong.bench.metrics.Matching;
import undersong.bench.metrics.NoteMetrics;
import undersong.bench.metrics.PrecisionRecall;
import undersong.bench.metrics.RoomMetrics;
import undersong.bench.metrics.SpaceMetrics;
import undersong.bench.metrics.Statistics;
import undersong.bench.metrics.SungNote;
import undersong.bench.metrics.Timed;
import undersong.bench.peers.Produced;
import undersong.bench.render.Staging;
import undersong.bench.render.Truth;

/** Scores what was heard of a production against what was done. */
final class ProductionScorer {
  static final String WIDTH_ERROR = "space.widthErrorDb";

  private static final double AUDIBLE_DB = -12;
  private static final double SAME_ONSET_SECONDS = 0.005;
  private static final Set<String> PLACED_PARTS =
      Set.of("bass", "lead", "second", "arpeggio", "line", "answer", "addition");

  private final Truth truth;
  private final Staging staging;
  private final Produced heard;
  private final Map<String, Double> scores;

  private ProductionScorer(Truth truth, Produced heard, Map<String, Double> scores) {
    this.truth = truth;
    this.staging = truth.staging();
    this.heard = heard;
    this.scores = scores;
  }

  /**
   * @param scores written; where the truth has none of a kind, false alarms a minute stand instead
   */
  static void score(Truth truth, Produced heard, Map<String, Double> scores) {
    ProductionScorer scorer = new ProductionScorer(truth, heard, scores);
    scorer.notes("second", truth.second(), heard.voices());
    scorer.notes("lines", lines(truth.staging()), heard.lines());
    scorer.placement();
    scorer.copies();
    scorer.layers();
    scorer.additions();
    scorer.width();
    scorer.sweeps();
    scorer.ducking();
    scorer.room();
  }

  private static List<SungNote> lines(Staging staging) {
    return staging.lines().stream().flatMap(l -> l.notes().stream()).toList();
  }

  private void notes(String name, List<SungNote> reference, List<SungNote> estimated) {
    if (reference.isEmpty()) {
      perMinute(name + ".falsePerMinute", estimated.size());
    } else {
      scores.put(
          name + ".notesF",
          NoteMetrics.score(reference, estimated, NoteMetrics.Demand.ONSET_PITCH).f());
    }
  }

  private void perMinute(String name, int count) {
    scores.put(name, 60 * count / truth.durationSeconds());
  }

  private void placement() {
    List<SpaceMetrics.Sound> sounds = new ArrayList<>();
    List<List<SpaceMetrics.Sound>> lines = new ArrayList<>();
    for (Staging.Placement p : staging.placements()) {
      if (!PLACED_PARTS.contains(p.part()) || p.levelDb() < AUDIBLE_DB || isDoubled(p)) {
        continue;
      }
      List<SpaceMetrics.Sound> stands =
          notesOf(p.part()).stream()
              .filter(n -> n.startSeconds() >= p.startSeconds() - 1e-6)
              .filter(n -> n.startSeconds() < p.endSeconds())
              .map(n -> new SpaceMetrics.Sound(n, standsAt(p, n)))
              .toList();
      sounds.addAll(stands);
      if (p.part().equals("line") && !stands.isEmpty()) {
        lines.add(stands);
      }
    }
    SpaceMetrics.Placement placement = SpaceMetrics.placement(sounds, heard.placed());
    scores.put("space.placementFound", placement.found());
    scores.put("space.placementError", placement.meanError());
    if (!lines.isEmpty()) {
      scores.put("space.alternatingF", SpaceMetrics.sides(lines, heard.placed()).f());
    }
  }

  /** Where its part was placed, unless wear has moved this note. */
  private double standsAt(Staging.Placement p, SungNote note) {
    return staging.stands().stream()
        .filter(s -> s.part().equals(p.part()))
        .filter(s -> Math.abs(s.startSeconds() - note.startSeconds()) < SAME_ONSET_SECONDS)
        .min(Comparator.comparingDouble(s -> Math.abs(s.midiPitch() - note.midiPitch())))
        .map(Staging.Stand::placement)
        .orElse(p.placement());
  }

  /** A part that is played twice stands on both sides: nowhere. */
  private boolean isDoubled(Staging.Placement p) {
    return staging.takes().stream()
        .anyMatch(
            t ->
                t.kind() == Staging.TakeKind.DOUBLE
                    && t.part().equals(p.part())
                    && t.startSeconds() < p.endSeconds()
                    && p.startSeconds() < t.endSeconds());
  }

  private List<SungNote> notesOf(String part) {
    return switch (part) {
      case "bass" -> truth.bass();
      case "lead" -> truth.melody();
      case "second" -> truth.second();
      default ->
          staging.lines().stream()
              .filter(l -> l.part().equals(part))
              .flatMap(l -> l.notes().stream())
              .toList();
    };
  }

  private void copies() {
    List<EchoMetrics.Copy> reference = copiesDone(staging);
    for (EchoMetrics.Kind kind : EchoMetrics.Kind.values()) {
      if (kind == EchoMetrics.Kind.UNHEARD) {
        continue;
      }
      String name = "echo." + kind.name().toLowerCase(java.util.Locale.ROOT);
      if (reference.stream().anyMatch(c -> c.kind() == kind)) {
        scores.put(name + "F", EchoMetrics.found(reference, heard.copies(), kind).f());
      } else {
        perMinute(
            name + "FalsePerMinute",
            (int) heard.copies().stream().filter(c -> c.kind() == kind).count());
      }
    }
    scores.put(
        "echo.lagErrorMs",
        Statistics.mean(EchoMetrics.lagErrorsMilliseconds(reference, heard.copies())));
    scores.put("echo.confused", EchoMetrics.confused(EchoMetrics.told(reference, heard.copies())));
  }

  /** All that comes back, from the first sound to the end of its last copy. */
  static List<EchoMetrics.Copy> copiesDone(Staging staging) {
    List<EchoMetrics.Copy> copies = new ArrayList<>();
    for (Staging.Echo e : staging.echoes()) {
      copies.add(
          new EchoMetrics.Copy(
              EchoMetrics.Kind.DELAY,
              e.startSeconds(),
              e.endSeconds() + e.repeats() * e.delaySeconds(),
              e.delaySeconds()));
    }
    for (Staging.Take t : staging.takes()) {
      copies.add(
          new EchoMetrics.Copy(
              t.kind() == Staging.TakeKind.AGAIN ? EchoMetrics.Kind.AGAIN : EchoMetrics.Kind.DOUBLE,
              t.startSeconds(),
              t.endSeconds() + t.lagSeconds(),
              t.lagSeconds()));
    }
    return copies;
  }

  private void layers() {
    List<Double> beats = truth.beats();
    List<Double> downbeats = truth.downbeats();
    if (beats.isEmpty() || downbeats.size() < 2) {
      return;
    }
    double bar = (downbeats.get(downbeats.size() - 1) - downbeats.get(0)) / (downbeats.size() - 1);
    PrecisionRecall score =
        LayerMetrics.entriesAndExits(
                staging.layers(),
                heard.layers(),
                List.of("drums", "bass", "lead"),
                bar,
                beats.get(0),
                beats.get(beats.size() - 1))
            .score();
    scores.put("layers.entriesExitsF", score.f());
  }

  /** Equal pitch class while the true note sounds; one estimate for one note. */
  private void additions() {
    List<SungNote> reference = staging.additions().stream().map(Staging.Addition::note).toList();
    List<SungNote> estimated = heard.additions();
    if (truth.sections().isEmpty()) {
      return;
    }
    if (reference.isEmpty()) {
      perMinute("repeats.falsePerMinute", estimated.size());
      return;
    }
    scores.put(
        "repeats.newNotesF",
        Matching.score(
                reference.size(),
                estimated.size(),
                (r, e) ->
                    reference.get(r).pitchClass() == estimated.get(e).pitchClass()
                        && reference.get(r).startSeconds() < estimated.get(e).endSeconds()
                        && estimated.get(e).startSeconds() < reference.get(r).endSeconds())
            .f());
  }

  /** Mean distance of true and told side-to-middle level, section by section. */
  private void width() {
    List<Double> errors = new ArrayList<>();
    for (Timed<Double> section : staging.sideOverMidDb()) {
      double power = 0;
      double seconds = 0;
      for (Timed<Double> bar : heard.sideOverMidDb()) {
        double common = bar.overlapSeconds(section.startSeconds(), section.endSeconds());
        power += common * Math.pow(10, bar.value() / 10);
        seconds += common;
      }
      if (seconds > 0) {
        errors.add(Math.abs(10 * Math.log10(power / seconds) - section.value()));
      }
    }
    scores.put(
        WIDTH_ERROR, Statistics.mean(errors.stream().mapToDouble(Double::doubleValue).toArray()));
  }

  private void sweeps() {
    List<Timed<String>> reference =
        staging.sweeps().stream()
            .map(
                s ->
                    new Timed<>(
                        s.startSeconds(),
                        s.endSeconds(),
                        s.toHz() > s.fromHz() ? "opens" : "closes"))
            .distinct()
            .toList();
    if (reference.isEmpty()) {
      perMinute("texture.sweepFalsePerMinute", heard.sweeps().size());
      return;
    }
    List<Timed<String>> estimated = heard.sweeps();
    scores.put(
        "texture.sweepF",
        Matching.score(
                reference.size(),
                estimated.size(),
                (r, e) ->
                    reference.get(r).value().equals(estimated.get(e).value())
                        && 2
                                * reference
                                    .get(r)
                                    .overlapSeconds(
                                        estimated.get(e).startSeconds(),
                                        estimated.get(e).endSeconds())
                            >= reference.get(r).lengthSeconds())
            .f());
  }

  /** Nothing of songs that were rendered before rooms were written down. */
  private void room() {
    List<RoomMetrics.Room> reference =
        staging.rooms().stream()
            .map(
                r ->
                    new RoomMetrics.Room(
                        r.startSeconds(), r.endSeconds(), r.decaySeconds(), r.wetToDryDb()))
            .toList();
    if (reference.isEmpty()) {
      return;
    }
    RoomMetrics.Score score = RoomMetrics.score(reference, heard.rooms());
    scores.put("room.decayRatio", score.medianRatio());
    scores.put("room.decayWithin", score.within());
    scores.put("room.decayTold", score.told());
    scores.put("room.wetErrorDb", score.wetErrorDb());
    List<RoomMetrics.Change> changes = RoomMetrics.changes(reference);
    if (changes.isEmpty()) {
      perMinute("room.changesFalsePerMinute", heard.roomChanges().size());
    } else {
      scores.put("room.changesF", RoomMetrics.found(changes, heard.roomChanges()).f());
    }
  }

  /** By time: of what is ducked the share told so, and of what is told the share that is ducked. */
  private void ducking() {
    double told = heard.duckingDb().stream().mapToDouble(Timed::lengthSeconds).sum();
    if (staging.duckings().isEmpty()) {
      scores.put("texture.duckingFalseShare", told / truth.durationSeconds());
      return;
    }
    double common = 0;
    double real = 0;
    double depths = 0;
    for (Staging.Ducking d : staging.duckings()) {
      real += d.endSeconds() - d.startSeconds();
      for (Timed<Double> guess : heard.duckingDb()) {
        double both = guess.overlapSeconds(d.startSeconds(), d.endSeconds());
        common += both;
        depths += both * Math.abs(guess.value() - d.depthDb());
      }
    }
    scores.put("texture.duckingF", told + real == 0 ? 0 : 2 * common / (told + real));
    scores.put("texture.duckingDepthErrorDb", common == 0 ? Double.NaN : depths / common);
  }
}
