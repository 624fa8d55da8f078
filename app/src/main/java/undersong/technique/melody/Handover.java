package undersong.technique.melody;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import undersong.reading.Facet;
import undersong.reading.Lines.Takeover;
import undersong.reading.Reading;
import undersong.technique.Finding;
import undersong.technique.FindingDraft;
import undersong.technique.Part;
import undersong.technique.Pulse;
import undersong.technique.Technique;
import undersong.technique.TechniqueFinder;
import undersong.time.Span;

/** A line comes in with the figure that another part had before it. */
final class Handover implements TechniqueFinder {
  @Override
  public Set<Technique> techniques() {
    return Set.of(Technique.LAYER_FOLLOWS);
  }

  @Override
  public Set<Facet<?>> reads() {
    return Set.of(Facet.BEATS, Facet.METER, Facet.LINES);
  }

  @Override
  public List<Finding> find(Reading reading) {
    Pulse pulse = Pulse.of(reading);
    List<Finding> findings = new ArrayList<>();
    for (Takeover takeover : reading.get(Facet.LINES).takeovers()) {
      pulse
          .meter()
          .barAt(takeover.atSeconds() + 0.01)
          .ifPresent(
              bar -> {
                Span before =
                    new Span(
                        takeover.fromSeconds(),
                        takeover.fromSeconds() + bar.span().lengthSeconds());
                Span span = new Span(takeover.fromSeconds(), bar.span().endSeconds());
                findings.add(
                    FindingDraft.of(Technique.LAYER_FOLLOWS, span)
                        .bars(pulse.bars(span))
                        .sure(takeover.probability())
                        .strength(0.4)
                        .group(takeover.from() + " " + takeover.to())
                        .says(
                            "summary",
                            new Part(takeover.to(), List.of()).words(),
                            new Part(takeover.from(), List.of()).words(),
                            bar.number())
                        .hear(before, "before")
                        .hear(bar.span(), "after")
                        .make());
              });
    }
    return findings;
  }
}
