"""Fits which notes of a section that returns are new, and writes the table that ``NoteEvidence`` reads.

    ./measure tune pulse-tune space-tune stage-tune           # renders what is missing
    java ... undersong.bench.decode.RepeatRows CACHE SOUNDFONT rows.csv tune pulse-tune space-tune stage-tune
    python3 training/repeats.py rows.csv app/src/main/resources/undersong/estimate/new-notes.txt

The first line names the evidence. A row: set, recording, sections "heard" or "true", new (1) or not (0), evidence; a copy's own row has
-1, how many notes are truly new and the seconds it lasts. A logistic regression; of a copy with many notes each counts less, so that
many notes of one song do not outweigh many songs. Prints, for songs told by weights of other songs (five folds, all copies of a song in
one), F as the mean over copies, precision and recall of all notes, and notes told a minute where none is new, at several limits: what
``RepeatSettings`` should have as ``leastNewNote``. The bench songs must not be used for this.
"""

import sys
from pathlib import Path

import numpy as np

from restrikes import newton

FOLDS = 5
LIMITS = (0.2, 0.25, 0.3, 0.35, 0.4, 0.5)


def read(path):
    names, *lines = Path(path).read_text().splitlines()
    cells = [line.split(",") for line in lines]
    copies = {tuple(c[:3]): (int(c[4]), float(c[5])) for c in cells if c[3] == "-1"}
    return names[1:].split(","), copies, [c for c in cells if c[3] != "-1"]


def fit(evidence, new, weight):
    """Weights and, last, the bias; the ridge holds for evidence of spread 1."""
    mean, spread = evidence.mean(0), evidence.std(0) + 1e-9
    weights = newton((evidence - mean) / spread, new, weight / weight.mean())
    slopes = weights[:-1] / spread
    return np.append(slopes, weights[-1] - slopes @ mean)


def probability(evidence, weights):
    return 1 / (1 + np.exp(-(evidence @ weights[:-1] + weights[-1])))


def report(copies, copy, new, p):
    for kind in sorted({(c[0], c[2]) for c in copies}):
        line = " ".join(kind)
        for limit in LIMITS:
            scores, false, told, right, true = [], [], 0, 0, 0
            for name, (added, seconds) in copies.items():
                if (name[0], name[2]) == kind:
                    here = (copy == "|".join(name)) & (p >= limit)
                    if added:
                        scores.append(2 * new[here].sum() / (here.sum() + added))
                        told, right, true = told + here.sum(), right + new[here].sum(), true + added
                    else:
                        false.append(60 * here.sum() / seconds)
            line += f"\n  {limit:.2f}: F {np.mean(scores):.3f} precision {right / max(1, told):.2f} recall {right / max(1, true):.2f}"
            line += f" false a minute {np.mean(false):.1f}" if false else ""
        print(line)


def main():
    names, copies, cells = read(sys.argv[1])
    copy = np.array(["|".join(c[:3]) for c in cells])
    new = np.array([float(c[3]) for c in cells])
    evidence = np.array([[float(x) for x in c[4:]] for c in cells])
    song = np.array([c[0] + " " + c[1].split(" ")[0] for c in cells])
    fold = np.array([sorted(set(song)).index(s) % FOLDS for s in song])
    _, of, count = np.unique(copy, return_inverse=True, return_counts=True)
    weight = 1 / np.sqrt(count[of])
    p = np.zeros(len(new))
    for k in range(FOLDS):
        p[fold == k] = probability(evidence[fold == k], fit(evidence[fold != k], new[fold != k], weight[fold != k]))
    report(copies, copy, new, p)
    weights = fit(evidence, new, weight)
    lines = ["# How likely a note of a section that returns is new: facet, evidence, weight. Fitted by training/repeats.py."]
    lines += [f"new-notes {name} {w:.4f}" for name, w in zip(names + ["bias"], weights)]
    print("\n".join(lines))
    if len(sys.argv) > 2:
        Path(sys.argv[2]).write_text("\n".join(lines) + "\n")


if __name__ == "__main__":
    main()
