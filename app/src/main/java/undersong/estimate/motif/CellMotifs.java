package undersong.estimate.motif;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import undersong.estimate.Estimator;
import undersong.feature.Features;
import undersong.reading.Beats;
import undersong.reading.Corrections;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.Form;
import undersong.reading.Motif;
import undersong.reading.Motifs;
import undersong.reading.NoteEvent;
import undersong.reading.PartName;
import undersong.reading.Reading;

/**
 * Finds figures that come back: cells of half a bar to two bars, each held against all later ones
 * of its part.
 *
 * <p><b>In:</b> the notes of every part; beats, bars, form; chords and keys, to tell whether a
 * figure was carried to the next chord, along the scale, or refitted. <b>Out:</b> figures that
 * stand out, most telling first, and the range of each part in each section. <b>Silence</b> and no
 * pulse: none. <b>Cost:</b> O(bars^2) comparisons per part.
 */
public final class CellMotifs implements Estimator<Motifs> {
  private final MotifSettings settings;

  public CellMotifs(MotifSettings settings) {
    this.settings = settings;
  }

  @Override
  public Derived<Motifs> estimate(Features features, Reading earlier, Corrections corrections) {
    Beats beats = earlier.get(Facet.BEATS);
    var bars = earlier.get(Facet.METER).bars();
    if (bars.isEmpty() || beats.grid().isEmpty()) {
      return Derived.of(Motifs.NONE);
    }
    Form form = earlier.get(Facet.FORM);
    Cells cells = new Cells(bars, beats.grid(), beats.tatumsPerBeat());
    Setting setting = new Setting(earlier.get(Facet.CHORDS), earlier.get(Facet.KEYS));
    PartFigures figures = new PartFigures(cells, setting, form, settings);
    List<Motif> motifs = new ArrayList<>();
    List<Motifs.PartRange> ranges = new ArrayList<>();
    parts(earlier)
        .forEach(
            (name, notes) -> {
              motifs.addAll(figures.of(name, notes));
              ranges.addAll(Ranges.of(name, notes, form));
            });
    motifs.sort(
        Comparator.comparingDouble((Motif motif) -> motif.probability())
            .thenComparingInt(motif -> motif.occurrences().size())
            .reversed());
    return Derived.of(new Motifs(motifs, ranges));
  }

  private static Map<String, List<NoteEvent>> parts(Reading reading) {
    Map<String, List<NoteEvent>> parts = new LinkedHashMap<>();
    parts.put(PartName.BASS, reading.get(Facet.BASS).notes());
    parts.put(PartName.MELODY, reading.get(Facet.MELODY).notes());
    reading.get(Facet.VOICES).voices().forEach(v -> parts.put(v.name(), v.events()));
    reading.get(Facet.LINES).lines().forEach(line -> parts.put(line.name(), line.notes()));
    return parts;
  }
}
