package undersong.feature.ear;

import ai.onnxruntime.OnnxTensor;
import ai.onnxruntime.OrtEnvironment;
import ai.onnxruntime.OrtException;
import ai.onnxruntime.OrtSession;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.FileNotFoundException;
import java.io.IOException;
import java.io.InputStream;
import java.nio.FloatBuffer;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import undersong.feature.EarHead;
import undersong.feature.EarSpectra;

/**
 * The network with its description, loaded from the program's resources: three stages, so that the
 * broad ones can run on short stretches of a recording while the one that looks far ahead and back
 * runs on what little it needs. Beside them one that hears who plays a note, which may be missing.
 * Safe for many threads; one run uses two unless told otherwise.
 */
public final class ListeningModel implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(ListeningModel.class);
  private static final String FOLDER = "/undersong/ear/";
  private static final int THREADS = 2;

  private final OrtEnvironment environment = OrtEnvironment.getEnvironment();
  private final OrtSession look;
  private final OrtSession think;
  private final OrtSession follow;
  private final Optional<OrtSession> players;
  private final String version;
  private final int thinkReachFrames;
  private final int playersReachFrames;
  private final Map<EarHead, Float> temperatures;

  private ListeningModel(JsonNode description, int threads) throws IOException, OrtException {
    look = stage(description, 0, threads);
    think = stage(description, 1, threads);
    follow = stage(description, 2, threads);
    players = named("players", description, threads);
    version = version(description);
    thinkReachFrames = description.path("reach").path("think").asInt();
    playersReachFrames = description.path("reach").path("players").asInt();
    temperatures = temperatures(description);
  }

  /**
   * The shipped model; empty, with a notice in the log, where the runtime cannot load here. The
   * classical estimators then do all the hearing.
   */
  public static Optional<ListeningModel> load() {
    return load(THREADS);
  }

  /**
   * As {@link #load()}.
   *
   * @param threads one run uses, at least 1
   */
  public static Optional<ListeningModel> load(int threads) {
    try (InputStream description = resource("ear.json")) {
      return Optional.of(new ListeningModel(new ObjectMapper().readTree(description), threads));
    } catch (IOException | OrtException | UnsatisfiedLinkError | NoClassDefFoundError e) {
      LOG.warn("The listening model cannot run here; classical estimators take over.", e);
      return Optional.empty();
    }
  }

  /** The version {@link #load} would answer where the runtime can load; costs next to nothing. */
  public static String shippedVersion() {
    try (InputStream description = resource("ear.json")) {
      return version(new ObjectMapper().readTree(description));
    } catch (IOException broken) {
      return "";
    }
  }

  private static String version(JsonNode description) {
    return description.path("sha256").asText("unknown");
  }

  private static InputStream resource(String file) throws IOException {
    InputStream stream = ListeningModel.class.getResourceAsStream(FOLDER + file);
    if (stream == null) {
      throw new FileNotFoundException("%s is not part of this build.".formatted(file));
    }
    return stream;
  }

  private Optional<OrtSession> named(String name, JsonNode description, int threads)
      throws IOException, OrtException {
    JsonNode stages = description.path("stages");
    for (int i = 0; i < stages.size(); i++) {
      if (stages.path(i).path("file").asText().equals(name + ".onnx")) {
        return Optional.of(stage(description, i, threads));
      }
    }
    return Optional.empty();
  }

  private OrtSession stage(JsonNode description, int index, int threads)
      throws IOException, OrtException {
    OrtSession.SessionOptions options = new OrtSession.SessionOptions();
    options.setIntraOpNumThreads(threads);
    options.setInterOpNumThreads(1);
    String file = description.path("stages").path(index).path("file").asText();
    try (InputStream model = resource(file)) {
      return environment.createSession(model.readAllBytes(), options);
    }
  }

  private static Map<EarHead, Float> temperatures(JsonNode description) {
    Map<EarHead, Float> temperatures = new EnumMap<>(EarHead.class);
    for (EarHead head : EarHead.values()) {
      temperatures.put(head, 1f);
      for (JsonNode output : description.path("outputs")) {
        if (output.path("name").asText().equals(head.output())) {
          temperatures.put(head, (float) output.path("temperature").asDouble(1));
        }
      }
    }
    return temperatures;
  }

  /** Changes whenever the network does. */
  public String version() {
    return version;
  }

  /** How many frames the second stage looks back and ahead. */
  int thinkReachFrames() {
    return thinkReachFrames;
  }

  /** Whether there is a stage that answers this. */
  boolean hears(EarHead head) {
    return !EarHead.PLAYERS.contains(head) || players.isPresent();
  }

  /** How many frames the stage that hears who plays looks back and ahead. */
  int playersReachFrames() {
    return playersReachFrames;
  }

  /** What a head's logits are divided by, so that its probabilities are calibrated. */
  float temperature(EarHead head) {
    return temperatures.get(head);
  }

  /**
   * First stage.
   *
   * @param spectra read; at least one frame
   */
  Looked look(EarSpectra spectra) {
    int frames = spectra.frames();
    int tonalSize = frames * EarSpectra.TONAL_BINS;
    FloatBuffer tonal = FloatBuffer.allocate(3 * tonalSize);
    for (float[] plane : spectra.tonal()) {
      tonal.put(plane, 0, tonalSize);
    }
    FloatBuffer rhythm = FloatBuffer.wrap(spectra.rhythm(), 0, frames * EarSpectra.RHYTHM_BINS);
    try (OnnxTensor tonalTensor = tensor(tonal.flip(), 1, 3, frames, EarSpectra.TONAL_BINS);
        OnnxTensor rhythmTensor = tensor(rhythm, 1, 1, frames, EarSpectra.RHYTHM_BINS)) {
      return new Looked(
          look.run(Map.of("tonal", tonalTensor, "rhythm", rhythmTensor)),
          spectra.firstFrame(),
          frames);
    } catch (OrtException e) {
      throw failed("look", frames, e);
    }
  }

  /**
   * Second stage.
   *
   * @param joined channel after channel, {@code frames} values each
   */
  Thought think(float[] joined, int frames) {
    int channels = joined.length / frames;
    try (OnnxTensor tensor = tensor(FloatBuffer.wrap(joined), 1, channels, frames);
        OrtSession.Result result = think.run(Map.of("joined", tensor))) {
      return new Thought(
          frames, heads(result), values(result, "context"), values(result, "no_bass"));
    } catch (OrtException e) {
      throw failed("think", frames, e);
    }
  }

  /**
   * Third stage.
   *
   * @param planes of the first stage
   * @param thought of the second stage, over exactly the frames of the planes
   */
  Map<EarHead, float[]> follow(Looked planes, Thought thought) {
    int frames = thought.frames();
    float[] context = thought.context();
    try (OnnxTensor contextTensor =
            tensor(FloatBuffer.wrap(context), 1, context.length / frames, frames);
        OnnxTensor noBass = tensor(FloatBuffer.wrap(thought.noBass()), 1, frames, 1);
        OrtSession.Result result =
            follow.run(
                Map.of("planes", planes.planes(), "context", contextTensor, "no_bass", noBass))) {
      return heads(result);
    } catch (OrtException e) {
      throw failed("follow", frames, e);
    }
  }

  /**
   * The stage that hears who plays a note; {@link #hears} must be true of it.
   *
   * @param planes of the first stage, channel after channel, each frame after frame
   * @param context of the second stage, row after row, {@code frames} values each
   */
  Map<EarHead, float[]> hearPlayers(float[] planes, float[] context, int frames) {
    int pitches = EarHead.VOICE_ONSET.bins();
    int channels = planes.length / frames / pitches;
    try (OnnxTensor planesTensor = tensor(FloatBuffer.wrap(planes), 1, channels, frames, pitches);
        OnnxTensor contextTensor =
            tensor(FloatBuffer.wrap(context), 1, context.length / frames, frames);
        OrtSession.Result result =
            players.orElseThrow().run(Map.of("planes", planesTensor, "context", contextTensor))) {
      return heads(result);
    } catch (OrtException e) {
      throw failed("players", frames, e);
    }
  }

  private OnnxTensor tensor(FloatBuffer values, long... shape) throws OrtException {
    return OnnxTensor.createTensor(environment, values, shape);
  }

  private static Map<EarHead, float[]> heads(OrtSession.Result result) {
    Map<EarHead, float[]> out = new EnumMap<>(EarHead.class);
    for (EarHead head : EarHead.values()) {
      if (result.get(head.output()).isPresent()) {
        out.put(head, values(result, head.output()));
      }
    }
    return out;
  }

  static float[] values(OrtSession.Result result, String output) {
    OnnxTensor tensor =
        (OnnxTensor)
            result
                .get(output)
                .orElseThrow(
                    () ->
                        new IllegalStateException("The model has no output %s.".formatted(output)));
    FloatBuffer buffer = tensor.getFloatBuffer();
    float[] values = new float[buffer.remaining()];
    buffer.get(values);
    return values;
  }

  private static IllegalStateException failed(String stage, int frames, OrtException cause) {
    return new IllegalStateException(
        "Stage %s of the listening model failed on %d frames.".formatted(stage, frames), cause);
  }

  @Override
  public void close() {
    try {
      look.close();
      think.close();
      follow.close();
      if (players.isPresent()) {
        players.get().close();
      }
    } catch (OrtException e) {
      throw new IllegalStateException("The listening model could not be closed.", e);
    }
  }
}
