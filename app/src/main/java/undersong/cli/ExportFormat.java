package undersong.cli;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Set;
import undersong.exchange.Chapters;
import undersong.exchange.CsvTables;
import undersong.exchange.JamsWriter;
import undersong.exchange.MidiWriter;
import undersong.exchange.MusicXmlWriter;
import undersong.exchange.SongFacts;
import undersong.notation.NotationSettings;
import undersong.notation.Notator;
import undersong.notation.WrittenScore;
import undersong.reading.Reading;
import undersong.shelf.Song;
import undersong.study.Studied;
import undersong.theory.NumeralSettings;
import undersong.theory.SyllableSettings;
import undersong.work.Trouble;

/** Formats others read, and how a studied song is written in each. */
enum ExportFormat {
  /** The open JSON Annotated Music Specification: everything heard. */
  JAMS {
    @Override
    Map<Path, byte[]> files(Studied studied, Path file) {
      return one(file, JamsWriter.print(reading(studied), facts(studied.song())));
    }
  },
  /** Chords in the file itself; beats, sections, keys and notes in tables beside it. */
  CSV {
    @Override
    Map<Path, byte[]> files(Studied studied, Path file) {
      CsvTables tables =
          new CsvTables(reading(studied), NumeralSettings.DEFAULTS, SyllableSettings.DEFAULTS);
      Map<Path, byte[]> files = new LinkedHashMap<>(one(file, tables.chords()));
      files.putAll(one(beside(file, "beats"), tables.beats()));
      files.putAll(one(beside(file, "sections"), tables.sections()));
      files.putAll(one(beside(file, "keys"), tables.keys()));
      files.putAll(one(beside(file, "notes"), tables.notes()));
      return files;
    }
  },
  /** Standard MIDI File: bass, chords and melody that line up with the recording. */
  MIDI {
    @Override
    Map<Path, byte[]> files(Studied studied, Path file) {
      return Map.of(file, MidiWriter.print(reading(studied), facts(studied.song())));
    }
  },
  /** MusicXML 4.0: tune, voices and bass on staves, with chords, numerals and syllables. */
  MUSICXML {
    @Override
    Map<Path, byte[]> files(Studied studied, Path file) {
      WrittenScore score = Notator.write(reading(studied), NotationSettings.DEFAULTS);
      if (score.parts().isEmpty()) {
        throw new Trouble.WrongUsage(
            "Song %d cannot be written down: no pulse or no notes were heard in it. Maybe it has no beat; correct its beats first."
                .formatted(studied.song().id()));
      }
      return one(file, MusicXmlWriter.print(score, facts(studied.song())));
    }
  },
  /** The form: WebVTT where the file ends in .vtt, else plain lines. */
  CHAPTERS {
    @Override
    Map<Path, byte[]> files(Studied studied, Path file) {
      boolean webVtt = file.toString().endsWith(".vtt");
      Reading reading = reading(studied);
      return one(file, webVtt ? Chapters.webVtt(reading) : Chapters.lines(reading));
    }
  };

  /** What is to be written where, the named file first. */
  abstract Map<Path, byte[]> files(Studied studied, Path file);

  /** Writes the song, each file whole or not at all, and says which files those are. */
  Set<Path> write(Studied studied, Path file) {
    Map<Path, byte[]> files = files(studied, file);
    files.forEach((path, content) -> write(path.toAbsolutePath(), content));
    return files.keySet();
  }

  /** Writes one file, whole or not at all. */
  static void write(Path file, byte[] content) {
    try {
      Files.createDirectories(file.getParent());
      Path partial = file.resolveSibling(file.getFileName() + ".partial");
      try {
        Files.write(partial, content);
        Files.move(partial, file, StandardCopyOption.REPLACE_EXISTING);
      } finally {
        Files.deleteIfExists(partial);
      }
    } catch (IOException refused) {
      throw new Trouble.WrongUsage(
          "%s cannot be written (%s). Maybe the folder is read-only, or a folder of that name is there."
              .formatted(file, refused));
    }
  }

  private static Map<Path, byte[]> one(Path file, String text) {
    return Map.of(file, text.getBytes(StandardCharsets.UTF_8));
  }

  /** {@code low-tide.csv} becomes {@code low-tide-beats.csv}. */
  private static Path beside(Path file, String table) {
    String name = file.getFileName().toString();
    int dot = name.lastIndexOf('.');
    String base = dot > 0 ? name.substring(0, dot) : name;
    String ending = dot > 0 ? name.substring(dot) : "";
    return file.resolveSibling(base + "-" + table + ending);
  }

  private static Reading reading(Studied studied) {
    return studied.stored().reading();
  }

  private static SongFacts facts(Song song) {
    return new SongFacts(
        song.title(),
        song.artist().orElse(""),
        song.year().map(String::valueOf).orElse(""),
        song.contentHash());
  }
}
