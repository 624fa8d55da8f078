"""Scales, chords and what counts as sounding: the musical tables of the generator."""

from dataclasses import dataclass

SCALES = {
    "major": (0, 2, 4, 5, 7, 9, 11),
    "natural minor": (0, 2, 3, 5, 7, 8, 10),
    "harmonic minor": (0, 2, 3, 5, 7, 8, 11),
    "melodic minor": (0, 2, 3, 5, 7, 9, 11),
    "dorian": (0, 2, 3, 5, 7, 9, 10),
    "phrygian": (0, 1, 3, 5, 7, 8, 10),
    "lydian": (0, 2, 4, 6, 7, 9, 11),
    "mixolydian": (0, 2, 4, 5, 7, 9, 10),
}

# The degree (semitones above the tonic) that tells a mode from its neighbors, and the chord that does; common practice, no source.
COLOR_TONES = {"major": 11, "natural minor": 8, "harmonic minor": 11, "melodic minor": 9, "dorian": 9, "phrygian": 1, "lydian": 6,
               "mixolydian": 10}
COLOR_CHORDS = {"dorian": (5, "maj"), "phrygian": (1, "maj"), "lydian": (2, "maj"), "mixolydian": (10, "maj"),
                "harmonic minor": (7, "maj"), "melodic minor": (5, "maj")}

# Chord kind -> (semitones above the root, quality class of labels.QUALITIES).
CHORD_KINDS = {
    "1": ((0,), "1"),
    "5": ((0, 7), "5"),
    "maj": ((0, 4, 7), "maj"),
    "min": ((0, 3, 7), "min"),
    "dim": ((0, 3, 6), "dim"),
    "aug": ((0, 4, 8), "aug"),
    "sus2": ((0, 2, 7), "sus2"),
    "sus4": ((0, 5, 7), "sus4"),
    "maj6": ((0, 4, 7, 9), "maj6"),
    "min6": ((0, 3, 7, 9), "min6"),
    "7": ((0, 4, 7, 10), "7"),
    "maj7": ((0, 4, 7, 11), "maj7"),
    "min7": ((0, 3, 7, 10), "min7"),
    "minmaj7": ((0, 3, 7, 11), "minmaj7"),
    "hdim7": ((0, 3, 6, 10), "hdim7"),
    "dim7": ((0, 3, 6, 9), "dim7"),
    "7sus4": ((0, 5, 7, 10), "7sus4"),
    "add9": ((0, 4, 7, 2), "maj"),
    "minadd9": ((0, 3, 7, 2), "min"),
    "9": ((0, 4, 7, 10, 2), "7"),
    "maj9": ((0, 4, 7, 11, 2), "maj7"),
    "min9": ((0, 3, 7, 10, 2), "min7"),
    "aug7": ((0, 4, 8, 10), "7"),
    "7#9": ((0, 4, 7, 10, 3), "7"),
}

WITHOUT_SEVENTH = {"7": "maj", "maj7": "maj", "maj6": "maj", "min7": "min", "minmaj7": "min",
                   "min6": "min", "hdim7": "dim", "dim7": "dim"}
SEVENTH = {"7": 10, "maj7": 11, "maj6": 9, "min7": 10, "minmaj7": 11, "min6": 9, "hdim7": 10,
           "dim7": 9, "7sus4": 10}


@dataclass(frozen=True)
class Chord:
    """A chord as meant by the composer: pitch classes of root and bass, and a key of CHORD_KINDS."""

    root: int
    kind: str
    bass: int

    @property
    def intervals(self):
        return CHORD_KINDS[self.kind][0]

    @property
    def quality(self):
        return CHORD_KINDS[self.kind][1]

    def moved(self, semitones):
        return Chord((self.root + semitones) % 12, self.kind, (self.bass + semitones) % 12)

    @property
    def pitch_classes(self):
        return [(self.root + i) % 12 for i in self.intervals]


def sounding_quality(chord, sounding):
    """Quality class told by ``sounding``, the set of intervals above the root that are heard."""
    quality, intervals = chord.quality, chord.intervals
    third = next((i for i in (3, 4) if i in intervals[1:3]), None)
    if third is not None and third in sounding:
        seventh = SEVENTH.get(quality)
        return quality if seventh is None or seventh in sounding else WITHOUT_SEVENTH[quality]
    if quality in ("sus4", "7sus4") and 5 in sounding and 7 in sounding:
        return quality if quality == "sus4" or 10 in sounding else "sus4"
    if quality == "sus2" and 2 in sounding and 7 in sounding:
        return quality
    return "5" if 7 in sounding else "1"
