package undersong.technique;

import java.util.ArrayList;
import java.util.List;
import undersong.reading.Facet;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;

/**
 * One part of the music and its notes.
 *
 * @param name {@code melody}, {@code voice-2}, {@code line-1} ...
 */
public record Part(String name, List<NoteEvent> notes) {
  public Part {
    notes = List.copyOf(notes);
  }

  /** The melody and every other voice; reads MELODY, and VOICES where it is there. */
  public static List<Part> sung(Reading reading) {
    List<Part> parts = new ArrayList<>();
    parts.add(new Part("melody", reading.get(Facet.MELODY).notes()));
    reading
        .find(Facet.VOICES)
        .ifPresent(
            voices ->
                voices
                    .voices()
                    .forEach(voice -> parts.add(new Part(voice.name(), voice.events()))));
    return parts;
  }

  public Sentence words() {
    int dash = name.indexOf('-');
    return dash < 0
        ? Sentence.of("part." + name)
        : Sentence.of(
            "part." + name.substring(0, dash), Integer.parseInt(name.substring(dash + 1)));
  }
}
