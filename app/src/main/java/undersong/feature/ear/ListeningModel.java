package undersong.feature.ear;

import ai.onnxruntime.OnnxTensor;
import ai.onnxruntime.OrtEnvironment;
import ai.onnxruntime.OrtException;
import ai.onnxruntime.OrtSession;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
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
 * The network with its description, loaded from the program's resources. Safe for many threads; one
 * run uses two.
 */
public final class ListeningModel implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(ListeningModel.class);
  private static final String MODEL = "/undersong/ear/ear.onnx";
  private static final String DESCRIPTION = "/undersong/ear/ear.json";
  private static final int THREADS = 2;

  private final OrtSession session;
  private final String version;
  private final Map<EarHead, Float> temperatures;

  private ListeningModel(OrtSession session, String version, Map<EarHead, Float> temperatures) {
    this.session = session;
    this.version = version;
    this.temperatures = temperatures;
  }

  /**
   * The shipped model; empty, with a notice in the log, where the runtime cannot load here. The
   * classical estimators then do all the hearing.
   */
  public static Optional<ListeningModel> load() {
    try (InputStream model = ListeningModel.class.getResourceAsStream(MODEL);
        InputStream description = ListeningModel.class.getResourceAsStream(DESCRIPTION)) {
      if (model == null || description == null) {
        LOG.warn("The listening model is not part of this build; classical estimators take over.");
        return Optional.empty();
      }
      return Optional.of(of(model.readAllBytes(), new ObjectMapper().readTree(description)));
    } catch (IOException | OrtException | UnsatisfiedLinkError | NoClassDefFoundError e) {
      LOG.warn("The listening model cannot run here; classical estimators take over.", e);
      return Optional.empty();
    }
  }

  private static ListeningModel of(byte[] model, JsonNode description) throws OrtException {
    OrtSession.SessionOptions options = new OrtSession.SessionOptions();
    options.setIntraOpNumThreads(THREADS);
    options.setInterOpNumThreads(1);
    Map<EarHead, Float> temperatures = new EnumMap<>(EarHead.class);
    for (EarHead head : EarHead.values()) {
      temperatures.put(head, 1f);
      for (JsonNode output : description.path("outputs")) {
        if (output.path("name").asText().equals(head.output())) {
          temperatures.put(head, (float) output.path("temperature").asDouble(1));
        }
      }
    }
    return new ListeningModel(
        OrtEnvironment.getEnvironment().createSession(model, options),
        description.path("sha256").asText("unknown"),
        temperatures);
  }

  /** Changes whenever the network does. */
  public String version() {
    return version;
  }

  /**
   * Runs the network once.
   *
   * @param spectra read; at least one frame
   * @return logits of each head, frame after frame
   */
  Map<EarHead, float[]> logits(EarSpectra spectra) {
    int frames = spectra.frames();
    int tonalSize = frames * EarSpectra.TONAL_BINS;
    FloatBuffer tonal = FloatBuffer.allocate(3 * tonalSize);
    for (float[] plane : spectra.tonal()) {
      tonal.put(plane, 0, tonalSize);
    }
    FloatBuffer rhythm = FloatBuffer.wrap(spectra.rhythm(), 0, frames * EarSpectra.RHYTHM_BINS);
    OrtEnvironment environment = OrtEnvironment.getEnvironment();
    try (OnnxTensor tonalTensor =
            OnnxTensor.createTensor(
                environment, tonal.flip(), new long[] {1, 3, frames, EarSpectra.TONAL_BINS});
        OnnxTensor rhythmTensor =
            OnnxTensor.createTensor(
                environment, rhythm, new long[] {1, 1, frames, EarSpectra.RHYTHM_BINS});
        OrtSession.Result result =
            session.run(Map.of("tonal", tonalTensor, "rhythm", rhythmTensor))) {
      Map<EarHead, float[]> out = new EnumMap<>(EarHead.class);
      for (EarHead head : EarHead.values()) {
        OnnxTensor tensor =
            (OnnxTensor)
                result
                    .get(head.output())
                    .orElseThrow(
                        () ->
                            new IllegalStateException(
                                "The model has no output %s.".formatted(head.output())));
        float[] values = new float[frames * head.bins()];
        tensor.getFloatBuffer().get(values);
        out.put(head, values);
      }
      return out;
    } catch (OrtException e) {
      throw new IllegalStateException(
          "The listening model failed on %d frames.".formatted(frames), e);
    }
  }

  /** What a head's logits are divided by, so that its probabilities are calibrated. */
  float temperature(EarHead head) {
    return temperatures.get(head);
  }

  @Override
  public void close() {
    try {
      session.close();
    } catch (OrtException e) {
      throw new IllegalStateException("The listening model could not be closed.", e);
    }
  }
}
