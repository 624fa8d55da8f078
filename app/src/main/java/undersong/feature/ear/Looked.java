package undersong.feature.ear;

import ai.onnxruntime.OnnxTensor;
import ai.onnxruntime.OrtSession;

/**
 * What the first stage made of a stretch of spectra. Holds memory of the runtime until closed.
 *
 * @param result of the runtime: pitch planes, which stay there, and what the second stage takes in
 * @param firstFrame of the stretch, counted from the start of the recording
 * @param frames of the stretch
 */
record Looked(OrtSession.Result result, int firstFrame, int frames) implements AutoCloseable {
  OnnxTensor planes() {
    return (OnnxTensor)
        result
            .get("planes")
            .orElseThrow(() -> new IllegalStateException("The model has no output planes."));
  }

  /** The planes outside the runtime: channel after channel, each frame after frame. */
  float[] planeValues() {
    return ListeningModel.values(result, "planes");
  }

  /** Channel after channel, as many values each as there are frames. */
  float[] joined() {
    return ListeningModel.values(result, "joined");
  }

  @Override
  public void close() {
    result.close();
  }
}
