package undersong.estimate.repeat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import undersong.reading.Bar;
import undersong.reading.Dynamics;
import undersong.reading.Layer;
import undersong.reading.LayerKind;
import undersong.reading.Meter;
import undersong.reading.PartName;
import undersong.reading.PlacedEvent;
import undersong.reading.Repeat.LayerChange;
import undersong.reading.Repeat.LevelChange;
import undersong.reading.Repeat.PlaceChange;
import undersong.reading.Section;
import undersong.reading.SoundSource;
import undersong.reading.Space;
import undersong.reading.Texture;
import undersong.time.Span;

/** Layers that one copy has and the other lacks, and what stands elsewhere or is louder. */
final class LayerChanges {
  /**
   * The notes of a line that comes or goes are new as surely as this, in the mean. On composed
   * songs for tuning it was .15 to .19 for true ones and no more than .04 for nearly all false
   * ones.
   */
  private static final double LEAST_NEW = 0.1;

  private final Alignment alignment;
  private final RepeatSettings settings;

  LayerChanges(Alignment alignment, RepeatSettings settings) {
    this.alignment = alignment;
    this.settings = settings;
  }

  /**
   * Parts known by their notes: lines and voices that come and go. Notes may be woven into one line
   * in one copy and into another in the other: a line comes or goes only if its notes do.
   */
  List<LayerChange> parts(Parts parts, NewNotes news) {
    List<LayerChange> changes = new ArrayList<>();
    for (String name : parts.names()) {
      List<Bar> here = new ArrayList<>();
      int there = 0;
      List<Double> probabilities = new ArrayList<>();
      List<Double> come = new ArrayList<>();
      List<Double> gone = new ArrayList<>();
      for (Bar bar : alignment.laterBars()) {
        Bar earlier = alignment.bar(alignment.earlierBar(bar.number()));
        int back = earlier.firstBeat() - bar.firstBeat();
        List<PlacedNote> now = of(name, parts, bar);
        List<PlacedNote> before = of(name, parts, earlier);
        for (PlacedNote note : now) {
          come.add(news.probability(note, note.startBeat() + back, -alignment.semitones()));
          probabilities.add(note.event().probability());
        }
        for (PlacedNote note : before) {
          gone.add(news.probability(note, note.startBeat() - back, alignment.semitones()));
          probabilities.add(note.event().probability());
        }
        if (!now.isEmpty()) {
          here.add(bar);
        }
        there += before.isEmpty() ? 0 : 1;
      }
      double bars = alignment.laterBars().size();
      double changed = Math.max(mean(come), mean(gone));
      if (!PartName.isLine(name) || changed >= LEAST_NEW) {
        change(name, here.size() / bars, there / bars, span(here), mean(probabilities))
            .ifPresent(changes::add);
      }
    }
    return changes;
  }

  private static double mean(List<Double> values) {
    return values.stream().mapToDouble(value -> value).average().orElse(0);
  }

  private static List<PlacedNote> of(String name, Parts parts, Bar bar) {
    return parts.beginning(bar.firstBeat() - 0.12, bar.firstBeat() + bar.beats() - 0.12).stream()
        .filter(note -> note.part().equals(name))
        .toList();
  }

  /** Layers known by their sound: drums by kind, held and plucked sounds, the lowest octave. */
  List<LayerChange> sounds(Texture texture) {
    List<LayerChange> changes = new ArrayList<>();
    for (LayerKind kind : LayerKind.values()) {
      if (kind == LayerKind.BASS || kind == LayerKind.LEAD || kind == LayerKind.FURTHER_VOICE) {
        continue; // known better by their notes
      }
      List<Layer> layers = texture.of(kind);
      double now = share(layers, alignment.later().span());
      double before = share(layers, alignment.earlier().span());
      double sure =
          layers.stream()
              .filter(
                  layer ->
                      layer.span().overlaps(alignment.later().span())
                          || layer.span().overlaps(alignment.earlier().span()))
              .mapToDouble(Layer::probability)
              .average()
              .orElse(0);
      change(kind.words(), now, before, alignment.later().span(), sure).ifPresent(changes::add);
    }
    return changes;
  }

  private static double share(List<Layer> layers, Span span) {
    return layers.stream().mapToDouble(layer -> layer.span().overlapSeconds(span)).sum()
        / span.lengthSeconds();
  }

  private Optional<LayerChange> change(
      String layer, double now, double before, Span where, double probability) {
    boolean entered = now >= settings.presentShare() && before <= settings.absentShare();
    boolean left = before >= settings.presentShare() && now <= settings.absentShare();
    if (!(entered || left) || probability < settings.leastProbability()) {
      return Optional.empty();
    }
    Span span = entered ? where : alignment.later().span();
    Bar bar =
        alignment.laterBars().stream()
            .filter(b -> b.span().endSeconds() > span.startSeconds() + 1e-6)
            .findFirst()
            .orElse(alignment.laterBars().get(0));
    return Optional.of(new LayerChange(span, bar.number(), layer, entered, probability));
  }

  private Span span(List<Bar> bars) {
    return bars.isEmpty()
        ? alignment.later().span()
        : new Span(
            bars.get(0).span().startSeconds(), bars.get(bars.size() - 1).span().endSeconds());
  }

  /** The lead, and all struck sounds, standing elsewhere as a whole. */
  List<PlaceChange> places(Space space) {
    List<PlaceChange> changes = new ArrayList<>();
    for (SoundSource source : List.of(SoundSource.LEAD, SoundSource.STRUCK)) {
      OptionalDouble now = place(space, source, alignment.later());
      OptionalDouble before = place(space, source, alignment.earlier());
      if (now.isPresent()
          && before.isPresent()
          && Math.abs(now.getAsDouble() - before.getAsDouble()) >= settings.placeDifference()) {
        changes.add(
            new PlaceChange(
                alignment.later().span(),
                alignment.laterBars().get(0).number(),
                source == SoundSource.LEAD ? PartName.MELODY : source.words(),
                before.getAsDouble(),
                now.getAsDouble(),
                sure(space, source)));
      }
    }
    return changes;
  }

  private OptionalDouble place(Space space, SoundSource source, Section section) {
    return events(space, source, section).stream().mapToDouble(PlacedEvent::placement).average();
  }

  private double sure(Space space, SoundSource source) {
    return Math.min(
        events(space, source, alignment.later()).stream()
            .mapToDouble(PlacedEvent::probability)
            .average()
            .orElse(0),
        events(space, source, alignment.earlier()).stream()
            .mapToDouble(PlacedEvent::probability)
            .average()
            .orElse(0));
  }

  private static List<PlacedEvent> events(Space space, SoundSource source, Section section) {
    return space.events().stream()
        .filter(event -> event.source() == source)
        .filter(event -> section.span().contains(event.span().startSeconds()))
        .toList();
  }

  List<LevelChange> levels(Dynamics dynamics, Meter meter) {
    List<LevelChange> changes = new ArrayList<>();
    int first = meter.bars().isEmpty() ? 0 : meter.bars().get(0).number();
    for (Bar bar : alignment.laterBars()) {
      int now = bar.number() - first;
      int before = alignment.earlierBar(bar.number()) - first;
      if (Math.max(now, before) < dynamics.barLufs().size()) {
        double difference = dynamics.barLufs().get(now) - dynamics.barLufs().get(before);
        if (Math.abs(difference) >= settings.levelDifferenceLu()) {
          changes.add(
              new LevelChange(
                  bar.span(),
                  bar.number(),
                  dynamics.barLufs().get(before),
                  dynamics.barLufs().get(now),
                  1));
        }
      }
    }
    return changes;
  }
}
