"""One random clip from a seed: notes for the voice kernel, mixing parameters, delay, room and frame labels."""

import hashlib
import sys

import numpy as np

from ear import bass, comping, drums, echoes, melody, rooms, timeline
from ear.annotate import Annotator
from ear.dice import Dice
from ear.labels import FRAMES_PER_SECOND, SAMPLE_RATE_HZ
from ear.notes import BASS, BUSES, COMP, DRUMS, LEAD, NOTE_FIELDS, TEXTURE, NoteSheet
from ear.song import Song, draw_chords, draw_sections

CLIP_SECONDS = 48.0
SPARE_SEEDS = 50_000_000_000


def draw_clip(seed, charts=None, soundfonts=None, clip_seconds=CLIP_SECONDS):
    """A dictionary of arrays: notes, timbres, harmonics, gains (dB a bus), drive (a bus), the delay (echoes.draw), the room (rooms.draw) and the labels.

    Equal arguments give equal notes and labels bit for bit.
    """
    dice = Dice(seed)
    grid = timeline.draw(dice, clip_seconds)
    sections = draw_sections(dice, grid, clip_seconds)
    song = Song(dice, grid, clip_seconds, sections)
    song.spans = draw_chords(dice, grid, sections, charts)
    song.jitter = dice.weighted({0.0: 30, 0.004: 40, 0.01: 20, 0.016: 10})
    tuning = 0.0 if dice.chance(0.35) else max(-0.6, min(0.6, dice.gauss(0, 0.2)))
    song.sheet = NoteSheet(dice, clip_seconds, tuning, dice.pick(soundfonts.fonts) if soundfonts and dice.chance(0.85) else None)
    gains, drive = _mix(dice)
    heavy = drive[COMP] > 4 and dice.chance(0.8)
    bass.play(song, heavy)
    comping.play(song, heavy)
    comping.play_texture(song)
    lead, second = melody.play(song)
    if lead:
        gains[TEXTURE] = min(gains[TEXTURE], gains[LEAD] - dice.uniform(2, 9))
    drums.play(song, heavy)
    _stop_time(song)
    _bounded(song, lead, second)
    notes, timbres, harmonics = song.sheet.arrays()
    out = dict(notes=notes, timbres=timbres, harmonics=harmonics, gains=np.array(gains, np.float32),
               drive=np.array(drive, np.float32), **echoes.draw(dice, song), **rooms.draw(dice, song))
    out.update(Annotator(song, int(clip_seconds * FRAMES_PER_SECOND)).all(lead, second))
    return out


def _mix(dice):
    """Gains in dB and drive (0 for clean) of the buses."""
    gains = [dice.gauss(0, 4), dice.gauss(-2, 3.5), dice.gauss(-3, 3.5), dice.gauss(-6, 3.5), dice.gauss(1.5, 3.5), dice.gauss(-4, 3)]
    drive = [0.0] * len(BUSES)
    if dice.chance(0.12):
        drive[BASS] = dice.uniform(1, 6)
    if dice.chance(0.24):
        drive[COMP] = dice.log_uniform(1.5, 25)
    if dice.chance(0.08):
        drive[TEXTURE] = dice.uniform(1, 8)
    if dice.chance(0.12):
        drive[LEAD] = dice.log_uniform(1, 12)
    if dice.chance(0.18):
        gains[DRUMS] += dice.uniform(1, 6)
        gains[COMP] += dice.uniform(0, 4)
        drive[COMP] = dice.log_uniform(3, 30)
    return gains, drive


def _stop_time(song):
    """Now and then everybody rests for a beat or two: notes of that stretch are removed or cut short."""
    dice, grid, sheet = song.dice, song.timeline, song.sheet
    if not dice.chance(0.1):
        return
    bar = grid.bar_beats * (1 + dice.below(max(1, grid.total_beats // grid.bar_beats - 2)))
    start, end = grid.seconds(bar + grid.bar_beats - dice.pick((1, 2, grid.bar_beats))), grid.seconds(bar + grid.bar_beats)
    spare_lead = dice.chance(0.6)

    def silent(bus, begin):
        return start - 0.02 <= begin < end - 0.05 and not (spare_lead and bus >= LEAD)

    rate = SAMPLE_RATE_HZ
    g = {name: i for i, name in enumerate(NOTE_FIELDS)}
    rows = []
    for row in sheet.rows:
        begin, bus = row[g["start"]] / rate, row[g["bus"]]
        if silent(bus, begin):
            continue
        if begin < start and begin * rate + row[g["gate"]] > start * rate and not (spare_lead and bus >= LEAD):
            gate = int(start * rate) - row[g["start"]]
            row = row[: g["gate"]] + (gate, min(row[g["total"]], gate + 2000)) + row[g["total"] + 1 :]
        rows.append(row)
    sheet.rows[:] = rows
    sheet.heard[:] = [(a, b if a >= start or (spare_lead and bus >= LEAD) else min(b, max(a + 0.03, start)), p, bus, who)
                      for a, b, p, bus, who in sheet.heard if not silent(bus, a)]
    sheet.strokes[:] = [(t, k) for t, k in sheet.strokes if not silent(DRUMS, t)]


def _bounded(song, lead, second):
    """Some recordings begin or end inside the clip: notes outside are dropped, the last ones ring on."""
    dice, sheet = song.dice, song.sheet
    if not dice.chance(0.09):
        return
    ends = dice.chance(0.6)
    edge = song.timeline.beats[song.timeline.beat_at(dice.uniform(0.5, 0.95) * song.clip_seconds if ends else dice.uniform(0.03, 0.3) * song.clip_seconds)]
    song.active = (-1e9, edge) if ends else (edge, 1e9)

    def inside(time):
        return song.active[0] - 0.05 <= time < song.active[1] - 0.05

    column = NOTE_FIELDS.index("start")
    sheet.rows[:] = [row for row in sheet.rows if inside(row[column] / SAMPLE_RATE_HZ)]
    sheet.heard[:] = [h for h in sheet.heard if inside(h[0])]
    sheet.strokes[:] = [s for s in sheet.strokes if inside(s[0])]
    lead[:] = [n for n in lead if inside(n.start)]
    second[:] = [n for n in second if inside(n.start)]


def _draw_or_replace(seed, charts, soundfonts, clip_seconds):
    """A clip; one bad seed in a million must not end a long run, so it is named on the error stream and replaced."""
    try:
        return draw_clip(seed, charts, soundfonts, clip_seconds)
    except (ArithmeticError, LookupError, ValueError) as error:
        print(f"Clip of seed {seed} could not be drawn: {error!r}", file=sys.stderr)
        return draw_clip(seed + SPARE_SEEDS, charts, soundfonts, clip_seconds)


def draw_batch(first_seed, count, charts=None, soundfonts=None, clip_seconds=CLIP_SECONDS):
    """``count`` clips with consecutive seeds, labels stacked and notes joined with clip and timbre numbers set."""
    clips = [_draw_or_replace(first_seed + i, charts, soundfonts, clip_seconds) for i in range(count)]
    clip_column, timbre_column = NOTE_FIELDS.index("clip"), NOTE_FIELDS.index("timbre")
    offset = 0
    for i, clip in enumerate(clips):
        clip["notes"][:, clip_column] = i
        clip["notes"][:, timbre_column] += offset
        offset += len(clip["timbres"])
    joined = ("notes", "timbres", "harmonics")
    return {name: np.concatenate([c[name] for c in clips]) if name in joined else np.stack([c[name] for c in clips]) for name in clips[0]}


def digest(clip):
    """A hash of notes and labels, for tests of determinism (rounded to a hundredth; harmonics left out)."""
    sha = hashlib.sha256()
    for name in sorted(clip):
        if name == "harmonics":
            continue
        array = np.asarray(clip[name])
        sha.update(name.encode())
        sha.update(np.round(array.astype(np.float64), 2).tobytes())
    return sha.hexdigest()[:16]
