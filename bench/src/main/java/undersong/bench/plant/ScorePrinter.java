package undersong.bench.plant;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import undersong.theory.ChordSymbol.Chord;
import undersong.theory.LeadSheet;
import undersong.theory.NoteName;

/** Writes a plan down as a score in its key. */
final class ScorePrinter {
  private static final String PARTS =
      """
      part lead    sound %s role melody level -6 pan 0 reverb 0.15
      part second  sound %s role voice level -9 pan -0.1 reverb 0.18 loose 7 untuned 5
      part riff    sound lead role line level -9 pan 0.05 reverb 0.1
      part string  sound string role line level -7 pan -0.1 reverb 0.12
      part horn    sound brass role line level -8 pan 0.1 reverb 0.15
      part pluck   sound pluck role line range B3..B5 level -4 pan 0.05 reverb 0.12
      part keys    sound keys role accompaniment range A3..B4 level -6 pan 0 reverb 0.12
      part organ   sound organ role accompaniment range C4..D5 level -12 pan 0.05 reverb 0.15
      part pad     sound pad role accompaniment range G3..A4 level -13 pan 0 reverb 0.2
      part guitar  sound drive role accompaniment range E3..F4 level -10 pan 0 drive 3 reverb 0.08
      part bass    sound bass role bass range %s level -4 pan 0
      part sub     sound sub role effect range C1..B1 level -5 pan 0
      part kick    sound kick role drums level -4
      part snare   sound snare role drums level -5 reverb 0.12
      part hat     sound hat role drums level -6 pan 0
      part open    sound open-hat role drums level -7 pan 0
      part cymbal  sound cymbal role drums level -6 pan 0 reverb 0.1
      part rise    sound riser role effect level -9 reverb 0.15
      part swell   sound swell role effect level -9 reverb 0.2
      """;
  private static final List<String> BAND = List.of("keys", "bass", "kick", "snare", "hat");
  private static final Pattern PITCH = Pattern.compile("\\{(\\d+)\\}");
  private static final List<String> SYLLABLES = List.of("la", "mo", "ne", "su", "ri", "da", "wo");

  /** Fifths above C for each semitone, spelled near it. */
  private static final int[] FIFTHS = {0, -5, 2, -3, 4, -1, 6, 1, -4, 3, -2, 5};

  private final Plan plan;
  private final int up;
  private final int fifths;

  private ScorePrinter(Plan plan, int up) {
    this.plan = plan;
    this.up = up;
    this.fifths = FIFTHS[Math.floorMod(up, 12)];
  }

  /**
   * @param up semitones from C (or A minor) to the song's key
   */
  static String print(String id, Plan plan, int up, int seed) {
    return new ScorePrinter(plan, up).print(id, seed);
  }

  private String print(String id, int seed) {
    StringBuilder text = new StringBuilder();
    NoteName tonic = NoteName.parse(plan.minor ? "A" : "C").up(fifths);
    text.append("title %s\nmeter 4/4\n".formatted(id));
    text.append("tempo %s\nkey %s %s\n".formatted(number(plan.bpm), tonic, plan.mode));
    text.append("offset 0.3\ntail 2.5\ngain -1\nfade %d\nseed %d\n".formatted(plan.fadeBars, seed));
    String voice = up > 0 ? "low-voice" : "voice";
    String range = plan.partSettings.getOrDefault("bass range", "E1..E2");
    text.append(PARTS.formatted(voice, voice, range));
    for (int i = 0; i < plan.sections.size(); i++) {
      section(text, i, plan.sections.get(i));
    }
    return text.toString();
  }

  private void section(StringBuilder text, int index, Passage s) {
    text.append(
        "\nsection s%d role %s letter %s bars %d".formatted(index, s.role, s.letter, s.bars()));
    if (s.earlyBeats > 0) {
      text.append(" early ").append(number(s.earlyBeats));
    }
    if (!s.up.isEmpty()) {
      text.append(" up ").append(s.up);
    }
    if (s.beatsPerBar > 0) {
      text.append(" meter %d/4".formatted(s.beatsPerBar));
    }
    if (s.tempoFactor != 1) {
      text.append(" tempo ").append(number(plan.bpm * s.tempoFactor));
    }
    text.append("\n  chords |");
    for (String bar : s.chords) {
      for (String symbol : bar.split(" +", -1)) {
        text.append(' ').append(moved(symbol));
      }
      text.append(" |");
    }
    text.append('\n');
    lead(text, s);
    Set<String> parts = new LinkedHashSet<>(BAND);
    parts.addAll(s.parts.keySet());
    parts.removeAll(List.of("throw", "lead"));
    for (String part : parts) {
      String does = s.parts.getOrDefault(part, "");
      line(text, s, part, filling(s, does.isEmpty() ? Composer.usual(plan, part) : does));
    }
    s.plants.forEach(plant -> text.append("  plant ").append(plant).append(" planted\n"));
  }

  /** Lets a part that is written for fewer bars rest, or go on as before, to the section's end. */
  private static String filling(Passage s, String does) {
    int written = (int) does.chars().filter(c -> c == '|').count();
    StringBuilder text = new StringBuilder(does);
    if (does.startsWith("plays") && s.bars() % (written - 1) != 0) {
      text.append(" . |".repeat(s.bars() - written + 1));
    } else if (does.startsWith("follows") && s.bars() % (written + 1) != 0) {
      String last = does.substring(Math.max(does.lastIndexOf('|'), does.indexOf(' ')) + 1);
      text.append(("|" + last).repeat(s.bars() - written - 1));
    }
    return text.toString();
  }

  private void lead(StringBuilder text, Passage s) {
    List<String> bars = new ArrayList<>();
    int thrown = s.parts.containsKey("throw") ? Integer.parseInt(s.parts.get("throw")) : 0;
    for (int bar = 0; bar < s.tune.size(); bar++) {
      String written = Composer.bar(s.tune.get(bar));
      bars.add(bar + 1 == thrown ? written.replaceFirst("\\}", "}!") : written);
    }
    String does = s.parts.getOrDefault("lead", "plays | " + String.join(" | ", bars) + " |");
    if (does.contains("{")) {
      line(text, s, "lead", does);
    }
  }

  private void line(StringBuilder text, Passage s, String part, String does) {
    if (does.equals("rests")) {
      return;
    }
    text.append("  %s %s%n".formatted(part, pitches(does)).replace("\r", ""));
    if (part.equals("lead") || part.equals("second")) {
      long notes = PITCH.matcher(does).results().count();
      StringBuilder words = new StringBuilder();
      for (int i = 0; i < notes; i++) {
        words.append(' ').append(SYLLABLES.get(plan.chance.nextInt(SYLLABLES.size())));
      }
      text.append("  %s sings%s\n".formatted(part, words));
    }
    if (s.mixes.containsKey(part)) {
      text.append("  %s mix %s\n".formatted(part, s.mixes.get(part)));
    }
  }

  private String pitches(String text) {
    Matcher matcher = PITCH.matcher(text);
    return matcher.replaceAll(
        found -> {
          int midi = Integer.parseInt(found.group(1)) + up;
          NoteName name = NoteName.ofPitchClass(midi % 12, fifths);
          // the octave of a name changes at C, that of a sound with B# and Cb in between
          int octave = Math.floorDiv(midi - name.accidental(), 12) - 1;
          return (name + "" + octave).toLowerCase(Locale.ROOT);
        });
  }

  private String moved(String symbol) {
    return LeadSheet.parse(symbol) instanceof Chord chord
        ? LeadSheet.print(chord.up(fifths))
        : symbol;
  }

  private static String number(double value) {
    return value == Math.rint(value)
        ? Long.toString((long) value)
        : String.format(Locale.ROOT, "%.2f", value);
  }
}
