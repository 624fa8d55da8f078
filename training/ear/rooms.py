"""The room of a clip: how long it rings in every band, who is in it, and how wet each section is."""

import numpy as np

from ear.labels import FRAMES_PER_SECOND
from ear.notes import BASS, BUSES, DRUMS

DRY_SHARE, CHANGING_SHARE = 0.2, 0.5
SHORTEST_DECAY_SECONDS, LONGEST_DECAY_SECONDS = 0.15, 4.5
# Ratio of the other bands' decay to that of 800 to 2500 Hz: lows ring on, air and cloth take the highs; common practice, no source.
LOW_RATIOS, LOW_MIDDLE_RATIOS, HIGH_MIDDLE_RATIOS = (0.6, 1.9), (0.8, 1.4), (0.35, 1.05)
# How much less than the wettest a section may be sent in, in dB.
SECTION_DECIBELS = {0.0: 40, -4.0: 10, -7.0: 14, -11.0: 16, -16.0: 12, -60.0: 8}
# Order of one row of settings; a corner of 0 means that there is no room.
SETTINGS = ("low_seconds", "low_middle_seconds", "middle_seconds", "high_middle_seconds", "before_seconds", "corner_hertz")


def draw(dice, song):
    """{name: array}: ``room_settings`` [6], ``room_buses`` [BUSES]: the gain at which each is sent in, ``room_sent`` [frames]: a gain over time."""
    frames = int(song.clip_seconds * FRAMES_PER_SECOND)
    settings, buses, sent = np.zeros(len(SETTINGS), np.float32), np.zeros(len(BUSES), np.float32), np.ones(frames, np.float32)
    if not dice.chance(DRY_SHARE):
        middle = dice.log_uniform(SHORTEST_DECAY_SECONDS, LONGEST_DECAY_SECONDS) if dice.chance(0.3) else dice.log_uniform(0.4, 3.0)
        ratios = [dice.log_uniform(*LOW_RATIOS), dice.log_uniform(*LOW_MIDDLE_RATIOS), 1.0, dice.log_uniform(*HIGH_MIDDLE_RATIOS)]
        seconds = [min(LONGEST_DECAY_SECONDS, max(SHORTEST_DECAY_SECONDS, middle * ratio)) for ratio in ratios]
        settings[:] = (*seconds, dice.uniform(0, 0.06), dice.log_uniform(2500, 14000))
        level = dice.uniform(-24, 2)
        spared = dice.uniform(0, 16)
        for bus in range(len(BUSES)):
            buses[bus] = 10 ** ((level - dice.uniform(0, 7) - (spared if bus in (DRUMS, BASS) else 0.0)) / 20)
        if dice.chance(CHANGING_SHARE):
            _by_section(dice, song, sent)
    return dict(room_settings=settings, room_buses=buses, room_sent=sent)


def _by_section(dice, song, sent):
    """Every kind of section has a wetness of its own."""
    kinds = {kind: 10 ** (dice.weighted(SECTION_DECIBELS) / 20) for kind in sorted({s.kind for s in song.sections})}
    for section in song.sections:
        start, end = (max(0, round(song.timeline.seconds(beat) * FRAMES_PER_SECOND)) for beat in (section.start_beat, section.end_beat))
        sent[start:end] = kinds[section.kind]
