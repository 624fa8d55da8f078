"""Fits what chords say about the tonic, from charts that may be used for learning, and writes the table the program reads.

    python3 training/keys.py app/src/main/resources/undersong/estimate/key/chart-evidence.txt     # UNDERSONG_DATA is set

Reads the first 300 McGill Billboard files by name (CC0). Counts, for songs on a major and a minor tonic: each chord; each step
from chord to chord; what stands where a section begins and at every eighth bar of it. A logistic choice among 24 tonics (conditional logit: D. McFadden, 1974, from memory) then learns what each of these is worth, five-fold: the counts a song
is judged by never hold the song itself. Songs are learned from whole and in excerpts, since recordings may be either. Prints how
often the tonic is right in both, by all evidence and by less of it. Everything is divided by the square root of the number
of chords: what one chord says is not independent of what the last one said, and a long song must not be sure for its length alone.
"""

import os
import re
import sys
from collections import Counter
from pathlib import Path

import numpy as np

sys.path.insert(0, str(Path(__file__).parent))
from ear.charts import BILLBOARD_FILES, harte, pitch_class  # noqa: E402

# Chord kinds counted apart, and what the rarer ones are counted as.
KINDS = ["maj", "min", "7", "maj7", "min7", "dim", "hdim7", "dim7", "aug", "sus2", "sus4", "maj6", "min6", "5", "1"]
COUNTED_AS = {"9": "7", "maj9": "maj7", "min9": "min7", "7sus4": "sus4", "add9": "maj", "minmaj7": "min"}
# Four families: with a major third, minor, diminished, and open: without a third, which says nothing of the tonic's.
FAMILY = {"min": 1, "min7": 1, "min6": 1, "dim": 2, "hdim7": 2, "dim7": 2, "5": 3, "1": 3, "sus2": 3, "sus4": 3}
FAMILIES, OPEN = 4, 3
PLACES = ["section", "eighth bar"]
EVIDENCE = ["chord", "step", "section", "eighth bar", "tonic held", "minor"]
LADDER = [("chord", "tonic held"), ("step",), ("section",), ("eighth bar",), ("minor",)]
FOLDS, PIECE_BARS, LONGEST_BARS = 5, 4, 4
EXCERPT_BARS, EXCERPTS = 30, 3
UNSEEN_SHARE, STEP_PRIOR, PLACE_PRIOR = 4e-4, 30.0, 2e-3
SETTLED_SHARE = 0.75


def charts():
    """One list a song of [root, kind, family, bars, tonic, whether a section begins here, bars since it began]."""
    files = sorted((Path(os.environ["UNDERSONG_DATA"]) / "mcgill-billboard" / "annotations").glob("*.txt"))
    songs = [pieces(path.read_text()) for path in files[:BILLBOARD_FILES]]
    return [song for song in songs if song]


def pieces(text):
    """Chords of one chart, joined where they repeat and cut at every fourth bar of a section."""
    tonic, since, out = 0, 0.0, []
    for line in text.splitlines():
        if line.startswith("# tonic:"):
            tonic = pitch_class(line.split(":")[1].strip())
        elif "|" in line:
            begins = re.search(r"[A-Z]'*,|[a-z]+,", line.split("|")[0]) is not None
            times = re.search(r"x(\d+)", line.split("|")[-1])
            for _ in range(int(times.group(1)) if times else 1):
                for bar in re.findall(r"\|([^|]+)(?=\|)", line):
                    symbols = [s for s in bar.split() if not s.startswith("(") and s not in ("*", "->")]
                    for symbol in symbols:
                        chord = harte(symbol)
                        if chord is None and symbol != ".":
                            begins = False
                            continue
                        since = 0.0 if begins else since
                        add(out, chord, tonic, begins, since, 1 / len(symbols))
                        since, begins = since + 1 / len(symbols), False
    return out


def add(out, chord, tonic, begins, since, bars):
    if chord is None:
        if out:
            out[-1][3] += bars
        return
    kind = COUNTED_AS.get(chord[1], chord[1])
    same = out and out[-1][0] == chord[0] and out[-1][1] == kind and out[-1][4] == tonic
    if same and not begins and abs(since % PIECE_BARS) > 1e-6:
        out[-1][3] += bars
    else:
        out.append([chord[0], kind, FAMILY.get(kind, 0), bars, tonic, begins, since])


def keyed(song):
    """The key of every chord, 0 to 11 major and 12 to 23 minor: the third its tonic chord mostly has."""
    minor = Counter()
    for root, _, family, bars, tonic, _, _ in song:
        if root == tonic:
            minor[tonic] += {0: -bars, 1: bars}.get(family, 0)
    return [tonic + 12 * (minor[tonic] > 0) for *_, tonic, _, _ in song]


def places(song, i):
    """Whether a chord begins a section and whether it stands on its every eighth bar."""
    return (song[i][5], abs(song[i][6] % 8) < 1e-6)


def tables(songs):
    """Logarithms: of each chord's share; of how much likelier than there each step and each placed chord is."""
    chord, family = np.zeros((2, 12, len(KINDS))), np.zeros((2, 12, FAMILIES))
    step, placed = np.zeros((2, 12, FAMILIES, 12, FAMILIES)), np.zeros((len(PLACES), 2, 12, FAMILIES))
    for song in songs:
        keys, weight = keyed(song), 100 / len(song)
        for i, (x, key) in enumerate(zip(song, keys)):
            third, root = key // 12, (x[0] - key) % 12
            chord[third, root, KINDS.index(x[1])] += weight
            family[third, root, x[2]] += weight
            for place, there in enumerate(places(song, i)):
                placed[place, third, root, x[2]] += there * weight
            if i and keys[i - 1] == key:
                step[third, (song[i - 1][0] - key) % 12, song[i - 1][2], root, x[2]] += weight
    share = shares(chord, UNSEEN_SHARE)
    usual = shares(family, PLACE_PRIOR)
    steps = (step + STEP_PRIOR * usual[:, None, None]) / (step.sum((3, 4), keepdims=True) + STEP_PRIOR)
    lifts = [np.log(shares(table, PLACE_PRIOR) / usual) for table in placed]
    return np.log(share), np.log(steps / usual[:, None, None]), np.array(lifts)


def shares(counts, prior):
    axes = tuple(range(1, counts.ndim))
    padded = counts + prior * counts.sum(axes, keepdims=True) + 1e-9
    return padded / padded.sum(axes, keepdims=True)


def tonic_third(family, third):
    """Whether a chord on the tonic may be the tonic chord of a major (0) or minor (1) key."""
    return family == OPEN or (family == 0) == (third == 0)


def evidence(song, learned):
    """[24 keys, EVIDENCE] of a whole song."""
    chord, step, lifts = learned
    out, tempered = np.zeros((24, len(EVIDENCE))), 1 / np.sqrt(len(song))
    for i, x in enumerate(song):
        held = np.sqrt(min(x[3], LONGEST_BARS))
        where = places(song, i)
        for key in range(24):
            third, root = key // 12, (x[0] - key) % 12
            row = out[key]
            row[0] += chord[third, root, KINDS.index(x[1])] * held * tempered
            if i:
                row[1] += step[third, (song[i - 1][0] - key) % 12, song[i - 1][2], root, x[2]] * tempered
            for place in np.flatnonzero(where):
                row[2 + place] += lifts[place, third, root, x[2]] * tempered
            row[4] += (root == 0 and tonic_third(x[2], third)) * held * tempered
    out[:, 5] = np.arange(24) // 12
    return out


def choose(cases, ridge=1e-3, steps=4000):
    """Weights under which the right key is likeliest."""
    x, y = np.array([c[0] for c in cases]), np.array([c[1] for c in cases])
    scale = x.std((0, 1)) + 1e-9
    x, weights = x / scale, np.zeros(x.shape[2])
    for _ in range(steps):
        z = x @ weights
        p = np.exp(z - z.max(1, keepdims=True))
        p /= p.sum(1, keepdims=True)
        weights += (x[np.arange(len(y)), y] - (p[:, :, None] * x).sum(1)).mean(0) - ridge * weights
    return weights / scale


def settled(song):
    """The key of a song that keeps one for most of its time, or None."""
    held = Counter()
    for x, key in zip(song, keyed(song)):
        held[key] += x[3]
    key, bars = held.most_common(1)[0]
    return key if bars >= SETTLED_SHARE * sum(held.values()) else None


def excerpts(song, dice):
    """Stretches of a song that begin at a fourth bar, those in its own key."""
    at = np.cumsum([0] + [x[3] for x in song])
    begins = [i for i in range(len(song)) if abs(song[i][6] % PIECE_BARS) < 1e-6 and at[i] + EXCERPT_BARS <= at[-1]]
    out = []
    for i in dice.choice(begins, EXCERPTS) if begins else []:
        cut = [list(x) for x, bars in zip(song[i:], at[i + 1:]) if bars - at[i] <= EXCERPT_BARS]
        if len(cut) > 1 and settled(cut) == settled(song):
            cut[0][5:] = [True, 0.0]
            out.append(cut)
    return out


def told(cases, weights):
    """(share of tonics right, of tonics and thirds, mean negative logarithm of the right key's probability)."""
    right, both, cost = [], [], []
    for x, key in cases:
        z = x @ weights
        right.append(z.argmax() % 12 == key % 12)
        both.append(z.argmax() == key)
        cost.append(np.log(np.exp(z - z.max()).sum()) + z.max() - z[key])
    return np.mean(right), np.mean(both), np.mean(cost)


def in_folds(whole, cut, used):
    """What is told of each fold, whole and in excerpts, by weights of the others, with only some columns of the evidence."""
    whole, cut = ([[(x[:, used], key) for x, key in cases] for cases in folds] for folds in (whole, cut))
    results = []
    for fold in range(FOLDS):
        weights = choose([c for other in range(FOLDS) if other != fold for c in whole[other] + cut[other]])
        results.append(told(whole[fold], weights) + told(cut[fold], weights))
    return np.mean(results, 0)


def main():
    songs, dice = charts(), np.random.default_rng(0)
    whole, cut = [], []
    for fold in range(FOLDS):
        learned = tables([s for i, s in enumerate(songs) if i % FOLDS != fold])
        here = [s for s in songs[fold::FOLDS] if settled(s) is not None]
        whole.append([(evidence(s, learned), settled(s)) for s in here])
        cut.append([(evidence(e, learned), settled(e)) for s in here for e in excerpts(s, dice)])
    print("%d songs, %d excerpts" % (sum(map(len, whole)), sum(map(len, cut))))
    used = []
    for more in LADDER:
        used += [EVIDENCE.index(name) for name in more]
        print("whole: tonic %.3f, tonic and third %.3f, cost %.3f; excerpts: %.3f, %.3f, %.3f: and %s"
              % (*in_folds(whole, cut, used), ", ".join(more)))
    weights = choose([c for cases in whole + cut for c in cases])
    print({name: round(float(w), 3) for name, w in zip(EVIDENCE, weights)})
    write(Path(sys.argv[1]), weights, tables(songs))


def write(path, weights, learned):
    """One line a row of numbers: a name, then thousandths of natural logarithms."""
    chord, step, lifts = learned
    lines = ["# What chords say about the tonic: weights, then thousandths of natural logarithms; major tonics first, then minor.",
             "# Counted and fitted by training/keys.py on the first 300 files by name of the McGill Billboard annotations",
             "# (CC0; J. A. Burgoyne, J. Wild, I. Fujinaga, ISMIR 2011).",
             "weights " + " ".join("%.3f" % w for w in weights)]
    for third, name in enumerate(("major", "minor")):
        for root in range(12):
            lines.append(row(f"chord {name} {root}", chord[third, root]))
        for root in range(12):
            for family in range(FAMILIES):
                lines.append(row(f"step {name} {root} {family}", step[third, root, family].ravel()))
        for place, lift in zip(PLACES, lifts):
            lines.append(row(f"place {name} {place.replace(' ', '-')}", lift[third].ravel()))
    path.write_text("\n".join(lines) + "\n")


def row(name, logs):
    return name + ": " + " ".join(str(int(round(1000 * value))) for value in logs)


if __name__ == "__main__":
    main()
