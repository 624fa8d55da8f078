"""Delays of a clip: who is sent into one, when, at which lag, and how its copies fade."""

import numpy as np

from ear.labels import FRAMES_PER_SECOND, LAG_FRAMES
from ear.notes import BACKING, BUSES, COMP, LEAD, TEXTURE

ECHO_SHARE, FREE_LAG_SHARE = 0.34, 0.2
SENT = {(LEAD,): 50, (COMP,): 18, (TEXTURE,): 18, (BACKING,): 8, (LEAD, BACKING): 6}
# Delays are mostly set to note values, here in beats; common practice, no source.
BEATS = {0.25: 10, 1 / 3: 8, 0.5: 26, 2 / 3: 6, 0.75: 22, 1.0: 18, 1.5: 6, 2.0: 4}
MANNERS = {"throughout": 40, "sections": 22, "ends": 24, "some": 14}
SHORTEST_REST_SECONDS = 0.3
# Order of one row of settings; a lag of 0 means that there is no delay.
SETTINGS = ("lag_seconds", "first_copy", "feedback", "corner_hertz")


def draw(dice, song):
    """{name: array}: ``echo_settings`` [4], ``echo_buses`` [BUSES] of 0 and 1, ``echo_sent`` [frames]: 1 where they are sent in."""
    frames = int(song.clip_seconds * FRAMES_PER_SECOND)
    settings, buses, sent = np.zeros(len(SETTINGS), np.float32), np.zeros(len(BUSES), np.float32), np.zeros(frames, np.uint8)
    playing = {bus for *_, bus, _ in song.sheet.heard}
    able = {group: weight for group, weight in SENT.items() if playing >= set(group)}
    if able and dice.chance(ECHO_SHARE):
        group = dice.weighted(able)
        buses[list(group)] = 1
        settings[:] = (_lag(dice, song.timeline.period), 10 ** (-dice.uniform(1, 14) / 20),
                       0.0 if dice.chance(0.25) else 10 ** (-dice.uniform(2, 12) / 20), dice.log_uniform(1500, 9000))
        for start, end in _stretches(dice, song, group):
            sent[max(0, int(start * FRAMES_PER_SECOND)) : max(0, int(np.ceil(end * FRAMES_PER_SECOND)))] = 1
    return dict(echo_settings=settings, echo_buses=buses, echo_sent=sent)


def _lag(dice, period):
    shortest, longest = LAG_FRAMES[0] / FRAMES_PER_SECOND, LAG_FRAMES[-1] / FRAMES_PER_SECOND
    fitting = {beats: weight for beats, weight in BEATS.items() if shortest <= beats * period <= longest}
    if not fitting or dice.chance(FREE_LAG_SHARE):
        return dice.log_uniform(shortest * 1.05, min(1.2, longest))
    return dice.weighted(fitting) * period


def _stretches(dice, song, group):
    """[(start, end)] in seconds of what is sent into the delay: everything, some sections, ends of phrases or single notes."""
    manner = dice.weighted(MANNERS)
    if manner == "throughout":
        return [(0.0, song.clip_seconds)]
    if manner == "sections":
        kinds = {s.kind for s in song.sections if dice.chance(0.5)} or {song.sections[-1].kind}
        return [(song.timeline.seconds(s.start_beat), song.timeline.seconds(s.end_beat)) for s in song.sections if s.kind in kinds]
    notes = sorted((start, end) for start, end, _, bus, _ in song.sheet.heard if bus in group)
    if manner == "some":
        return [note for note in notes if dice.chance(0.25)]
    following = [start for start, _ in notes[1:]] + [song.clip_seconds + 1]
    return [(start, end) for (start, end), then in zip(notes, following) if then - end > SHORTEST_REST_SECONDS]
