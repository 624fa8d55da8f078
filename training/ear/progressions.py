"""Chord progressions: diatonic and borrowed chords by mode, or walks over the learned chart tables."""

from ear.theory import CHORD_KINDS, COLOR_CHORDS, SCALES, Chord

# Per mode: (semitones above the tonic, triad) -> weight. Common practice, no source.
MODE_CHORDS = {
    "major": {(0, "maj"): 10, (2, "min"): 4, (4, "min"): 2.6, (5, "maj"): 8, (7, "maj"): 9, (9, "min"): 7, (11, "dim"): 0.5},
    "natural minor": {(0, "min"): 10, (3, "maj"): 5, (5, "min"): 5, (7, "min"): 4, (8, "maj"): 7, (10, "maj"): 8, (2, "dim"): 0.6},
    "harmonic minor": {(0, "min"): 10, (5, "min"): 6, (7, "maj"): 9, (8, "maj"): 5, (2, "dim"): 1.5, (11, "dim"): 1.5, (3, "maj"): 1.5, (3, "aug"): 0.5, (10, "maj"): 1},
    "melodic minor": {(0, "min"): 10, (5, "maj"): 6, (2, "min"): 4, (7, "maj"): 7, (11, "dim"): 0.8, (9, "dim"): 1.5, (3, "aug"): 0.6},
    "dorian": {(0, "min"): 10, (5, "maj"): 8, (10, "maj"): 5, (7, "min"): 4, (2, "min"): 3, (3, "maj"): 3, (9, "dim"): 0.5},
    "phrygian": {(0, "min"): 10, (1, "maj"): 9, (10, "min"): 4, (8, "maj"): 4, (3, "maj"): 3, (5, "min"): 3},
    "lydian": {(0, "maj"): 10, (2, "maj"): 8, (7, "maj"): 5, (11, "min"): 3, (9, "min"): 3, (4, "min"): 2},
    "mixolydian": {(0, "maj"): 10, (10, "maj"): 8, (5, "maj"): 7, (7, "min"): 3.5, (2, "min"): 2.5, (9, "min"): 2},
}
BORROWED = {
    False: {(5, "min"): 2, (10, "maj"): 2, (8, "maj"): 1.5, (3, "maj"): 1.5, (2, "maj"): 2, (4, "maj"): 1.5, (9, "maj"): 1.2,
            (1, "maj"): 0.4, (6, "dim"): 0.5, (8, "dim"): 0.4, (0, "aug"): 0.6, (7, "aug"): 0.4, (7, "min"): 0.8},
    True: {(5, "maj"): 1.5, (1, "maj"): 1.2, (0, "maj"): 1, (2, "maj"): 0.7, (7, "maj"): 2, (9, "dim"): 0.6, (11, "dim"): 0.8,
           (3, "aug"): 0.5, (6, "dim"): 0.4, (2, "min"): 0.5},
}
LOOP_LENGTHS = {2: 12, 3: 5, 4: 50, 5: 2, 6: 8, 8: 23}


class Style:
    """How richly a section's chords are colored: chances of sevenths, inversions, suspensions, open fifths..."""

    def __init__(self, dice):
        self.sevenths = dice.weighted({0.0: 36, 0.15: 22, 0.5: 25, 0.9: 17})
        self.ninths = dice.weighted({0.0: 60, 0.3: 40})
        self.sixths = dice.weighted({0.0: 60, 0.15: 28, 0.35: 12})
        self.inversions = dice.weighted({0.0: 40, 0.12: 32, 0.35: 28})
        self.suspensions = dice.weighted({0.0: 45, 0.07: 38, 0.22: 17})
        self.borrowed = dice.weighted({0.0: 50, 0.08: 35, 0.2: 15})
        self.power = dice.chance(0.07)
        self.bare = dice.weighted({0.0: 80, 0.15: 14, 0.6: 6})
        self.augmented = dice.weighted({0.0: 85, 0.1: 15})


def colored(dice, style, mode, above, triad, tonic):
    """A chord kind for a triad on ``above`` semitones over the tonic."""
    scale = SCALES[mode]
    if style.power and dice.chance(0.85):
        return "5"
    if dice.chance(style.bare):
        return dice.pick(("1", "5"))
    if dice.chance(style.suspensions) and triad in ("maj", "min"):
        kinds = {"sus4": 35, "sus2": 30, "7sus4": 10}
        kinds["add9" if triad == "maj" else "minadd9"] = 20
        return dice.weighted(kinds)
    if dice.chance(style.sevenths):
        minor_seventh = (above + 10) % 12 in scale
        major_seventh = (above + 11) % 12 in scale
        if triad == "maj":
            if dice.chance(style.sixths):
                return "maj6"
            dominant = (minor_seventh and not major_seventh) or above == 7 or above not in scale or dice.chance(0.08)
            if dominant:
                return dice.weighted({"7": 80, "9": 100 * style.ninths / 2, "7#9": 2, "aug7": 2})
            return "maj9" if dice.chance(style.ninths) else "maj7"
        if triad == "min":
            if dice.chance(style.sixths):
                return "min6"
            if above == 0 and mode in ("harmonic minor", "melodic minor") and dice.chance(0.4):
                return "minmaj7"
            return "min9" if dice.chance(style.ninths) else "min7"
        if triad == "dim":
            return "dim7" if mode == "harmonic minor" and above == 11 or not minor_seventh and dice.chance(0.6) else "hdim7"
    if triad == "maj" and dice.chance(style.augmented):
        return "aug"
    return triad


def inverted(dice, style, root, kind):
    """The bass pitch class: mostly the root, sometimes another chord member."""
    intervals = CHORD_KINDS[kind][0]
    if len(intervals) > 2 and dice.chance(style.inversions):
        return (root + dice.weighted({intervals[1]: 50, intervals[2]: 30, intervals[-1]: 14, 2: 6})) % 12
    return root


def free_chord(dice, style, mode, tonic, previous=None):
    """One chord of ``mode`` on ``tonic``, seldom equal to ``previous``."""
    minor = mode in ("natural minor", "harmonic minor", "melodic minor", "dorian", "phrygian")
    for _ in range(4):
        table = BORROWED[minor] if dice.chance(style.borrowed) else MODE_CHORDS[mode]
        above, triad = dice.weighted(table)
        root = (tonic + above) % 12
        kind = colored(dice, style, mode, above, triad, tonic)
        if previous is None or root != previous.root or dice.chance(0.2):
            break
    return Chord(root, kind, inverted(dice, style, root, kind))


def free_loop(dice, style, mode, tonic):
    """A repeating loop of chords that mostly has the tonic, often first, and the chord by which its mode is told."""
    loop = []
    for i in range(dice.weighted(LOOP_LENGTHS)):
        if i == 0 and dice.chance(0.65):
            triad = next(iter(MODE_CHORDS[mode]))[1]
            kind = colored(dice, style, mode, 0, triad, tonic)
            loop.append(Chord(tonic, kind, inverted(dice, style, tonic, kind)))
        else:
            loop.append(free_chord(dice, style, mode, tonic, loop[-1] if loop else None))
    if mode in COLOR_CHORDS and dice.chance(0.9):
        above, triad = COLOR_CHORDS[mode]
        if not any((c.root - tonic) % 12 == above and 4 in c.intervals for c in loop):
            kind = colored(dice, style, mode, above, triad, tonic)
            loop[-1] = Chord((tonic + above) % 12, kind, inverted(dice, style, (tonic + above) % 12, kind))
    if not any(c.root == tonic for c in loop) and dice.chance(0.8):
        kind = colored(dice, style, mode, 0, next(iter(MODE_CHORDS[mode]))[1], tonic)
        loop[0] = Chord(tonic, kind, inverted(dice, style, tonic, kind))
    return loop


def home(mode, tonic):
    """The triad on the tonic."""
    return Chord(tonic, next(iter(MODE_CHORDS[mode]))[1], tonic)


def veiled(dice, loop, tonic):
    """The loop turned so that it does not begin on the tonic, which it keeps once at most where it has other chords."""
    others = [c for c in loop if c.root != tonic]
    homes = [c for c in loop if c.root == tonic][:1]
    if not others:
        return loop
    at = 1 + dice.below(len(others))
    return others[:at] + homes + others[at:]


def shared(old_mode, old_tonic, new_mode, new_tonic):
    """Triads that belong to both keys, in the order of the older key's table."""
    new = {((new_tonic + above) % 12, triad) for above, triad in MODE_CHORDS[new_mode]}
    told = [((old_tonic + above) % 12, triad) for above, triad in MODE_CHORDS[old_mode]]
    return [Chord(root, triad, root) for root, triad in told if (root, triad) in new]


def dominant(dice, tonic):
    root = (tonic + 7) % 12
    return Chord(root, dice.pick(("7", "7", "maj", "7sus4")), root)


def colorful(dice, mode, tonic):
    """Sixteen chords of any kind on scale degrees: rare kinds become common; the mode is left untold."""
    kinds, loop = sorted(CHORD_KINDS), []
    for _ in range(16):
        root, kind = (tonic + dice.pick(SCALES[mode])) % 12, dice.pick(kinds)
        loop.append(Chord(root, kind, root if dice.chance(0.8) else (root + dice.pick(CHORD_KINDS[kind][0])) % 12))
    return loop


def drone(dice, tonic):
    """One or two chords over a long stretch: pedals, vamps and chants."""
    kinds = dice.pick((("5",), ("1",), ("maj", "sus4"), ("min", "sus2"), ("min",), ("7",), ("min7",), ("maj", "maj7")))
    return [Chord(tonic, kind, tonic) for kind in kinds]


def bars_of(dice, loop, timeline, total_beats):
    """[(start beat, end beat, chord)]: lays a loop out with one of several harmonic rhythms."""
    bar_beats = timeline.bar_beats
    half = bar_beats / 2 if bar_beats % 2 == 0 else None
    rhythm = dice.weighted({"bar": 50, "half": 18, "two": 12, "mixed": 16, "beat": 2})
    spans, at, i = [], 0.0, 0 if dice.chance(0.8) else dice.below(len(loop))
    uneven = timeline.groups[0] if len(timeline.groups) > 1 else dice.pick((1, bar_beats - 1)) if bar_beats > 1 else 1
    while at < total_beats - 1e-6:
        if rhythm == "bar" or bar_beats == 1:
            length = bar_beats
        elif rhythm == "half":
            length = half if half else (uneven if at % bar_beats < 1e-6 else bar_beats - at % bar_beats)
        elif rhythm == "two":
            length = 2 * bar_beats
        elif rhythm == "beat":
            length = 1
        else:
            length = dice.pick((bar_beats, half or uneven, 2 * bar_beats, 1))
            into = at % bar_beats
            if into > 1e-6:
                length = min(length, bar_beats - into)
        end = min(at + length, total_beats)
        spans.append((at, end, loop[i % len(loop)]))
        at, i = end, i + 1
    return spans


def chart_walk(dice, table, tonic, bar_beats, total_beats):
    """[(start beat, end beat, chord)] drawn from the learned table of one mode."""
    here = dice.weighted(table["^"]) if dice.chance(0.5) else dice.pick([c for c in table if " " not in c and c != "^"])
    words, at, spans = [], 0.0, []
    while at < total_beats - 1e-6:
        above, kind, bass, bars = here.split(":")
        root = (tonic + int(above)) % 12
        length, into = float(bars) * bar_beats, at % bar_beats
        length = max(1, round(length)) if length < bar_beats else length
        if into > 1e-6:
            length = min(length, bar_beats - into)
        end = min(at + length, total_beats)
        spans.append((at, end, Chord(root, kind, (root + int(bass)) % 12)))
        at = end
        words.append(here)
        context = " ".join(words[-2:])
        choices = table.get(context if dice.chance(0.75) else here) or table.get(here) or table["^"]
        here = dice.weighted(choices)
    return spans
