"""Fits where the followed lead sounds and where it rests.

    java ... undersong.bench.decode.VoicingRows CACHE SOUNDFONT rows.csv tune pulse-tune space-tune
    python3 training/voicing.py rows.csv

A row is a frame: song, worn (1) or clean (0), sung (1) or played (0), points of the truth in it, how many of them sound, at how many of
those the path's pitch is right, then the evidence of ``LeadSounding`` in its order. Prints weights and bias of a logistic regression for
``LeadSounding``, and, for songs it was not fitted to (both copies of a song left out together), what the decoder makes of it at several
costs of a change: means over songs. The bench songs must not be used for this.
"""

import sys

import numpy as np

from restrikes import newton

FOLDS = 8
COSTS = (0.25, 0.5, 0.75, 1.0)


def course(log_odds, cost):
    """The likeliest course of sounding and resting: ``LeadSounding.course``."""
    sounds = rests = 0.0
    sounds_on, rests_on = [], []
    for odds in log_odds:
        sounds_on.append(sounds >= rests - cost)
        rests_on.append(rests >= sounds - cost)
        sounds, rests = max(sounds, rests - cost) + odds, max(rests, sounds - cost)
    state = sounds > rests
    states = np.zeros(len(log_odds), bool)
    for i in range(len(log_odds) - 1, -1, -1):
        states[i] = state
        state = sounds_on[i] if state else not rests_on[i]
    return states


def main():
    rows = np.loadtxt(sys.argv[1], delimiter=",")
    song, worn, sung, points, sound, right, evidence = *rows[:, :6].T, rows[:, 6:]
    # What sounds at another pitch is wrong whichever way it is told: it teaches nothing.
    weight, label = points - sound + right, right / np.maximum(points - sound + right, 1)
    copy = song * 2 + worn
    ids = list(dict.fromkeys(song))
    for one in np.unique(copy):
        weight[copy == one] /= points[copy == one].sum()
    fold = np.array([ids.index(s) % FOLDS for s in song])
    log_odds = np.zeros(len(rows))
    for k in range(FOLDS):
        weights = newton(evidence[fold != k], label[fold != k], weight[fold != k])
        log_odds[fold == k] = evidence[fold == k] @ weights[:-1] + weights[-1]
    for cost in COSTS:
        told = {one: course(log_odds[copy == one], cost) for one in np.unique(copy)}
        for name, kind in (("clean", worn == 0), ("worn", worn == 1), ("sung", sung == 1), ("played", sung == 0)):
            recall, alarms, overall = [], [], []
            for one in np.unique(copy[kind]):
                here, on = copy == one, told[one]
                n, s, r = points[here], sound[here], right[here]
                recall.append(s[on].sum() / s.sum())
                alarms.append((n - s)[on].sum() / max(1, (n - s).sum()))
                overall.append((r[on].sum() + (n - s)[~on].sum()) / n.sum())
            print(f"cost {cost:.2f} {name:6} recall {np.mean(recall):.3f} false alarms {np.mean(alarms):.3f} overall {np.mean(overall):.4f}")
    weights = newton(evidence, label, weight)
    print("weights", ", ".join(f"{w:.2f}" for w in weights[:-1]), "bias", f"{weights[-1]:.2f}")


if __name__ == "__main__":
    main()
