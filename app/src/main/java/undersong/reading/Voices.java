package undersong.reading;

import java.util.List;
import java.util.Optional;

/** The sung lines besides the lead, by name; empty where nobody sings with it. */
public record Voices(List<Voice> voices) implements FacetValue {
  public static final Voices NONE = new Voices(List.of());

  public Voices {
    voices = List.copyOf(voices);
    if (voices.stream().map(Voice::name).distinct().count() < voices.size()) {
      throw new IllegalArgumentException("Two voices have the same name.");
    }
  }

  public Optional<Voice> named(String name) {
    return voices.stream().filter(voice -> voice.name().equals(name)).findFirst();
  }

  @Override
  public Object essence() {
    return voices.stream().map(Voice::essence).toList();
  }
}
