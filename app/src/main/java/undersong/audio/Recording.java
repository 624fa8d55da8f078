package undersong.audio;

import java.nio.file.Path;

/**
 * Facts about one decodable audio file.
 *
 * @param path where the file lies now
 * @param contentHash hash of the demuxed audio packets, so that editing a tag or moving the file
 *     changes nothing
 * @param durationSeconds length after decoding
 * @param sampleRateHz as stored in the file
 * @param channels as stored in the file
 * @param tags what the file says about itself
 */
public record Recording(
    Path path,
    String contentHash,
    double durationSeconds,
    int sampleRateHz,
    int channels,
    Tags tags) {

  /** Title, artist and year as tagged; empty texts and year 0 where the file says nothing. */
  public record Tags(String title, String artist, int year) {
    public static final Tags NONE = new Tags("", "", 0);
  }
}
