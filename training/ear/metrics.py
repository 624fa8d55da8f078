"""Frame and event metrics of the evaluator; all take numpy arrays of one clip or a stack of clips."""

import numpy as np

from ear import labels

THIRDLESS = np.array([q in labels.NO_THIRD for q in labels.QUALITIES])


def peaks(strength, threshold, reach=3):
    """Frames whose strength is the largest within ``reach`` frames and above ``threshold``."""
    padded = np.pad(strength, reach, mode="constant", constant_values=-1)
    windows = np.lib.stride_tricks.sliding_window_view(padded, 2 * reach + 1)
    return np.flatnonzero((strength >= windows.max(1)) & (strength > threshold))


def event_counts(truth, found, tolerance):
    """(hits, true events, found events): each true event matches at most one found within ``tolerance`` frames."""
    hits, i = 0, 0
    for event in truth:
        while i < len(found) and found[i] < event - tolerance:
            i += 1
        if i < len(found) and found[i] <= event + tolerance:
            hits, i = hits + 1, i + 1
    return np.array([hits, len(truth), len(found)])


def f_measure(counts):
    hits, truth, found = counts
    return 2 * hits / max(1, truth + found)


def true_events(halves):
    """Middles of the runs of full targets (2)."""
    full = np.flatnonzero(halves == 2)
    if not len(full):
        return full
    groups = np.split(full, np.flatnonzero(np.diff(full) > 1) + 1)
    return np.array([g[len(g) // 2] for g in groups])


def key_weight(truth, guess):
    """MIREX key weights over the major/minor reduction: 1 same, 0.5 fifth, 0.3 relative, 0.2 parallel."""
    minor = np.array([0, 1, 1, 1, 1, 1, 0, 0])
    true_tonic, tonic = truth % 12, guess % 12
    true_minor, is_minor = minor[truth // 12], minor[guess // 12]
    same = true_minor == is_minor
    relative = np.where(true_minor == 1, (tonic - true_tonic) % 12 == 3, (tonic - true_tonic) % 12 == 9) & ~same
    return np.select([same & (tonic == true_tonic), same & ((tonic - true_tonic) % 12 == 7), relative, ~same & (tonic == true_tonic)],
                     [1.0, 0.5, 0.3, 0.2], 0.0)


def calibration_error(confidence, right, bins=15):
    """Expected calibration error of confidences in [0, 1]."""
    index = np.minimum((confidence * bins).astype(int), bins - 1)
    total = 0.0
    for b in range(bins):
        inside = index == b
        if inside.any():
            total += inside.mean() * abs(confidence[inside].mean() - right[inside].mean())
    return total
