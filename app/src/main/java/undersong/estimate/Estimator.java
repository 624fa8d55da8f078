package undersong.estimate;

import undersong.feature.Features;
import undersong.reading.Corrections;
import undersong.reading.Derived;
import undersong.reading.FacetValue;
import undersong.reading.Reading;

/**
 * Derives one facet. Fast and without access to the audio: it runs again at every correction.
 *
 * <p><b>In:</b> features of the recording; the facets derived before (those this facet declares as
 * inputs, and no others, may be read); the corrections in force.
 *
 * <p><b>Out:</b> the facet, in which every correction against it stands: pinned inside the decoding
 * as a finite penalty, the newest winning, so that neighbors profit, then laid over the result.
 * What fits nowhere is returned as unplaced.
 *
 * <p><b>Silence</b> and music that the task does not apply to give the facet's empty value, never
 * an error. Equal input gives equal output.
 */
public interface Estimator<V extends FacetValue> {
  Derived<V> estimate(Features features, Reading earlier, Corrections corrections);
}
