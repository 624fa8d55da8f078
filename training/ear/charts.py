"""Learns how chords follow each other from hand-made charts that may be used for learning.

Reads the first 300 McGill Billboard files and the first 60 RS200 songs by name (UNDERSONG_DATA) and writes a table of
chord steps for each mode: no song can be read back from it, and it is not committed.

    python3 -m ear.charts OUT.json
"""

import json
import os
import re
import sys
from collections import Counter, defaultdict
from pathlib import Path

BILLBOARD_FILES = 300
ROCK_SONGS = 60
NOTE_NAMES = {"C": 0, "D": 2, "E": 4, "F": 5, "G": 7, "A": 9, "B": 11}
HARTE_KINDS = {
    "maj": "maj", "min": "min", "7": "7", "maj7": "maj7", "min7": "min7", "dim": "dim", "aug": "aug",
    "sus4": "sus4", "sus2": "sus2", "maj6": "maj6", "min6": "min6", "hdim7": "hdim7", "dim7": "dim7",
    "minmaj7": "minmaj7", "9": "9", "maj9": "maj9", "min9": "min9", "11": "7sus4", "13": "9", "5": "5",
    "1": "1", "min11": "min9", "maj13": "maj9", "min13": "min9", "": "maj",
}
HARTE_DEGREES = {"1": 0, "2": 2, "b3": 3, "3": 4, "4": 5, "b5": 6, "5": 7, "#5": 8, "6": 9, "b7": 10, "7": 11,
                 "b2": 1, "#4": 6, "b6": 8, "9": 2}
NUMERALS = {"i": 0, "ii": 2, "iii": 4, "iv": 5, "v": 7, "vi": 9, "vii": 11}


def pitch_class(name):
    return (NOTE_NAMES[name[0]] + name.count("#") - name.count("b")) % 12


def harte(symbol):
    """(root, kind, bass above the root) of a Harte chord, or None for no chord or an unknown one."""
    match = re.fullmatch(r"([A-G][#b]*):([a-z0-9]*)(\([^)]*\))?(?:/([#b]*\d+))?", symbol)
    if not match:
        return None
    note, kind, extra, degree = match.groups()
    if kind == "" and extra == "(1,5)":
        kind = "5"
    if kind not in HARTE_KINDS:
        return None
    kind = HARTE_KINDS[kind]
    if kind == "sus4" and extra and "b7" in extra:
        kind = "7sus4"
    elif kind == "maj" and extra and "9" in extra:
        kind = "add9"
    return pitch_class(note), kind, HARTE_DEGREES.get(degree, 0) if degree else 0


def billboard_song(text):
    """[[root above the tonic, kind, bass above the root, bars]] of one Billboard chart."""
    tonic, steps = 0, []
    for line in text.splitlines():
        if line.startswith("# tonic:"):
            tonic = pitch_class(line.split(":")[1].strip())
        elif "|" in line:
            for bar in re.findall(r"\|([^|]+)(?=\|)", line):
                symbols = [s for s in bar.split() if not s.startswith("(") and s not in ("*", "->")]
                for symbol in symbols:
                    if symbol == "." and steps:
                        steps[-1][3] += 1 / len(symbols)
                        continue
                    chord = harte(symbol)
                    if chord is not None:
                        root, kind, bass = chord
                        steps.append([(root - tonic) % 12, kind, bass, 1 / len(symbols)])
    return steps


def numeral(token):
    """(root above the tonic, kind, bass) of a Roman numeral relative to the major scale, or None."""
    match = re.fullmatch(r"([b#]?)(VII|VI|IV|V|III|II|I|vii|vi|iv|v|iii|ii|i)([xohad]?)([0-9]*)(?:/([b#]?)(\w+))?", token)
    if not match:
        return None
    flat, roman, mark, figures, over_flat, over = match.groups()
    root = NUMERALS[roman.lower()] + {"b": -1, "#": 1, "": 0}[flat]
    if over:
        if over.lower() not in NUMERALS:
            return None
        root += NUMERALS[over.lower()] + {"b": -1, "#": 1, "": 0}[over_flat]
    seventh = "7" in figures or figures in ("65", "43", "42")
    kind = "min" if roman.islower() else "maj"
    kind = {"o": "dim", "x": "dim", "h": "hdim7", "a": "aug"}.get(mark, kind)
    if seventh:
        # The corpus writes the diatonic seventh as a plain 7; a "d" marks the dominant one on I and IV.
        major = "maj7" if roman in ("I", "IV") and mark != "d" and not over else "7"
        kind = {"maj": major, "min": "min7", "dim": "dim7"}.get(kind, kind)
    first = {"6": 1, "65": 1, "64": 2, "43": 2, "42": 3}.get(figures, 0)
    intervals = {0: 0, 1: 3 if kind.startswith(("min", "dim", "hdim")) else 4, 2: 7, 3: 10}
    return root % 12, kind, intervals[first]


def rock_song(text):
    """The same list of steps from an expanded RS200 harmony file (bars stand between strokes)."""
    steps, last = [], None
    for bar in text.split("|"):
        tokens = [t for t in bar.split() if not t.startswith("[")]
        if not tokens and last:
            steps[-1][3] += 1
            continue
        for token in tokens:
            if token == "." and steps:
                steps[-1][3] += 1 / len(tokens)
                continue
            chord = numeral(token)
            if chord:
                last = [*chord, 1 / len(tokens)]
                steps.append(last)
    return steps


def mode_of(steps):
    """The mode a song's chords point to: the tonic's third first, then its characteristic chords."""
    weight = Counter()
    for root, kind, _, bars in steps:
        minor = kind.startswith(("min", "dim", "hdim"))
        weight[root, minor] += bars
    if weight[0, True] > weight[0, False]:
        if weight[5, False] > 2 * (weight[8, False] + weight[5, True]):
            return "dorian"
        if weight[1, False] > weight[10, False] + weight[7, False] + weight[7, True]:
            return "phrygian"
        return "harmonic minor" if weight[7, False] > weight[7, True] + 0.6 * weight[10, False] else "natural minor"
    if weight[10, False] > 1.5 * (weight[7, False] + weight[11, True]) and weight[10, False] > 0:
        return "mixolydian"
    if weight[2, False] > weight[5, False] + weight[2, True] and weight[2, False] > 0:
        return "lydian" if weight[7, False] < weight[2, False] else "major"
    return "major"


def merged(steps):
    """Joins repeats of a chord; lengths become whole bars up to four, or halves and quarters of a bar."""
    out = []
    for step in steps:
        if out and out[-1][:3] == list(step[:3]) and out[-1][3] < 2:
            out[-1][3] += step[3]
        else:
            out.append(list(step))
    for step in out:
        step[3] = min(4, round(step[3])) if step[3] > 0.8 else 0.5 if step[3] > 0.35 else 0.25
    return out


def build(data):
    """{mode: {context: {next step: count}}}; a context is the last two steps, a step is ``root:kind:bass:bars``."""
    billboard = sorted((Path(data) / "mcgill-billboard" / "annotations").glob("*.txt"))[:BILLBOARD_FILES]
    rock = sorted((Path(data) / "rock-corpus-rs200" / "rs200_harmony_exp").glob("*_dt.txt"))[:ROCK_SONGS]
    songs = [billboard_song(p.read_text(errors="replace")) for p in billboard]
    songs += [rock_song(p.read_text(errors="replace")) for p in rock]
    tables = defaultdict(lambda: defaultdict(Counter))
    for steps in songs:
        steps = merged(steps)
        if len(steps) < 8:
            continue
        words = ["%d:%s:%d:%g" % tuple(s) for s in steps]
        table = tables[mode_of(steps)]
        for here, after in zip(["^"] + words, words):
            table[here][after] += 1
        for before, here, after in zip(words, words[1:], words[2:]):
            table[before + " " + here][after] += 1
    return {mode: {context: dict(sorted(nexts.items())) for context, nexts in sorted(table.items())}
            for mode, table in sorted(tables.items())}


if __name__ == "__main__":
    tables = build(os.environ["UNDERSONG_DATA"])
    Path(sys.argv[1]).write_text(json.dumps(tables))
    print({mode: len(table) for mode, table in tables.items()})
