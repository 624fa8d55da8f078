"""Fits how sure the program says it is, facet by facet, and writes the table it reads.

    ./measure tune pulse-tune space-tune planted-tune           # renders what is missing
    java ... undersong.bench.decode.CertaintyRows CACHE SOUNDFONT rows.csv tune pulse-tune space-tune plant-tune
    python3 training/certainty.py rows.csv app/src/main/resources/undersong/estimate/certainty.txt

A row: facet, set, recording, how right (0 to 1), weight, probability stated now, then the evidence, whose names stand in the lines
that begin with #. Evidence does not hang on the weights in force, so nothing has to be reset before a fit.

Every facet is a logistic regression. Songs unlike those learned from are what counts, so songs are told by weights of other songs and
each set of songs by weights of the other sets, and the final weights are tempered by what both show: log-odds times a slope plus a bias. Prints the calibration error (ten bins of equal weight, as the bench has it) of what is stated now, with songs left out
(ten folds, all copies of a song in one) and with whole sets left out; and *by chance*: the error that perfectly honest
statements of the same probabilities would show, for a bin of few statements never comes out even. Facets that the table does not
name state what their decoder gives; their rows show whether that is honest. The bench songs must not be used for this.
"""

import sys
from collections import defaultdict
from pathlib import Path

import numpy as np

SCALED = ("bass", "keys", "melody", "sections")
FOLDS, BINS, DRAWS, RIDGE = 10, 10, 200, 3e-3


class Rows:
    """The statements on one facet."""

    def __init__(self, cells, names):
        self.set = np.array([c[1] for c in cells])
        self.recording = np.array([c[2] for c in cells])
        self.song = np.array([c[1] + " " + c[2].split(" ")[0] for c in cells])
        self.right, self.weight, self.stated = (np.array([float(c[i]) for c in cells]) for i in (3, 4, 5))
        self.evidence = np.array([[float(x) for x in c[6:]] for c in cells])
        self.names = names
        songs = list(dict.fromkeys(self.song))
        np.random.default_rng(0).shuffle(songs)
        self.fold = np.array([songs.index(song) % FOLDS for song in self.song])
        if self.evidence.shape[1] != len(names):
            raise SystemExit(f"{cells[0][0]}: {self.evidence.shape[1]} numbers a row, but {len(names)} names of evidence: "
                             "rows and names must come from one run.")


def read(path):
    names, cells = defaultdict(lambda: ["posterior"]), defaultdict(list)
    for line in Path(path).read_text().splitlines():
        if line.startswith("#"):
            facet, *names[facet] = line[1:].split(",")
        else:
            row = line.split(",")
            cells[row[0]].append(row)
    return {facet: Rows(rows, names[facet]) for facet, rows in cells.items()}


def fit(evidence, right, weight, ridge=RIDGE):
    """Weights of the evidence and, last, the bias: Newton's method; the ridge holds for evidence of spread 1."""
    spread = evidence.std(0) + 1e-9
    rows = np.hstack([evidence / spread, np.ones((len(evidence), 1))])
    share, pull, weights = weight / weight.sum(), ridge * np.eye(rows.shape[1]), np.zeros(rows.shape[1])
    pull[-1, -1] = 0
    for _ in range(50):
        p = sigmoid(rows @ weights)
        slope = rows.T @ (share * (p - right)) + pull @ weights
        step = np.linalg.solve((rows * (share * p * (1 - p))[:, None]).T @ rows + pull + 1e-12 * np.eye(len(pull)), slope)
        weights -= step
        if np.abs(step).max() < 1e-8:
            break
    return np.append(weights[:-1] / spread, weights[-1])


def sigmoid(x):
    return 1 / (1 + np.exp(-np.clip(x, -30, 30)))


def left_out(rows, groups):
    """Log-odds of every statement by weights fitted to the other groups."""
    odds = np.zeros(len(rows.right))
    for group in np.unique(groups):
        others, here = groups != group, groups == group
        weights = fit(rows.evidence[others], rows.right[others], rows.weight[others])
        odds[here] = rows.evidence[here] @ weights[:-1] + weights[-1]
    return odds


def tempered(rows):
    """(weights of all rows, slope and bias that songs and sets left out ask for)"""
    weights = fit(rows.evidence, rows.right, rows.weight)
    groups = [rows.fold] + [rows.set] * (len(np.unique(rows.set)) > 1)
    told = np.concatenate([left_out(rows, group) for group in groups])
    slope, bias = fit(told[:, None], np.tile(rows.right, len(groups)), np.tile(rows.weight, len(groups)), 0)
    return np.append(slope * weights[:-1], slope * weights[-1] + bias), (slope, bias)


def error(p, right, weight):
    """Expected calibration error over bins of equal weight; equal statements stay in one bin."""
    order = np.argsort(p, kind="stable")
    p, right, weight = p[order], right[order], weight[order]
    before = np.append(0, np.cumsum(weight)[:-1]) / weight.sum()
    _, first, same = np.unique(p, return_index=True, return_inverse=True)
    bins = np.minimum(BINS - 1, (BINS * before[first][same] + 1e-9).astype(int))
    return np.abs(np.bincount(bins, weight * (p - right), BINS)).sum() / weight.sum()


def by_chance(p, weight):
    dice = np.random.default_rng(1)
    return np.mean([error(p, (dice.random(len(p)) < p).astype(float), weight) for _ in range(DRAWS)])


def cost(p, right, weight):
    q = np.clip(p, 1e-4, 1 - 1e-4)
    return np.average(-(right * np.log(q) + (1 - right) * np.log(1 - q)), weights=weight)


def report(facet, rows):
    print(f"\n{facet}: {len(rows.right)} statements, {len(np.unique(rows.song))} songs; error, by chance, mean negative log-likelihood")
    told = {"stated now": rows.stated, "songs left out": sigmoid(left_out(rows, rows.fold))}
    if len(np.unique(rows.set)) > 1:
        told["sets left out"] = sigmoid(left_out(rows, rows.set))
    for name, p in told.items():
        print(f"  {name:15s} {error(p, rows.right, rows.weight):.3f}  {by_chance(p, rows.weight):.3f}"
              f"  {cost(p, rows.right, rows.weight):.3f}")
        for one in dict.fromkeys(zip(rows.set, ["worn" if "worn" in r else "clean" for r in rows.recording])):
            here = (rows.set == one[0]) & (np.char.find(rows.recording, "worn") >= 0 if one[1] == "worn"
                                           else np.char.find(rows.recording, "worn") < 0)
            print(f"      {one[0] + ' ' + one[1]:18s} {here.sum():5d}  right {np.average(rows.right[here], weights=rows.weight[here]):.3f}"
                  f"  told {np.average(p[here], weights=rows.weight[here]):.3f}"
                  f"  error {error(p[here], rows.right[here], rows.weight[here]):.3f}  by chance {by_chance(p[here], rows.weight[here]):.3f}")


def main():
    """Arguments: rows, table, and where not all facets are to be fitted anew, those that are."""
    facets, only = read(sys.argv[1]), sys.argv[3:] or SCALED
    lines = {}
    for facet, rows in sorted(facets.items()):
        report(facet, rows)
        weights, temper = tempered(rows)
        print(f"  tempered by slope {temper[0]:.2f}, bias {temper[1]:+.2f}:",
              ", ".join(f"{n} {w:.2f}" for n, w in zip(rows.names + ["bias"], weights)))
        lines[facet] = [f"{facet} {n} {w:.4f}" for n, w in zip(rows.names + ["bias"], weights)]
    missing = [facet for facet in only if facet not in facets]
    if missing:
        raise SystemExit(f"Nothing written: no rows of {', '.join(missing)}, which the table must hold.")
    if len(sys.argv) > 2:
        table = Path(sys.argv[2])
        for facet in set(SCALED) - set(only):
            lines[facet] = [line for line in table.read_text().splitlines() if line.startswith(facet + " ")]
        head = "# How sure statements are: facet, evidence, weight of its log-odds. Fitted by training/certainty.py."
        table.write_text("\n".join([head] + [line for facet in SCALED for line in lines[facet]]) + "\n")


if __name__ == "__main__":
    main()
