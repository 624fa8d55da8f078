package undersong.estimate.echo;

import java.lang.ref.WeakReference;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import undersong.estimate.Estimator;
import undersong.estimate.HeardNotes;
import undersong.estimate.HeardNotes.HeardNote;
import undersong.estimate.echo.RoomEvidence.Measured;
import undersong.feature.Features;
import undersong.feature.StereoImage;
import undersong.feature.StereoPowers;
import undersong.reading.Correction;
import undersong.reading.CorrectionEntry;
import undersong.reading.Corrections;
import undersong.reading.Derived;
import undersong.reading.Echo;
import undersong.reading.Echoes;
import undersong.reading.Facet;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.reading.Reverb;
import undersong.reading.Section;
import undersong.time.Span;

/**
 * Delays on the lead and on lines, phrases performed again, doubles, and the room section by
 * section, by what stands nowhere between the sides.
 *
 * <p><b>Silence</b> gives nothing; a program without its trained ear tells the room alone.
 * <b>Cost:</b> that of {@link DelayFinder}, once, and O(phrase notes * notes that follow).
 */
public final class ReturningSounds implements Estimator<Echoes> {
  private WeakReference<Features> lastFeatures = new WeakReference<>(null);
  private StereoPowers lastPowers = StereoPowers.of(StereoImage.NOTHING);
  private List<HeardNote> lastNotes = List.of();
  private DelayFinder lastDelays;
  private RoomEvidence lastRoom;

  @Override
  public synchronized Derived<Echoes> estimate(
      Features features, Reading earlier, Corrections corrections) {
    measureOnce(features);
    List<Echo> echoes = new ArrayList<>();
    if (lastPowers.frames() > 0) {
      List<NoteEvent> lead = earlier.get(Facet.MELODY).notes();
      echoes.addAll(delays(lead, earlier, features.durationSeconds()));
      echoes.addAll(
          new ResungFinder(
                  lastPowers,
                  features.heard(),
                  barSeconds(earlier),
                  earlier.get(Facet.BEATS).grid())
              .of(lead, lastNotes, features.durationSeconds()));
      echoes.addAll(
          new DoubleFinder(lastPowers, features.image().quickLevelsDb(), lastRoom)
              .of(
                  earlier.get(Facet.FORM).sections(),
                  lastNotes,
                  new SpreadBars(
                      lastPowers,
                      earlier.get(Facet.METER).bars(),
                      earlier.get(Facet.METER).usualBarsPerBar(),
                      lastNotes)));
    }
    List<Span> sections = earlier.get(Facet.FORM).sections().stream().map(Section::span).toList();
    List<Span> spans =
        sections.isEmpty() ? List.of(new Span(0, features.durationSeconds())) : sections;
    List<Measured> measured = lastRoom.of(spans, RoomDecay.Settings.STANDARD);
    List<Reverb> rooms =
        new ArrayList<>(new RoomTeller(RoomTeller.Settings.STANDARD).told(spans, measured));
    List<Correction> unplaced = new ArrayList<>();
    for (CorrectionEntry entry : corrections.of(Facet.ECHOES).entries()) {
      if (!(entry.correction() instanceof Correction.RoomOver said)) {
        layOver(echoes, entry.correction(), features.durationSeconds(), unplaced);
      } else if (!SaidRooms.lay(rooms, said, sections, features.durationSeconds())) {
        unplaced.add(said);
      }
    }
    echoes.sort(
        Comparator.comparingDouble((Echo echo) -> echo.span().startSeconds())
            .thenComparing(Echo::kind));
    List<Reverb> told = RoomChanges.told(rooms, by(spans, measured), RoomChanges.Settings.STANDARD);
    return new Derived<>(new Echoes(echoes, told), unplaced);
  }

  private static Map<Span, Measured> by(List<Span> spans, List<Measured> measured) {
    Map<Span, Measured> bySpan = new HashMap<>();
    for (int i = 0; i < spans.size(); i++) {
      bySpan.put(spans.get(i), measured.get(i));
    }
    return bySpan;
  }

  private List<Echo> delays(List<NoteEvent> lead, Reading earlier, double durationSeconds) {
    List<NoteEvent> notes = new ArrayList<>(lead);
    earlier.get(Facet.LINES).lines().forEach(line -> notes.addAll(line.notes()));
    return lastDelays.of(
        notes,
        earlier.get(Facet.BEATS).grid(),
        earlier.get(Facet.METER).mainSignature(),
        durationSeconds);
  }

  private static double barSeconds(Reading reading) {
    return reading.get(Facet.METER).bars().stream()
        .mapToDouble(bar -> bar.span().lengthSeconds())
        .average()
        .orElse(2);
  }

  @SuppressWarnings("ReferenceEquality") // the very same features; comparing them costs more
  private void measureOnce(Features features) {
    if (lastFeatures.get() != features) {
      lastPowers = StereoPowers.of(features.image());
      lastNotes = features.heard().map(HeardNotes::of).orElse(List.of());
      lastDelays = new DelayFinder(features, lastPowers);
      lastRoom = new RoomEvidence(lastPowers);
      lastFeatures = new WeakReference<>(features);
    }
  }

  private static void layOver(
      List<Echo> echoes, Correction correction, double durationSeconds, List<Correction> unplaced) {
    if (correction instanceof Correction.NoEchoOver nothing
        && echoes.removeIf(echo -> echo.span().overlaps(nothing.span()))) {
      return;
    }
    if (correction instanceof Correction.EchoOver over
        && over.span().startSeconds() < durationSeconds) {
      Span span =
          new Span(over.span().startSeconds(), Math.min(durationSeconds, over.span().endSeconds()));
      echoes.removeIf(echo -> echo.span().overlaps(span));
      echoes.add(
          new Echo(over.echo(), span, over.lagSeconds(), 0, 0, Optional.empty(), 0, List.of(), 1));
      return;
    }
    unplaced.add(correction);
  }
}
