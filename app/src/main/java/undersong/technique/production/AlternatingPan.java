package undersong.technique.production;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import undersong.reading.Echo;
import undersong.reading.Facet;
import undersong.reading.PlacedEvent;
import undersong.reading.Reading;
import undersong.reading.SoundSource;
import undersong.technique.Certainty;
import undersong.technique.Finding;
import undersong.technique.FindingDraft;
import undersong.technique.Pulse;
import undersong.technique.Technique;
import undersong.technique.TechniqueFinder;
import undersong.time.Span;

/**
 * Short lines jump from side to side while the lead stays near the middle. Notes that follow each
 * other in one place and register are a line; long lines are accompaniment and do not count.
 */
final class AlternatingPan implements TechniqueFinder {
  private static final double DOUBTED_BY_DOUBLES = 0.5;

  private final Settings settings;

  AlternatingPan(Settings settings) {
    this.settings = settings;
  }

  /**
   * @param leastPlace distance from the middle
   * @param fewestTurns left, right, left, right
   * @param mostLead distance of the lead from the middle
   * @param longestBars of one turn
   * @param apartBars from turn to turn, at most
   */
  record Settings(
      double leastPlace, int fewestTurns, double mostLead, double longestBars, double apartBars) {
    static final Settings DEFAULTS = new Settings(0.4, 4, 0.25, 1.3, 2.2);
  }

  @Override
  public Set<Technique> techniques() {
    return Set.of(Technique.ALTERNATING_PAN);
  }

  @Override
  public Set<Facet<?>> reads() {
    return Set.of(Facet.BEATS, Facet.METER, Facet.SPACE);
  }

  @Override
  public Set<Facet<?>> alsoReads() {
    return Set.of(Facet.ECHOES);
  }

  /** One line, or one turn of several, on one side. */
  private static final class Turn {
    private final List<PlacedEvent> notes = new ArrayList<>();

    double start() {
      return notes.get(0).span().startSeconds();
    }

    double end() {
      return notes.stream().mapToDouble(note -> note.span().endSeconds()).max().orElseThrow();
    }

    double place() {
      return notes.stream().mapToDouble(PlacedEvent::placement).average().orElseThrow();
    }

    double probability() {
      return notes.stream().mapToDouble(PlacedEvent::probability).max().orElseThrow();
    }

    double pitch() {
      return notes.stream()
          .mapToDouble(note -> note.midiPitch().orElse(60))
          .average()
          .orElseThrow();
    }

    boolean takes(PlacedEvent note) {
      PlacedEvent last = notes.get(notes.size() - 1);
      return note.span().startSeconds() - end() < 0.35
          && Math.abs(note.placement() - place()) < 0.25
          && Math.abs(note.midiPitch().orElse(60) - last.midiPitch().orElse(60)) <= 9;
    }
  }

  @Override
  public List<Finding> find(Reading reading) {
    Pulse pulse = Pulse.of(reading);
    List<Finding> findings = new ArrayList<>();
    if (!pulse.isThere()) {
      return findings;
    }
    List<Turn> turns = turns(reading.get(Facet.SPACE).events(), pulse);
    List<Turn> run = new ArrayList<>();
    for (Turn turn : turns) {
      boolean goesOn =
          !run.isEmpty()
              && pulse.beats(run.get(run.size() - 1).start(), turn.start())
                  <= settings.apartBars() * pulse.beatsPerBar();
      if (!goesOn) {
        told(run, reading, pulse, findings);
        run = new ArrayList<>();
      }
      run.add(turn);
    }
    told(run, reading, pulse, findings);
    return findings;
  }

  /** Short lines beside the middle by start, those of one side in succession joined. */
  private List<Turn> turns(List<PlacedEvent> events, Pulse pulse) {
    List<Turn> lines = new ArrayList<>();
    List<Turn> open = new ArrayList<>();
    for (PlacedEvent event : events) {
      if (event.source() != SoundSource.LINE
          || Math.abs(event.placement()) < settings.leastPlace()) {
        continue;
      }
      open.removeIf(line -> event.span().startSeconds() - line.end() >= 0.35);
      Turn line = open.stream().filter(l -> l.takes(event)).findFirst().orElse(null);
      if (line == null) {
        line = new Turn();
        open.add(line);
        lines.add(line);
      }
      line.notes.add(event);
    }
    lines.removeIf(
        line ->
            pulse.beats(line.start(), line.end()) > settings.longestBars() * pulse.beatsPerBar());
    lines.sort(Comparator.comparingDouble(Turn::start));
    List<Turn> turns = new ArrayList<>();
    for (Turn line : lines) {
      Turn last = turns.isEmpty() ? null : turns.get(turns.size() - 1);
      boolean same =
          last != null
              && Math.signum(last.place()) == Math.signum(line.place())
              && pulse.beats(last.start(), line.end())
                  <= settings.longestBars() * pulse.beatsPerBar();
      if (last != null && same) {
        last.notes.addAll(line.notes);
      } else {
        turns.add(line);
      }
    }
    return turns;
  }

  private void told(List<Turn> run, Reading reading, Pulse pulse, List<Finding> findings) {
    int alternations = 0;
    double registerApart = 0;
    List<Double> gaps = new ArrayList<>();
    for (int i = 1; i < run.size(); i++) {
      if (Math.signum(run.get(i).place()) != Math.signum(run.get(i - 1).place())) {
        alternations++;
        registerApart += Math.abs(run.get(i).pitch() - run.get(i - 1).pitch());
      }
      gaps.add(run.get(i).start() - run.get(i - 1).start());
    }
    if (alternations + 1 < settings.fewestTurns() || registerApart / alternations > 14) {
      return;
    }
    Span span = new Span(run.get(0).start(), run.get(run.size() - 1).end());
    double lead = lead(reading.get(Facet.SPACE).events(), span);
    if (lead > settings.mostLead()) {
      return;
    }
    double share = (double) alternations / (run.size() - 1);
    double place = run.stream().mapToDouble(turn -> Math.abs(turn.place())).average().orElseThrow();
    findings.add(
        FindingDraft.of(Technique.ALTERNATING_PAN, span)
            .bars(pulse.bars(span))
            .sure(
                Certainty.beyond(share, 0.6, 0.15),
                Certainty.beyond(0.8 - unevenness(gaps), 0, 0.4),
                Certainty.beyond(place, settings.leastPlace(), 0.15),
                // A pattern of many turns stands even where single notes are doubtful.
                Math.sqrt(run.stream().mapToDouble(Turn::probability).average().orElseThrow()),
                1 - DOUBTED_BY_DOUBLES * doubled(reading, span))
            .strength(place)
            .says("summary", alternations + 1, place)
            .hear("hear")
            .atLeast("turns", alternations + 1, settings.fewestTurns(), "times")
            .atLeast("place", place, settings.leastPlace(), "")
            .atMost("lead", lead, settings.mostLead(), "")
            .make());
  }

  /**
   * Share of a span through which a line is played twice: its notes stand on both sides, and are
   * seen now on one and now on the other.
   */
  private static double doubled(Reading reading, Span span) {
    double seconds =
        reading.find(Facet.ECHOES).stream()
            .flatMap(echoes -> echoes.echoes().stream())
            .filter(echo -> echo.kind() == Echo.Kind.DOUBLE)
            .mapToDouble(echo -> echo.span().overlapSeconds(span))
            .sum();
    return Math.min(1, seconds / span.lengthSeconds());
  }

  /** Deviation of the gaps over their mean. */
  private static double unevenness(List<Double> gaps) {
    double mean = gaps.stream().mapToDouble(Double::doubleValue).average().orElse(1);
    double squares = gaps.stream().mapToDouble(g -> (g - mean) * (g - mean)).average().orElse(0);
    return Math.sqrt(squares) / mean;
  }

  /** Mean distance of the lead from the middle; 0 where nobody leads. */
  private static double lead(List<PlacedEvent> events, Span span) {
    double seconds = 0;
    double sum = 0;
    for (PlacedEvent event : events) {
      if (event.source() == SoundSource.LEAD) {
        double common = event.span().overlapSeconds(span);
        seconds += common;
        sum += common * Math.abs(event.placement());
      }
    }
    return seconds > 0 ? sum / seconds : 0;
  }
}
