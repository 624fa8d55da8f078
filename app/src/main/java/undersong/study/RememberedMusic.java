package undersong.study;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import undersong.exchange.ChordChart;
import undersong.exchange.ChordChart.ChartBar;
import undersong.exchange.ChordChart.ChartChange;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.Melody;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.reading.SectionRole;
import undersong.reading.TimeSignature;
import undersong.theory.ChordSymbol;
import undersong.theory.Key;
import undersong.theory.NumeralSettings;
import undersong.theory.Numerals;
import undersong.theory.SyllableSettings;
import undersong.theory.Syllables;
import undersong.time.Span;
import undersong.trend.NumeralLine;
import undersong.work.Trouble;

/** Numerals and syllables as a reading: a chord a bar, a note a beat, in 4/4. */
final class RememberedMusic {
  private static final int MIDDLE_C = 60;

  private RememberedMusic() {}

  static Reading read(String keyText, String numerals, String syllables, double bpm) {
    try {
      Key key = Key.parse(keyText.isBlank() ? "C major" : keyText.strip());
      List<ChordSymbol> chords = new ArrayList<>();
      for (String word : Numerals.split(numerals)) {
        chords.add(Numerals.chord(Numerals.parse(word, key, NumeralSettings.DEFAULTS), key));
      }
      List<Integer> pitches = pitches(words(syllables), key);
      int bars = Math.max(1, Math.max(chords.size(), (pitches.size() + 3) / 4));
      List<ChartBar> chart = new ArrayList<>();
      for (int bar = 0; bar < bars; bar++) {
        ChordSymbol chord = bar < chords.size() ? chords.get(bar) : ChordSymbol.NONE;
        chart.add(
            new ChartBar(
                TimeSignature.FOUR_FOUR,
                key,
                List.of(new ChartChange(0, chord)),
                "A",
                SectionRole.OTHER,
                bar == 0));
      }
      return new ChordChart(chart)
          .read(bpm)
          .with(Facet.MELODY, Derived.of(tune(pitches, 60 / bpm)));
    } catch (IllegalArgumentException unreadable) {
      throw new Trouble.WrongUsage("What is remembered cannot be read: " + unreadable.getMessage());
    }
  }

  private static List<String> words(String text) {
    return Arrays.stream(text.strip().split("[\\s,]+", -1)).filter(w -> !w.isEmpty()).toList();
  }

  /** Each note in the octave nearest to the one before. */
  private static List<Integer> pitches(List<String> syllables, Key key) {
    if (syllables.size() == 1) {
      throw new IllegalArgumentException(
          "a figure needs two syllables or more; \"%s\" is one.".formatted(syllables.get(0)));
    }
    List<Integer> pitches = new ArrayList<>();
    int before = MIDDLE_C + 5;
    for (String syllable : syllables) {
      int pitchClass = Syllables.parse(syllable, key, SyllableSettings.DEFAULTS).pitchClass();
      before += Math.floorMod(pitchClass - before + 5, 12) - 5;
      pitches.add(before);
    }
    return pitches;
  }

  private static Melody tune(List<Integer> pitches, double beatSeconds) {
    List<NoteEvent> notes = new ArrayList<>();
    for (int i = 0; i < pitches.size(); i++) {
      notes.add(new NoteEvent(new Span(i * beatSeconds, (i + 1) * beatSeconds), pitches.get(i), 1));
    }
    return new Melody(notes);
  }

  /** Whether the numerals follow each other in a reading; one numeral, whether it occurs. */
  static boolean hasNumerals(Reading heard, String numerals) {
    return NumeralLine.of(heard).contains(NumeralLine.typed(numerals));
  }

  /** Whether the steps of a figure follow each other in the tune or the bass, octaves aside. */
  static boolean hasFigure(Reading heard, Reading figure) {
    List<Integer> wanted = steps(figure.get(Facet.MELODY).notes());
    return holds(steps(heard.get(Facet.MELODY).notes()), wanted)
        || holds(steps(heard.get(Facet.BASS).notes()), wanted);
  }

  private static boolean holds(List<Integer> steps, List<Integer> wanted) {
    return java.util.Collections.indexOfSubList(steps, wanted) >= 0;
  }

  private static List<Integer> steps(List<NoteEvent> notes) {
    List<Integer> steps = new ArrayList<>();
    for (int i = 1; i < notes.size(); i++) {
      steps.add(Math.floorMod(notes.get(i).pitchClass() - notes.get(i - 1).pitchClass(), 12));
    }
    return steps;
  }
}
