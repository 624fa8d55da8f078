package undersong.estimate.role;

import java.util.ArrayList;
import java.util.List;
import undersong.reading.Bar;
import undersong.reading.Dynamics;
import undersong.reading.Facet;
import undersong.reading.Form;
import undersong.reading.Meter;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.reading.Section;

/**
 * What naming a section needs to know of it.
 *
 * @param bars it lasts
 * @param lufs its loudness; the song's where there are no bars
 * @param sungShare of its time in which a leading tune sounds
 * @param copies sections of its letter, itself included
 */
record SectionTraits(Section section, int bars, double lufs, double sungShare, int copies) {

  static List<SectionTraits> of(Reading earlier) {
    Form form = earlier.get(Facet.FORM);
    Meter meter = earlier.get(Facet.METER);
    Dynamics dynamics = earlier.get(Facet.DYNAMICS);
    List<NoteEvent> tune = earlier.get(Facet.MELODY).notes();
    List<SectionTraits> traits = new ArrayList<>();
    for (Section section : form.sections()) {
      traits.add(
          new SectionTraits(
              section,
              section.lastBar() - section.firstBar() + 1,
              lufs(section, meter, dynamics),
              tune.stream().mapToDouble(note -> note.span().overlapSeconds(section.span())).sum()
                  / section.span().lengthSeconds(),
              (int)
                  form.sections().stream()
                      .filter(other -> other.letter().equals(section.letter()))
                      .count()));
    }
    return traits;
  }

  String letter() {
    return section.letter();
  }

  private static double lufs(Section section, Meter meter, Dynamics dynamics) {
    double power = 0;
    int count = 0;
    for (int i = 0; i < meter.bars().size(); i++) {
      Bar bar = meter.bars().get(i);
      if (bar.number() >= section.firstBar() && bar.number() <= section.lastBar()) {
        power += Math.pow(10, dynamics.barLufs().get(i) / 10);
        count++;
      }
    }
    return count == 0 ? dynamics.integratedLufs() : 10 * Math.log10(power / count);
  }
}
