package undersong.estimate.beat;

import undersong.estimate.Estimator;
import undersong.reading.Beats;

class PulseChainBeatTrackerTest extends BeatTrackerContract {
  @Override
  Estimator<Beats> tracker() {
    return new PulseChainBeatTracker();
  }
}
