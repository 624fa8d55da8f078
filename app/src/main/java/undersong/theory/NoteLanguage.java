package undersong.theory;

import java.util.Locale;

/** What notes are called where. Common practice, no source. */
public enum NoteLanguage {
  /** C, C#, Db, B, Bb. */
  ENGLISH {
    @Override
    public String print(NoteName name) {
      return name.toString();
    }

    @Override
    String inChord(NoteName name) {
      return name.toString();
    }
  },
  /** C, Cis, Des, H, B; in chord symbols C#, Db, H, B. */
  GERMAN {
    @Override
    public String print(NoteName name) {
      int accidental = name.accidental();
      if (name.letter() == 'B') {
        if (accidental == -1) {
          return "B";
        }
        return "H" + (accidental > 0 ? "is".repeat(accidental) : "es".repeat(-accidental));
      }
      boolean vowel = name.letter() == 'E' || name.letter() == 'A';
      if (accidental < 0 && vowel) {
        return name.letter() + "s" + "es".repeat(-accidental - 1);
      }
      return name.letter() + (accidental > 0 ? "is".repeat(accidental) : "es".repeat(-accidental));
    }

    @Override
    String inChord(NoteName name) {
      if (name.letter() != 'B') {
        return name.toString();
      }
      return name.accidental() == -1 ? "B" : "H" + name.toString().substring(1);
    }
  },
  /** do, do#, reb, si, sib; large first letters in chord symbols. */
  FIXED_DO {
    @Override
    public String print(NoteName name) {
      String syllable =
          switch (name.letter()) {
            case 'C' -> "do";
            case 'D' -> "re";
            case 'E' -> "mi";
            case 'F' -> "fa";
            case 'G' -> "sol";
            case 'A' -> "la";
            default -> "si";
          };
      return syllable + name.toString().substring(1);
    }

    @Override
    String inChord(NoteName name) {
      String printed = print(name);
      return printed.substring(0, 1).toUpperCase(Locale.ROOT) + printed.substring(1);
    }
  };

  /** The note by itself. */
  public abstract String print(NoteName name);

  /** The note as root or bass of a chord symbol. */
  abstract String inChord(NoteName name);

  /** With its octave, counted as in scientific pitch notation in every language. */
  public String print(SpelledPitch pitch) {
    return print(pitch.name()) + pitch.octave();
  }

  public String print(Key key) {
    return print(key.tonic()) + " " + key.mode().words();
  }
}
