package undersong.audio;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * What a file's header says, without decoding it.
 *
 * @param codec name of the audio codec
 * @param encrypted whether the sound is locked by rights management
 * @param declaredSeconds length the container states; empty where it states none, as bare MP3 and
 *     AAC streams, whose length could only be guessed from their first bit rate
 */
record MediaFacts(
    String codec,
    boolean encrypted,
    int sampleRateHz,
    int channels,
    Optional<Double> declaredSeconds,
    Recording.Tags tags) {

  private static final ObjectMapper JSON = new ObjectMapper();
  private static final Pattern YEAR = Pattern.compile("(?<!\\d)(\\d{4})(?!\\d)");

  /** Sample entry names that mean "locked" in the ISO base media format and its forerunner. */
  private static final Set<String> LOCKED = Set.of("enca", "drms");

  private static final Set<String> LENGTH_GUESSED = Set.of("mp3", "aac");

  /** Reads the prober's answer; empty where the file has no audio stream. */
  static Optional<MediaFacts> parse(String json) throws JsonProcessingException {
    JsonNode root = JSON.readTree(json);
    for (JsonNode stream : root.path("streams")) {
      if (stream.path("codec_type").asText().equals("audio")) {
        return Optional.of(of(stream, root.path("format"), root.path("packets")));
      }
    }
    return Optional.empty();
  }

  private static MediaFacts of(JsonNode stream, JsonNode format, JsonNode packets) {
    String seconds =
        stream.has("duration")
            ? stream.get("duration").asText()
            : format.path("duration").asText("");
    return new MediaFacts(
        stream.path("codec_name").asText("unknown"),
        LOCKED.contains(stream.path("codec_tag_string").asText())
            || packets.findValuesAsText("side_data_type").contains("Encryption info"),
        stream.path("sample_rate").asInt(),
        stream.path("channels").asInt(),
        seconds.isEmpty() || LENGTH_GUESSED.contains(format.path("format_name").asText())
            ? Optional.empty()
            : Optional.of(Double.valueOf(seconds)),
        new Recording.Tags(
            tag("title", format, stream),
            tag("artist", format, stream),
            year(tag("date", format, stream), tag("year", format, stream))));
  }

  private static String tag(String name, JsonNode... holders) {
    for (JsonNode holder : holders) {
      for (Map.Entry<String, JsonNode> tag : holder.path("tags").properties()) {
        if (tag.getKey().equalsIgnoreCase(name)) {
          return tag.getValue().asText().strip();
        }
      }
    }
    return "";
  }

  private static int year(String... texts) {
    for (String text : texts) {
      Matcher digits = YEAR.matcher(text);
      if (digits.find()) {
        return Integer.parseInt(digits.group(1));
      }
    }
    return 0;
  }
}
