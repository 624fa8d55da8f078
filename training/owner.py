"""Fits which of the followed notes are the lead's own.

    java ... undersong.bench.decode.OwnNoteRows CACHE SOUNDFONT rows.csv voice-tune tune pulse-tune space-tune stage-tune rock-tune
    python3 training/owner.py rows.csv

A row is a note: song, worn (1) or clean (0), the lead's own (1), another's (0) or not asked (-1), its length in seconds, then the evidence of
``OwnNotes`` in its order. Every song is judged with weights fitted without it and its copies (ten folds), told as the lead's from several
log-odds on. Told are, as means over copies, seconds a minute in which another's notes are left to the lead, and in which the lead's own are
taken from it. The bench songs must not be used for this.
"""

import sys

import numpy as np

from restrikes import newton

FOLDS = 10
LEAST = (0.5, 0, -0.5, -1)


def main():
    rows = np.loadtxt(sys.argv[1], delimiter=",")
    song, worn, label, length, evidence = *rows[:, :4].T, rows[:, 4:]
    copy = song * 2 + worn
    weight = np.where(label >= 0, length, 0)
    for one in np.unique(copy):
        weight[copy == one] /= max(1e-9, weight[copy == one].sum())
    ids = list(dict.fromkeys(song))
    fold = np.array([ids.index(s) % FOLDS for s in song])
    log_odds = np.zeros(len(rows))
    for k in range(FOLDS):
        weights = newton(evidence[fold != k], label[fold != k] > 0, weight[fold != k])
        log_odds[fold == k] = evidence[fold == k] @ weights[:-1] + weights[-1]
    for least in LEAST:
        for name, kind in (("clean", 0), ("worn", 1)):
            left, taken, others = [], [], []
            for one in np.unique(copy[worn == kind]):
                here = copy == one
                told, total = log_odds[here] >= least, length[here].sum() / 60
                left.append(length[here][(label[here] == 0) & told].sum() / total)
                taken.append(length[here][(label[here] == 1) & ~told].sum() / total)
                others.append(length[here][label[here] == 0].sum() / total)
            print(f"from {least} on, {name}: another's {np.mean(others):.2f} s a minute, left to the lead {np.mean(left):.2f}, taken from the lead {np.mean(taken):.2f}")
    weights = newton(evidence, label > 0, weight)
    print("weights", ", ".join(f"{w:.2f}" for w in weights[:-1]), "bias", f"{weights[-1]:.2f}")


if __name__ == "__main__":
    main()
