"""Fits when a held pitch of the tune is struck anew.

    java ... undersong.bench.decode.RestrikeRows CACHE SOUNDFONT rows.csv tune pulse-tune
    python3 training/restrikes.py rows.csv

A row: recording, sung (1) or played (0), anew (1) or held on (0), seconds, then the evidence of ``Restrikes`` in its order. Prints the
weights and the bias of a logistic regression for ``Restrikes``, and, on recordings it was not fitted to (five folds), how well new
beginnings are told at several limits: picks are the highest within 80 ms. The bench songs must not be used for this.
"""

import sys

import numpy as np

FOLDS = 5
RIDGE = 1e-3
NEAR_SECONDS = 0.085
HIT_SECONDS = 0.065


def newton(evidence, label, weight=None):
    """Weights and bias of a logistic regression by Newton's method.

    Labels are 0 to 1; weights of rows are 1 each where none are given.
    """
    weight = np.ones(len(evidence)) if weight is None else weight
    rows = np.hstack([evidence, np.ones((len(evidence), 1))])
    weights = np.zeros(rows.shape[1])
    ridge = RIDGE * weight.sum() * np.eye(len(weights))
    ridge[-1, -1] = 0
    for _ in range(30):
        p = 1 / (1 + np.exp(-rows @ weights))
        slope = rows.T @ (weight * (p - label)) + ridge @ weights
        bend = (rows * (weight * p * (1 - p))[:, None]).T @ rows + ridge
        step = np.linalg.solve(bend, slope)
        weights -= step
        if np.abs(step).max() < 1e-6:
            break
    return weights


def told(recording, seconds, anew, p, limit):
    """(true beginnings, picks, right picks)"""
    true, picks, right = 0, 0, 0
    for one in np.unique(recording):
        here = recording == one
        at, q, y = seconds[here], p[here], anew[here]
        begins = at[y == 1]
        # Frames on either side of one beginning are both marked.
        true += len(begins) - np.sum(np.diff(begins) < NEAR_SECONDS)
        for i in np.flatnonzero(q >= limit):
            near = np.abs(at - at[i]) < NEAR_SECONDS
            if q[i] >= q[near].max():
                picks += 1
                right += bool(len(begins)) and np.abs(begins - at[i]).min() < HIT_SECONDS
    return true, picks, right


def main():
    rows = np.loadtxt(sys.argv[1], delimiter=",")
    recording, sung, anew, seconds, evidence = rows[:, 0], rows[:, 1], rows[:, 2], rows[:, 3], rows[:, 4:]
    ids = list(dict.fromkeys(recording))
    # Clean and worn copies follow each other: both in one fold.
    fold = np.array([ids.index(r) // 2 % FOLDS for r in recording])
    p = np.zeros(len(rows))
    for k in range(FOLDS):
        weights = newton(evidence[fold != k], anew[fold != k])
        out = fold == k
        p[out] = 1 / (1 + np.exp(-(evidence[out] @ weights[:-1] + weights[-1])))
    for limit in (0.2, 0.25, 0.3, 0.35, 0.4, 0.5, 0.6):
        line = f"limit {limit:.2f}"
        for name, which in (("sung", sung == 1), ("played", sung == 0)):
            true, picks, right = told(recording[which], seconds[which], anew[which], p[which], limit)
            line += f"   {name}: precision {right / max(1, picks):.3f} recall {right / max(1, true):.3f}"
        print(line)
    weights = newton(evidence, anew)
    print("weights", ", ".join(f"{w:.2f}" for w in weights[:-1]), "bias", f"{weights[-1]:.2f}")


if __name__ == "__main__":
    main()
