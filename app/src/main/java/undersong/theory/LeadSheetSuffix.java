package undersong.theory;

import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Reads what follows the root of a lead-sheet symbol, word by word, into semitones above the root.
 * Three decisions where usage differs: a dominant 11 has no third, a 13 no 11, and a b13 over a
 * dominant stands for its fifth.
 */
final class LeadSheetSuffix {
  private static final int ABSENT = -1;
  private static final Pattern IGNORED = Pattern.compile("(?:[(),\\s]|/(?=[mM]))+");
  private static final Pattern MAJOR_MARK =
      Pattern.compile("(maj|Maj|ma(?!d)|M|Δ|\\^)(7|9|11|13)?");
  private static final Pattern MINOR_MARK = Pattern.compile("min|mi|m|-");
  private static final Pattern DIMINISHED = Pattern.compile("(dim|°|o(?!mit))(7)?");
  private static final Pattern HALF_DIMINISHED = Pattern.compile("(ø|Ø|h)7?");
  private static final Pattern AUGMENTED = Pattern.compile("aug|\\+(?!4|5|11|13)");
  private static final Pattern SUSPENDED = Pattern.compile("sus(24|2|4)?");
  private static final Pattern OMITTED = Pattern.compile("(no|omit)\\s?([135])");
  private static final Pattern ADDED = Pattern.compile("add\\s?([b#]?(?:1[0-3]|[1-9]))");
  private static final Pattern ALTERED = Pattern.compile("([b#+-])(13|11|9|7|6|5|4|2)");
  private static final Pattern NUMBER = Pattern.compile("dom7?|13|11|69|6/9|67|9|7|6|5|2");

  private final String symbol;
  private final String suffix;
  private int at;
  private Matcher word;

  private boolean rootSounds = true;
  private int third = 4;
  private int fifth = 7;
  private int seventh = ABSENT;
  private boolean majorMarked;
  private final Set<Integer> added = new TreeSet<>();

  LeadSheetSuffix(String symbol, String suffix) {
    this.symbol = symbol;
    this.suffix = suffix;
  }

  Set<Integer> semitones() {
    if (suffix.chars().filter(c -> c == '(').count()
        != suffix.chars().filter(c -> c == ')').count()) {
      throw wrong("a bracket is open");
    }
    next(IGNORED);
    boolean first = true;
    while (at < suffix.length()) {
      readWord(first);
      next(IGNORED);
      first = false;
    }
    Set<Integer> semitones = new TreeSet<>(added);
    if (rootSounds) {
      semitones.add(0);
    }
    for (int member : new int[] {third, fifth, seventh}) {
      if (member != ABSENT) {
        semitones.add(member);
      }
    }
    if (semitones.isEmpty()) {
      throw wrong("no note is left in it");
    }
    return semitones;
  }

  private boolean next(Pattern pattern) {
    word = pattern.matcher(suffix).region(at, suffix.length());
    if (!word.lookingAt()) {
      return false;
    }
    at = word.end();
    return true;
  }

  private void readWord(boolean first) {
    if (next(ADDED)) {
      added.add(degree(word.group(1)));
    } else if (next(OMITTED)) {
      omit(word.group(2));
    } else if (next(SUSPENDED)) {
      suspend(word.group(1));
    } else if (next(MAJOR_MARK)) {
      major(word.group(1), word.group(2));
    } else if (first && next(MINOR_MARK)) {
      third = 3;
    } else if (first && next(DIMINISHED)) {
      third = 3;
      fifth = 6;
      seventh = word.group(2) == null ? ABSENT : 9;
    } else if (first && next(HALF_DIMINISHED)) {
      third = 3;
      fifth = 6;
      seventh = 10;
    } else if (next(AUGMENTED)) {
      fifth = 8;
    } else if (next(ALTERED)) {
      alter(word.group(1).matches("[#+]") ? 1 : -1, Integer.parseInt(word.group(2)));
    } else if (next(NUMBER)) {
      number(word.group(), first);
    } else {
      throw wrong("\"%s\" is not understood".formatted(suffix.substring(at)));
    }
  }

  private int degree(String spelled) {
    return ChordDegree.parse(spelled).semitones();
  }

  private void omit(String member) {
    switch (member) {
      case "1" -> rootSounds = false;
      case "3" -> third = ABSENT;
      default -> fifth = ABSENT;
    }
  }

  private void suspend(String steps) {
    third = ABSENT;
    if (steps == null || steps.contains("4")) {
      added.add(5);
    }
    if (steps != null && steps.contains("2")) {
      added.add(2);
    }
  }

  private void major(String mark, String number) {
    boolean markAloneMeansSeventh = mark.equals("Δ") || mark.equals("^") || third == 3;
    majorMarked = true;
    if (number == null && !markAloneMeansSeventh) {
      return;
    }
    if (seventh != ABSENT) {
      added.add(11);
    } else {
      seventh = 11;
    }
    if (number != null && !number.equals("7")) {
      stack(number);
    }
  }

  private void number(String number, boolean first) {
    switch (number) {
      case "5" -> {
        if (!first) {
          throw wrong("the 5 is understood only right after the root, as in C5");
        }
        third = ABSENT;
      }
      case "2" -> added.add(14);
      case "6" -> added.add(9);
      case "69", "6/9" -> {
        added.add(9);
        added.add(14);
      }
      case "67" -> {
        added.add(9);
        minorSeventh();
      }
      default -> {
        minorSeventh();
        stack(number);
      }
    }
  }

  private void minorSeventh() {
    if (seventh == ABSENT) {
      seventh = 10;
    }
  }

  private void stack(String number) {
    if (number.equals("9") || number.equals("11") || number.equals("13")) {
      added.add(14);
    }
    if (number.equals("11")) {
      added.add(17);
      if (third == 4 && !majorMarked) {
        third = ABSENT;
        added.remove(17);
        added.add(5);
      }
    }
    if (number.equals("13")) {
      added.add(21);
    }
  }

  private void alter(int alteration, int number) {
    switch (number) {
      case 5 -> {
        boolean alteredAlready = fifth != 7;
        if (alteredAlready) {
          added.add(7 + alteration);
        } else {
          fifth = 7 + alteration;
        }
      }
      case 7 -> added.add(alteration < 0 ? 10 : 11);
      case 9 -> {
        added.remove(14);
        added.add(14 + alteration);
      }
      case 13 -> {
        if (alteration < 0 && seventh == 10 && fifth == 7) {
          fifth = ABSENT;
        }
        added.add(21 + alteration);
      }
      case 6 -> added.add(9 + alteration);
      case 4, 11 -> {
        if (alteration < 0) {
          throw wrong("a lowered fourth is a third");
        }
        added.add(18);
      }
      default -> added.add(2 + alteration);
    }
  }

  private IllegalArgumentException wrong(String why) {
    String hint =
        suffix.contains("alt")
            ? " (\"alt\" names no particular notes: write 7(b9,#5) or the like)"
            : suffix.equals("4") ? " (write sus4 or add4)" : "";
    return new IllegalArgumentException(
        "Chord symbol \"%s\" cannot be read: %s%s.".formatted(symbol, why, hint));
  }
}
