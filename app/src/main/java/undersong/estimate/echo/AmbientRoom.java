package undersong.estimate.echo;

import java.util.List;
import undersong.feature.Features;
import undersong.feature.StereoPowers;
import undersong.time.Span;

/**
 * The room without the trained ear: how wet a section is, by what stands nowhere between the sides.
 * How long it falls is not said: neither free falls of the level nor those of what stands nowhere
 * told it on tuning songs. Said of stereo recordings only.
 */
public final class AmbientRoom implements RoomEvidence {
  /** Drier than this nothing differs between the sides: one channel, written twice. */
  private static final double MONO_DB = -38;

  private final Ambience ambience;

  public AmbientRoom(StereoPowers powers) {
    ambience = new Ambience(powers);
  }

  @Override
  public List<Expected> of(Features features, List<Span> sections) {
    return sections.stream().map(this::expected).toList();
  }

  private Expected expected(Span span) {
    double[] level = ambience.levelAndWander(span);
    return level.length == 0 || level[0] < MONO_DB
        ? Expected.NOTHING
        : new Expected(List.of(), List.of(), level[0], level[1]);
  }
}
