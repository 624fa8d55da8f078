package undersong.estimate.beat;

import undersong.feature.FrameMatrix;

/**
 * Strength of each tempo over time, on a logarithmic axis: bin b stands for {@code lowestBpm * 2^(b
 * / binsPerOctave)}.
 */
record TempoEvidence(FrameMatrix strengths, double lowestBpm, int binsPerOctave) {
  double bpmAt(double bin) {
    return lowestBpm * Math.pow(2, bin / binsPerOctave);
  }

  double binAt(double bpm) {
    return binsPerOctave * Math.log(bpm / lowestBpm) / Math.log(2);
  }
}
