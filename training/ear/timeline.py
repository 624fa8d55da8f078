"""Meter, tempo and the map from beats to seconds."""

from bisect import bisect_right
from dataclasses import dataclass

from ear.labels import METERS

BAR_BEATS = {"2/4": 2, "3/4": 3, "4/4": 4, "5/4": 5, "7/4": 7, "6/8": 2, "12/8": 4}
METER_WEIGHTS = {"4/4": 55, "3/4": 13, "6/8": 10, "12/8": 7, "2/4": 3, "5/4": 7, "7/4": 5}
# How uneven bars divide; common practice, no source.
DIVISIONS = {"5/4": ((3, 2), (3, 2), (2, 3)), "7/4": ((4, 3), (4, 3), (3, 4), (2, 2, 3))}


@dataclass
class Timeline:
    """Beat times in seconds (``beats[0]`` lies before the clip) and how beats are divided."""

    meter: str
    beats: list
    swing: float
    period: float
    groups: tuple = ()      # beats of the groups an uneven bar divides into

    @property
    def bar_beats(self):
        return BAR_BEATS[self.meter]

    @property
    def compound(self):
        return self.meter in ("6/8", "12/8")

    @property
    def subdivision(self):
        """Smallest step of the ordinary grid, as parts of a beat."""
        return 3 if self.compound else 4

    @property
    def accents(self):
        """Beats of the bar on which a group begins."""
        return [sum(self.groups[:i]) for i in range(len(self.groups))]

    @property
    def total_beats(self):
        return len(self.beats) - 1

    def seconds(self, beat):
        """Time of a position in beats, swung eighths included."""
        whole = int(beat) if beat > 0 else 0
        part = beat - whole if beat > 0 else 0.0
        if self.swing != 0.5:
            part = part * 2 * self.swing if part < 0.5 else self.swing + (part - 0.5) * 2 * (1 - self.swing)
        if whole >= len(self.beats) - 1:
            return self.beats[-1] + (beat - len(self.beats) + 1) * self.period
        return self.beats[whole] + part * (self.beats[whole + 1] - self.beats[whole])

    def beat_at(self, seconds):
        return max(0, min(len(self.beats) - 2, bisect_right(self.beats, seconds) - 1))


def draw(dice, clip_seconds):
    """A random timeline that covers the clip with at least one bar before it."""
    meter = dice.weighted(METER_WEIGHTS)
    compound = meter in ("6/8", "12/8")
    bar = BAR_BEATS[meter]
    if compound:
        bpm = dice.uniform(42, 125) if dice.chance(0.8) else dice.uniform(42, 160)
    elif dice.chance(0.55):
        bpm = min(205, max(56, dice.gauss(110, 27)))
    else:
        bpm = dice.log_uniform(52, 205)
    period = 60 / bpm
    drift = dice.weighted({0.0: 50, 0.002: 20, 0.006: 18, 0.015: 12})
    wander, trend = 0.0, dice.gauss(0, 0.0012) if dice.chance(0.12) else 0.0
    change_at = dice.uniform(3, clip_seconds - 3) if dice.chance(0.05) else None
    change_by = dice.pick((0.5, 0.75, 4 / 3, 1.12, 0.9, 1.25, 0.8)) if change_at else 1
    fermata = dice.chance(0.04)
    start = -dice.uniform(0, bar * period) - bar * period
    beats, at, factor = [start], start, 1.0
    while at < clip_seconds + 2 * bar * period:
        if change_at and at > change_at and (len(beats) - 1) % bar == 0:
            factor, change_at = change_by, None
        wander = 0.98 * wander + dice.gauss(0, drift)
        length = period * factor * (1 + wander + trend * len(beats) + dice.gauss(0, drift) * 0.5)
        if fermata and at > 2 and len(beats) % bar == 0 and dice.chance(0.08):
            length *= dice.uniform(1.4, 2.4)
        length = max(0.26, length)
        at += length
        beats.append(at)
    groups = dice.pick(DIVISIONS[meter]) if meter in DIVISIONS else (bar,)
    swing = 0.5 if compound or dice.chance(0.8) else dice.uniform(0.55, 0.69)
    return Timeline(meter, beats, swing, period, groups)


def meter_class(timeline):
    return METERS.index(timeline.meter)
