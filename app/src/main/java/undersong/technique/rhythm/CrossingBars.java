package undersong.technique.rhythm;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import undersong.reading.Bar;
import undersong.reading.BarTexture;
import undersong.reading.ChordSpan;
import undersong.reading.Facet;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.technique.Certainty;
import undersong.technique.Pulse;
import undersong.time.Span;

/**
 * A stretch that goes by bars of another length while the bars that were read go on: chords change
 * and the bass begins every so many beats, and the snare, which in a figure across the bar lines
 * would keep its backbeat, stays away from these beats.
 *
 * @param firstBeat of the stretch
 * @param beats in each of its bars
 * @param bars how many
 * @param probability by what was struck and changed alone, as if beats and chords were sure
 */
record CrossingBars(int firstBeat, int beats, int bars, double probability) {

  /**
   * @param fewestBars in a row
   * @param nearBeats how near a beat a change must be
   * @param fewestStrokes of the snare, for it to have a say
   * @param mostOnDownbeats share of the snare's strokes there: a backbeat has a third in three
   */
  record Settings(int fewestBars, double nearBeats, int fewestStrokes, double mostOnDownbeats) {
    static final Settings DEFAULTS = new Settings(4, 0.3, 3, 0.29);
  }

  /** Reads METER, BEATS, CHORDS, BASS and TEXTURE. */
  static List<CrossingBars> of(Reading reading, Pulse pulse, Settings settings) {
    int usual = pulse.beatsPerBar();
    boolean[] changes = marked(arrivals(reading), pulse, settings);
    boolean[] lows =
        marked(
            reading.get(Facet.BASS).notes().stream().map(NoteEvent::span).toList(),
            pulse,
            settings);
    boolean[] snares = snares(reading, pulse, settings);
    List<CrossingBars> found = new ArrayList<>();
    for (int length : new int[] {3, 5, 7, 4}) {
      if (length % usual == 0 || usual % length == 0) {
        continue;
      }
      int beat = length;
      while (beat < changes.length) {
        int last = beat;
        while (last + length < changes.length && goesOn(changes, last, length)) {
          last += length;
        }
        // The chord before the first change may have sounded before the stretch.
        int bars = (last - beat) / length + 2;
        if (changes[beat] && bars >= settings.fewestBars()) {
          int first = beat - length;
          double probability = probability(first, length, bars, lows, snares, settings);
          if (probability > 0) {
            found.add(new CrossingBars(first, length, bars, probability));
          }
          beat = last;
        }
        beat++;
      }
    }
    return found;
  }

  /** Chords other than the one before. */
  private static List<Span> arrivals(Reading reading) {
    List<ChordSpan> chords = reading.get(Facet.CHORDS).spans();
    return IntStream.range(0, chords.size())
        .filter(i -> i == 0 || !chords.get(i).symbol().equals(chords.get(i - 1).symbol()))
        .mapToObj(i -> chords.get(i).span())
        .toList();
  }

  private static boolean goesOn(boolean[] changes, int beat, int length) {
    return changes[beat]
        && changes[beat + length]
        && IntStream.range(beat + 1, beat + length).noneMatch(between -> changes[between]);
  }

  /** 0 where the bass or the snare contradict. */
  private static double probability(
      int first, int length, int bars, boolean[] lows, boolean[] snares, Settings settings) {
    int begun = 0;
    int strokes = 0;
    int onDownbeats = 0;
    for (int beat = first; beat < Math.min(first + bars * length, snares.length); beat++) {
      boolean downbeat = (beat - first) % length == 0;
      begun += downbeat && lows[beat] ? 1 : 0;
      strokes += snares[beat] ? 1 : 0;
      onDownbeats += downbeat && snares[beat] ? 1 : 0;
    }
    double share = (double) onDownbeats / Math.max(1, strokes);
    if (strokes < settings.fewestStrokes()
        || begun < bars / 2
        || share > settings.mostOnDownbeats()) {
      return 0;
    }
    return Certainty.all(
        Certainty.beyond(bars, settings.fewestBars() - 1.0, 1),
        Certainty.beyond(settings.mostOnDownbeats() - share, -0.1, 0.2));
  }

  private static boolean[] marked(List<Span> spans, Pulse pulse, Settings settings) {
    boolean[] marked = new boolean[pulse.grid().size() + 1];
    for (Span span : spans) {
      double at = pulse.grid().positionAt(span.startSeconds());
      int beat = (int) Math.round(at);
      if (beat >= 0 && beat < marked.length && Math.abs(at - beat) <= settings.nearBeats()) {
        marked[beat] = true;
      }
    }
    return marked;
  }

  private static boolean[] snares(Reading reading, Pulse pulse, Settings settings) {
    boolean[] struck = new boolean[pulse.grid().size() + 1];
    List<Bar> bars = pulse.meter().bars();
    List<BarTexture> textures = reading.get(Facet.TEXTURE).bars();
    for (int i = 0; i < Math.min(bars.size(), textures.size()); i++) {
      for (double inBar : textures.get(i).snareBeats()) {
        int beat = (int) Math.round(inBar);
        int place = bars.get(i).firstBeat() + beat;
        if (Math.abs(inBar - beat) <= settings.nearBeats() && place < struck.length) {
          struck[place] = true;
        }
      }
    }
    return struck;
  }

  Span span(Pulse pulse) {
    return new Span(
        pulse.grid().secondsAtPosition(firstBeat),
        pulse.grid().secondsAtPosition(firstBeat + (double) bars * beats));
  }
}
