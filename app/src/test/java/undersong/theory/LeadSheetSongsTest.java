package undersong.theory;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Enumeration;
import java.util.HashMap;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import org.junit.jupiter.api.Test;
import undersong.theory.ChordSymbol.Chord;

/**
 * Chord symbols as amateurs type them, in openewld: the text beside each chord against the chord
 * kind beside it. Kinds as MusicXML 4.0 defines them (from memory).
 */
class LeadSheetSongsTest {
  private static final Pattern KIND =
      Pattern.compile("<kind[^>]*?text=\"([^\"]*)\"[^>]*>([a-z0-9-]+)</kind>");
  private static final Map<String, String> NOTES =
      Map.ofEntries(
          Map.entry("major", "0 4 7"),
          Map.entry("minor", "0 3 7"),
          Map.entry("augmented", "0 4 8"),
          Map.entry("diminished", "0 3 6"),
          Map.entry("dominant", "0 4 7 10"),
          Map.entry("major-seventh", "0 4 7 11"),
          Map.entry("minor-seventh", "0 3 7 10"),
          Map.entry("diminished-seventh", "0 3 6 9"),
          Map.entry("augmented-seventh", "0 4 8 10"),
          Map.entry("half-diminished", "0 3 6 10"),
          Map.entry("major-sixth", "0 4 7 9"),
          Map.entry("minor-sixth", "0 3 7 9"),
          Map.entry("dominant-ninth", "0 2 4 7 10"),
          Map.entry("minor-ninth", "0 2 3 7 10"),
          Map.entry("suspended-fourth", "0 5 7"),
          Map.entry("power", "0 7"));

  @Test
  void readsEverySymbolAndMeansItsKind() throws IOException {
    Map<String, Integer> occurrences = new HashMap<>();
    try (Stream<Path> files = Files.walk(TheoryTables.folder("openewld"))) {
      for (Path file : files.filter(f -> f.toString().endsWith(".mxl")).toList()) {
        Matcher matcher = KIND.matcher(text(file));
        while (matcher.find()) {
          occurrences.merge(matcher.group(1) + "=" + matcher.group(2), 1, Integer::sum);
        }
      }
    }
    int read = 0;
    int compared = 0;
    for (var entry : occurrences.entrySet()) {
      String[] symbolAndKind = entry.getKey().split("=", -1);
      Chord chord = (Chord) LeadSheet.parse("C" + symbolAndKind[0]);
      read += entry.getValue();
      // An alteration in the text is held in fields beside the kind; these are read only.
      boolean altered = symbolAndKind[0].matches(".*[#b]\\d+.*") && !symbolAndKind[0].contains("m");
      String notes = NOTES.get(symbolAndKind[1]);
      if (notes != null && !altered && !symbolAndKind[0].contains("m#5")) {
        Set<Integer> sounding = TheoryTables.pitchClasses(chord.pitchClassBits());
        assertThat(sounding).as(entry.getKey()).containsAll(TheoryTables.pitchClasses(notes));
        compared += entry.getValue();
      }
    }
    assertThat(read).isGreaterThan(3000);
    assertThat((double) compared / read).isGreaterThan(0.95);
  }

  private static String text(Path mxl) throws IOException {
    try (ZipFile zip = new ZipFile(mxl.toFile())) {
      Enumeration<? extends ZipEntry> entries = zip.entries();
      while (entries.hasMoreElements()) {
        ZipEntry entry = entries.nextElement();
        if (entry.getName().endsWith("xml") && !entry.getName().startsWith("META-INF")) {
          try (InputStream in = zip.getInputStream(entry)) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
          }
        }
      }
    }
    throw new IOException("No score in " + mxl);
  }
}
