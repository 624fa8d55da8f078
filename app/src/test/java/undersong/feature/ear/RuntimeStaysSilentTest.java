package undersong.feature.ear;

import static org.assertj.core.api.Assertions.assertThat;

import ai.onnxruntime.OrtEnvironment;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import org.junit.jupiter.api.Test;

/**
 * Later builds of the runtime carry a part that reports to its maker over the network, and that
 * part overflows the stack on long class paths. The program promises that nothing leaves the
 * machine, so such a build must not slip in with an update.
 */
final class RuntimeStaysSilentTest {
  @Test
  void theNativeRuntimeKnowsNoAddressToReportTo() throws IOException {
    try (InputStream library =
        OrtEnvironment.class.getResourceAsStream(
            "/ai/onnxruntime/native/linux-x64/libonnxruntime.so")) {
      assertThat(library).isNotNull();
      String bytes = new String(library.readAllBytes(), StandardCharsets.ISO_8859_1);
      assertThat(bytes).contains("OrtGetApiBase").doesNotContain("://mobile.events.data");
    }
  }
}
