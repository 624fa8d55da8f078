package undersong.render.synth;

import java.util.List;
import java.util.Locale;

/** What a written syllable sounds like, as far as this voice can tell: its vowel, its beginning. */
final class Syllable {
  /** How a syllable begins. */
  enum Consonant {
    NONE,
    SONORANT,
    STOP,
    HISS,
    BREATH
  }

  private static final double[] AH = {850, 1220, 2810, 3900, 4900};
  private static final double[] EH = {610, 2330, 2990, 4000, 4950};
  private static final double[] EE = {310, 2790, 3310, 4200, 5000};
  private static final double[] OH = {590, 920, 2710, 3800, 4900};
  private static final double[] OO = {370, 950, 2670, 3700, 4900};

  private Syllable() {}

  static double[] vowelFormantsHz(String syllable) {
    String text = syllable.toLowerCase(Locale.ROOT);
    if (text.contains("oo") || text.contains("u")) {
      return OO;
    }
    if (text.contains("ee") || text.contains("ea") || text.contains("y")) {
      return EE;
    }
    for (int i = 0; i < text.length(); i++) {
      int vowel = "aeio".indexOf(text.charAt(i));
      if (vowel >= 0) {
        return List.of(AH, EH, EE, OH).get(vowel);
      }
    }
    return AH;
  }

  static Consonant consonant(String syllable) {
    String text = syllable.toLowerCase(Locale.ROOT);
    if (text.isEmpty() || "aeiou".indexOf(text.charAt(0)) >= 0) {
      return Consonant.NONE;
    }
    if (text.startsWith("th")) {
      return Consonant.BREATH;
    }
    return switch (text.charAt(0)) {
      case 's', 'z', 'c', 'j', 'x' -> Consonant.HISS;
      case 'f', 'v', 'h' -> Consonant.BREATH;
      case 'p', 't', 'k', 'b', 'd', 'g', 'q' -> Consonant.STOP;
      default -> Consonant.SONORANT;
    };
  }
}
