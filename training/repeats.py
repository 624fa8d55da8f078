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


def read(path, keys=3):
    """Names of the evidence, {key of a copy: (true notes, seconds)}, rows as (key, label, evidence)."""
    names, *lines = Path(path).read_text().splitlines()
    cells = [line.split(",") for line in lines]
    copies = {tuple(c[:keys]): (int(c[keys + 1]), float(c[keys + 2])) for c in cells if c[keys] == "-1"}
    rows = [(tuple(c[:keys]), float(c[keys]), [float(x) for x in c[keys + 1:]]) for c in cells if c[keys] != "-1"]
    return names[1:].split(","), copies, rows


def fit(evidence, new, weight):
    """Weights and, last, the bias; the ridge holds for evidence of spread 1."""
    mean, spread = evidence.mean(0), evidence.std(0) + 1e-9
    weights = newton((evidence - mean) / spread, new, weight / weight.mean())
    slopes = weights[:-1] / spread
    return np.append(slopes, weights[-1] - slopes @ mean)


def probability(evidence, weights):
    return 1 / (1 + np.exp(-(evidence @ weights[:-1] + weights[-1])))


def report(copies, copy, label, p, limits):
    for kind in sorted({(c[0], *c[2:]) for c in copies}):
        line = " ".join(kind)
        for limit in limits:
            scores, false, told, right, true = [], [], 0, 0, 0
            for name, (notes, seconds) in copies.items():
                if (name[0], *name[2:]) == kind:
                    here = (copy == "|".join(name)) & (p >= limit)
                    if notes:
                        scores.append(2 * label[here].sum() / (here.sum() + notes))
                        told, right, true = told + here.sum(), right + label[here].sum(), true + notes
                    else:
                        false.append(60 * here.sum() / seconds)
            line += f"\n  {limit:.2f}: F {np.mean(scores):.3f} precision {right / max(1, told):.2f} recall {right / max(1, true):.2f}"
            line += f" false a minute {np.mean(false):.1f}" if false else ""
        print(line)


def fitted(facet, names, copies, rows, limits):
    """Lines of the table; prints what songs left out of the fit show."""
    copy = np.array(["|".join(key) for key, _, _ in rows])
    label = np.array([label for _, label, _ in rows])
    evidence = np.array([evidence for _, _, evidence in rows])
    song = np.array([key[0] + " " + key[1].split(" ")[0] for key, _, _ in rows])
    songs = sorted(set(song))
    fold = np.array([songs.index(s) % FOLDS for s in song])
    _, of, count = np.unique(copy, return_inverse=True, return_counts=True)
    weight = 1 / np.sqrt(count[of])
    p = np.zeros(len(label))
    for k in range(FOLDS):
        p[fold == k] = probability(evidence[fold == k], fit(evidence[fold != k], label[fold != k], weight[fold != k]))
    report(copies, copy, label, p, limits)
    return [f"{facet} {name} {w:.4f}" for name, w in zip(names + ["bias"], fit(evidence, label, weight))]


def main():
    lines = fitted("new-notes", *read(sys.argv[1]), LIMITS)
    lines.insert(0, "# How likely a note of a section that returns is new: facet, evidence, weight. Fitted by training/repeats.py.")
    print("\n".join(lines))
    if len(sys.argv) > 2:
        Path(sys.argv[2]).write_text("\n".join(lines) + "\n")


if __name__ == "__main__":
    main()
