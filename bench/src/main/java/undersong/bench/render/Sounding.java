package undersong.bench.render;

import java.util.ArrayList;
import java.util.List;
import undersong.bench.data.Chart;

/**
 * A pitched note of a rendering as it was played.
 *
 * @param startSeconds in the clean copy
 * @param endSeconds when it is let go; what rings on is left out
 */
public record Sounding(Player player, double startSeconds, double endSeconds, int midiPitch) {
  /** Who plays it. */
  public enum Player {
    BASS,
    LEAD,
    /** Chords, held sounds, broken chords, lines. */
    OTHERS
  }

  /** Everything pitched in a song of a set, part by part, each in order. */
  public static List<List<Sounding>> of(Song song, Chart whole) {
    Chart chart = whole.excerpt(song.fromBar(), Math.min(song.toBar(), whole.bars().size()));
    Arrangement arrangement = Arrangement.of(song, chart);
    List<List<Sounding>> parts = new ArrayList<>();
    for (Part part : arrangement.parts()) {
      if (part.role() != Part.Role.DRUMS) {
        parts.add(
            part.notes().stream()
                .map(n -> of(player(part.role()), n, arrangement.tempo()))
                .sorted(java.util.Comparator.comparingDouble(Sounding::startSeconds))
                .toList());
      }
    }
    return parts;
  }

  private static Player player(Part.Role role) {
    return switch (role) {
      case BASS -> Player.BASS;
      case LEAD, SECOND, ANSWER -> Player.LEAD;
      default -> Player.OTHERS;
    };
  }

  private static Sounding of(Player player, PlayedNote note, TempoMap tempo) {
    return new Sounding(
        player, tempo.secondsAt(note.startBeat()), tempo.secondsAt(note.endBeat()), note.pitch());
  }
}
