package undersong.survey;

import java.util.Optional;
import undersong.audio.Recording;
import undersong.study.UnshelvedStudy;
import undersong.work.Trouble;

/**
 * What a worker does with one recording. The ear is loaded once in each process, when it is first
 * needed, and uses one thread for each recording: Spark decides how many run at once.
 */
final class Worker {
  private static Optional<UnshelvedStudy> study = Optional.empty();

  private Worker() {}

  /** Opens a recording and says which sound it holds. */
  static Probed probe(Source source) {
    try (Fetched fetched = Fetched.from(source.place())) {
      return new Probed(source, study().probe(fetched.file()).contentHash(), "");
    } catch (Trouble.UnreadableRecording refused) {
      return new Probed(source, "", reason(refused));
    }
  }

  /**
   * Studies a recording; whatever is wrong with it is said in the row.
   *
   * @param version which the study here must have: without the ear, or with another program, a
   *     worker would hear something else than the others
   */
  static SurveyedSong study(Probed probed, String version) {
    if (!study().version().equals(version)) {
      throw new IllegalStateException(
          "A worker studies as version %s, the survey as %s: maybe its program is another, or the ear cannot be loaded there."
              .formatted(study().version(), version));
    }
    String place = probed.source().place();
    try (Fetched fetched = Fetched.from(place)) {
      Recording recording = study().probe(fetched.file());
      if (!recording.contentHash().equals(probed.contentHash())) {
        return SurveyedSong.failed(probed, version, place + " changed while it was surveyed.");
      }
      return SurveyedSong.of(study().study(recording, probed.source().words()), place, version);
    } catch (Trouble refused) {
      return SurveyedSong.failed(probed, version, reason(refused));
    } catch (RuntimeException | OutOfMemoryError mistake) {
      return SurveyedSong.failed(
          probed, version, "Something failed inside with %s: %s".formatted(place, mistake));
    }
  }

  private static String reason(Trouble refused) {
    return String.valueOf(refused.getMessage()).replaceAll("\\s+", " ");
  }

  /** The study of this process. */
  static synchronized UnshelvedStudy study() {
    if (study.isEmpty()) {
      study = Optional.of(UnshelvedStudy.withThreads(1));
    }
    return study.get();
  }
}
