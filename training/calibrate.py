"""Fits what makes the probabilities of readings honest, facet by facet, from a bench run on the tuning songs.

    ./measure tune && python3 training/calibrate.py bench/results.json tune

Reads the bins of stated probability and observed share (ten of equal weight for each facet and copy) and prints, for every
facet, slope and bias of ``LogisticScale`` with the calibration error before and after. The constants are then written into the
estimator that states the probability (``STATED``); they were fitted on statements made without them, so set them to 1 and 0
before fitting anew. The bench songs must not be used for this.
"""

import json
import math
import sys

FARTHEST = math.log(999)
RIDGE = 0.02    # pulls a fit on few statements toward slope 1 and bias 0


def log_odds(p):
    return FARTHEST if p >= 1 else -FARTHEST if p <= 0 else max(-FARTHEST, min(FARTHEST, math.log(p / (1 - p))))


def scaled(p, slope, bias):
    return 1 / (1 + math.exp(-(slope * log_odds(p) + bias)))


def fit(bins):
    """(slope, bias) by gradient descent on cross-entropy against the observed shares."""
    slope, bias = 1.0, 0.0
    for _ in range(20000):
        by_slope, by_bias = 2 * RIDGE * (slope - 1), 2 * RIDGE * bias
        for stated, observed in bins:
            off = (scaled(stated, slope, bias) - observed) / len(bins)
            by_slope, by_bias = by_slope + off * log_odds(stated), by_bias + off
        slope, bias = max(0.05, slope - 0.1 * by_slope), bias - 0.1 * by_bias
    return slope, bias


def error(bins, slope=1.0, bias=0.0):
    return sum(abs(scaled(stated, slope, bias) - observed) for stated, observed in bins) / len(bins)


def main():
    runs, name = json.load(open(sys.argv[1]))["runs"], sys.argv[2]
    facets = {}
    for copy_and_facet, calibration in runs[name]["calibration"].items():
        facet = copy_and_facet.split(" ", 1)[1]
        facets.setdefault(facet, []).extend((b["stated"], b["observed"]) for b in calibration["bins"])
    for facet, bins in sorted(facets.items()):
        slope, bias = fit(bins)
        print(f"{facet:10s} slope {slope:.2f} bias {bias:+.2f}   error {error(bins):.3f} -> {error(bins, slope, bias):.3f}")


if __name__ == "__main__":
    main()
