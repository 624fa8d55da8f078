package undersong.technique.melody;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import undersong.reading.Facet;
import undersong.reading.Line;
import undersong.reading.Motif;
import undersong.reading.Motif.Likeness;
import undersong.reading.Motif.Occurrence;
import undersong.reading.PartName;
import undersong.reading.Reading;
import undersong.technique.Finding;
import undersong.technique.FindingDraft;
import undersong.technique.Part;
import undersong.technique.Pulse;
import undersong.technique.Sentence;
import undersong.technique.SongSection;
import undersong.technique.Technique;
import undersong.technique.TechniqueFinder;
import undersong.time.Span;

/** Figures carried to another pitch at once, and figures that go round. */
final class Figures implements TechniqueFinder {
  private final Settings settings;

  Figures(Settings settings) {
    this.settings = settings;
  }

  /**
   * @param leastCopies of a figure shorter than a bar, or of few notes, that must follow; one is
   *     enough for others
   * @param fewNotes a figure has up to this many
   * @param riffRounds that a riff goes round at least
   */
  record Settings(int leastCopies, int fewNotes, int riffRounds) {
    static final Settings DEFAULTS = new Settings(2, 3, 4);
  }

  @Override
  public Set<Technique> techniques() {
    return Set.of(Technique.PATTERN_SEQUENCE, Technique.RIFF);
  }

  @Override
  public Set<Facet<?>> reads() {
    return Set.of(Facet.BEATS, Facet.METER, Facet.FORM, Facet.ROLES, Facet.MOTIFS);
  }

  /** How surely an accompaniment's lines are told apart. */
  @Override
  public Set<Facet<?>> alsoReads() {
    return Set.of(Facet.LINES);
  }

  @Override
  public List<Finding> find(Reading reading) {
    Pulse pulse = Pulse.of(reading);
    if (!pulse.isThere()) {
      return List.of();
    }
    List<SongSection> sections = SongSection.of(reading);
    Map<String, Double> sureOfLine =
        reading.find(Facet.LINES).stream()
            .flatMap(lines -> lines.lines().stream())
            .collect(Collectors.toMap(Line::name, Line::probability));
    List<Finding> findings = new ArrayList<>();
    for (Motif motif : reading.get(Facet.MOTIFS).motifs()) {
      double sureOfPart = sureOfLine.getOrDefault(motif.part(), 1.0);
      List<List<Occurrence>> runs = runs(motif, pulse);
      if (motif.riff() && !PartName.isVoice(motif.part())) {
        long rounds = motif.occurrences().stream().filter(Figures::goesRound).count();
        runs.stream()
            .filter(run -> run.stream().allMatch(Figures::goesRound) && staysOnce(run))
            .forEach(run -> findings.add(riff(motif, run, sureOfPart, rounds, pulse)));
      }
      if (!motif.riff() || motif.part().equals(PartName.MELODY) || PartName.isVoice(motif.part())) {
        for (List<Occurrence> run : runs) {
          moved(motif, run, pulse)
              .forEach(
                  moving -> findings.add(sequence(motif, moving, sureOfPart, pulse, sections)));
        }
      }
    }
    return findings;
  }

  private static boolean goesRound(Occurrence heard) {
    return heard.likeness() == Likeness.EXACT || heard.likeness() == Likeness.FOLLOWS_ROOT;
  }

  /** A figure that is carried on every time is a sequence: one that goes round comes again. */
  private static boolean staysOnce(List<Occurrence> run) {
    for (int i = 1; i < run.size(); i++) {
      if (!moves(run.get(i - 1), run.get(i))) {
        return true;
      }
    }
    return false;
  }

  /** Occurrences that follow each other without a gap. */
  private static List<List<Occurrence>> runs(Motif motif, Pulse pulse) {
    double bars = motif.lengthBeats() / pulse.beatsPerBar();
    double period = (bars <= 0.5 ? 0.5 : bars <= 1 ? 1 : 2) * pulse.beatsPerBar();
    List<List<Occurrence>> runs = new ArrayList<>();
    for (Occurrence heard : motif.occurrences()) {
      List<Occurrence> last = runs.isEmpty() ? List.of() : runs.get(runs.size() - 1);
      boolean follows =
          !last.isEmpty()
              && pulse.beats(
                      last.get(last.size() - 1).span().startSeconds(), heard.span().startSeconds())
                  <= 1.2 * period;
      if (!follows) {
        runs.add(new ArrayList<>());
      }
      runs.get(runs.size() - 1).add(heard);
    }
    return runs;
  }

  /** The stretches of a run in which every copy differs in pitch from the one before. */
  private List<List<Occurrence>> moved(Motif motif, List<Occurrence> run, Pulse pulse) {
    boolean one =
        motif.lengthBeats() > 0.5 * pulse.beatsPerBar()
            && motif.cell().size() > settings.fewNotes();
    int copies = one ? 1 : settings.leastCopies();
    List<List<Occurrence>> moving = new ArrayList<>();
    List<Occurrence> now = new ArrayList<>();
    for (Occurrence heard : run) {
      boolean moves = now.isEmpty() || moves(motif, now.get(now.size() - 1), heard);
      if (!moves) {
        if (now.size() > copies) {
          moving.add(now);
        }
        now = new ArrayList<>();
      }
      now.add(heard);
    }
    if (now.size() > copies) {
      moving.add(now);
    }
    return moving;
  }

  private static boolean moves(Motif motif, Occurrence from, Occurrence to) {
    // A bass is refitted to every chord: that alone makes no sequence.
    boolean refitted = from.likeness() == Likeness.ADAPTED || to.likeness() == Likeness.ADAPTED;
    return !(refitted && motif.part().equals(PartName.BASS)) && moves(from, to);
  }

  private static boolean moves(Occurrence from, Occurrence to) {
    return from.transposedSemitones() != to.transposedSemitones()
        || from.likeness() == Likeness.ADAPTED != (to.likeness() == Likeness.ADAPTED);
  }

  private static Span whole(List<Occurrence> run) {
    return new Span(run.get(0).span().startSeconds(), run.get(run.size() - 1).span().endSeconds());
  }

  private static double sure(Motif motif, List<Occurrence> run) {
    double heard = run.stream().mapToDouble(Occurrence::probability).average().orElse(0);
    return Math.sqrt(heard * motif.probability());
  }

  private Finding sequence(
      Motif motif,
      List<Occurrence> run,
      double sureOfPart,
      Pulse pulse,
      List<SongSection> sections) {
    Span span = whole(run);
    Occurrence last = run.get(run.size() - 1);
    String how =
        switch (last.likeness()) {
          case ADAPTED -> "adapted";
          case FOLLOWS_ROOT -> "with-root";
          case SCALE_STEP, EXACT -> "by-step";
        };
    FindingDraft draft =
        FindingDraft.of(Technique.PATTERN_SEQUENCE, span)
            .bars(pulse.bars(span))
            .sure(sure(motif, run), sureOfPart)
            .strength(0.3 + 0.15 * run.size())
            .group(
                motif.part()
                    + " "
                    + SongSection.at(sections, span).map(SongSection::letter).orElse(""))
            .says(
                "summary",
                words(motif),
                motif.cell().size(),
                run.size() - 1,
                Sentence.of("pattern-sequence." + how),
                semitones(run))
            .hear(run.get(0).span(), "first")
            .hear(last.span(), "copy")
            .atLeast("copies", run.size() - 1.0, 1, "times");
    run.forEach(heard -> draft.read(Facet.MOTIFS, heard.span(), shift(heard)));
    return draft.make();
  }

  private static String semitones(List<Occurrence> run) {
    int from = run.get(0).transposedSemitones();
    return run.stream()
        .skip(1)
        .map(heard -> "%+d".formatted(heard.transposedSemitones() - from))
        .collect(Collectors.joining(", "));
  }

  private static String shift(Occurrence heard) {
    return "%+d".formatted(heard.transposedSemitones());
  }

  private Finding riff(
      Motif motif, List<Occurrence> run, double sureOfPart, long rounds, Pulse pulse) {
    Span span = whole(run);
    return FindingDraft.of(Technique.RIFF, span)
        .bars(pulse.bars(span))
        .sure(sure(motif, run), sureOfPart)
        .strength(0.3 + 0.03 * rounds)
        .group(motif.part() + " " + motif.occurrences().get(0).firstBar())
        .says("summary", words(motif), motif.cell().size(), run.size(), rounds)
        .hear(run.get(0).span(), "once")
        .hear("hear")
        .atLeast("rounds", (double) rounds, settings.riffRounds(), "times")
        .make();
  }

  private static Sentence words(Motif motif) {
    return new Part(motif.part(), List.of()).words();
  }
}
