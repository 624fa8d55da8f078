"""Accompaniment: chords held, struck, strummed, galloped or broken, and the riffs and counter-lines beside the lead."""

from dataclasses import dataclass

from ear.bass import draw_pattern, galloping, hire, pattern_onsets, steps_between
from ear.notes import BASS, COMP, TEXTURE

FAMILIES = {"pluck": 36, "guitar": 9, "electric": 11, "organ": 8, "pad": 11, "brass": 3, "synth": 7, "string": 6, "bell": 3,
            "voice": 4, "wind": 2}
SUSTAINING = ("pad", "organ", "string", "voice")


@dataclass
class Part:
    """How one accompanist plays: instrument, pattern and voicing."""

    bus: int
    player: object
    kind: str
    center: float
    pattern: list
    step: float
    order: str
    legato: float
    ring: bool
    spread: float
    dropping: float
    doubled: bool
    left_hand: bool
    heavy: bool


def _hire_part(song, index, heavy, left_hand):
    dice, timeline = song.dice, song.timeline
    heavy = heavy and index != 1
    family = dice.weighted({"guitar": 75, "synth": 15, "pluck": 10}) if heavy else dice.weighted(FAMILIES)
    player = hire(dice, song.sheet, family, 0.25 if heavy else 0.42)
    if family in SUSTAINING:
        kind = dice.weighted({"block": 15, "sustain": 68, "arpeggio": 9, "offbeat": 2, "pulse": 6})
    else:
        kind = dice.weighted({"block": 32, "sustain": 13, "arpeggio": 31, "offbeat": 6, "pulse": 13, "strum": 5})
    step = dice.weighted({1 / 3: 80, 1 / 6: 12, 2 / 3: 8}) if timeline.compound else dice.weighted({0.5: 55, 0.25: 28, 1.0: 12, 1 / 3: 5})
    if heavy:
        kind = dice.weighted({"pulse": 42, "gallop": 0 if timeline.compound else 16, "block": 26, "sustain": 16})
    if kind == "strum":
        step = 1 / 3 if timeline.compound else dice.pick((0.25, 0.5))
    return Part(
        bus=TEXTURE if index == 1 else COMP, player=player, kind=kind, center=dice.uniform(42, 54) if heavy else dice.uniform(51, 70),
        pattern=draw_pattern(dice, timeline.bar_beats, 6 if timeline.compound else 4, dice.uniform(0.3, 0.9)), step=step,
        order=dice.pick(("up", "down", "up-down", "random", "broken")), legato=dice.uniform(0.35, 1.05), ring=dice.chance(0.5),
        spread=dice.uniform(0, 0.03) if family in ("pluck", "guitar") and dice.chance(0.6) else 0.0,
        dropping=dice.uniform(0, 0.4) if dice.chance(0.3) else 0.0, doubled=dice.chance(0.3), left_hand=left_hand, heavy=heavy)


def _voicing(dice, part, chord):
    """Pitches of the chord around the part's center, low to high."""
    if part.heavy:
        low = int(part.center - 7) + (chord.root - int(part.center - 7)) % 12
        intervals = (0, 7) if dice.chance(0.7) and 7 in chord.intervals else chord.intervals
        pitches = [low + v for v in intervals] + ([low + 12] if dice.chance(0.5) else [])
        return sorted(set(pitches))
    pitches = []
    for interval in chord.intervals:
        if len(chord.intervals) > 3 and interval == 7 and dice.chance(0.3):
            continue
        pitch_class = (chord.root + interval) % 12
        pitches.append(int(pitch_class + 12 * round((part.center - pitch_class) / 12 + dice.uniform(-0.45, 0.45))))
    if part.doubled:
        pitches.append(pitches[0] + 12)
    return sorted(set(pitches))


def _onsets(dice, part, timeline, span):
    """[(start beat, end beat)] of the strokes of a part under one chord."""
    start, end = span.start_beat, span.end_beat
    if part.kind == "sustain":
        return [(start, end)]
    if part.kind == "offbeat":
        half = 2 / 3 if timeline.compound else 0.5
        return [(b + half, b + half + 0.4) for b in steps_between(int(start), end, 1) if start <= b + half < end] or [(start, end)]
    if part.kind == "gallop":
        stretch = min(1.0, part.legato)
        return [(b, b + length * stretch) for b, length in galloping(start, end, part.order == "down")] or [(start, end)]
    if part.kind == "pulse":
        return [(b, b + part.step * 0.8) for b in steps_between(start, end, part.step)] or [(start, end)]
    onsets = pattern_onsets(part.pattern, timeline.bar_beats, start, end)
    if (not onsets or onsets[0] > start + 0.01) and dice.chance(0.85):
        onsets = [start] + onsets
    return list(zip(onsets, onsets[1:] + [end]))


def _arpeggio(song, part, span, pitches):
    dice, timeline = song.dice, song.timeline
    sequence = pitches if part.order != "down" else pitches[::-1]
    if part.order == "up-down":
        sequence = pitches + pitches[-2:0:-1]
    if part.order == "broken" and len(pitches) >= 3:
        sequence = [pitches[0], pitches[-1], pitches[1], pitches[-1]]
    end = timeline.seconds(span.end_beat)
    for i, beat in enumerate(steps_between(span.start_beat, span.end_beat, part.step)):
        pitch = sequence[i % len(sequence)] if part.order != "random" else dice.pick(pitches)
        start = timeline.seconds(beat)
        stop = end if part.ring else timeline.seconds(min(span.end_beat, beat + part.step))
        bus = BASS if part.left_hand and pitch == pitches[0] and pitch < 50 else part.bus
        song.sheet.note(bus, song.humanized(start), max(0.06, stop - start), pitch, span.section.energy * dice.uniform(0.6, 1), part.player)


def _accompany(song, part, span):
    dice, timeline, sheet = song.dice, song.timeline, song.sheet
    pitches = _voicing(dice, part, span.chord)
    if part.left_hand:
        low = 36 + (span.chord.bass - 36) % 12
        pitches = [low] + [p for p in pitches if p > low]
    if part.kind == "arpeggio":
        return _arpeggio(song, part, span, pitches)
    for begin, end in _onsets(dice, part, timeline, span):
        start = song.humanized(timeline.seconds(begin))
        stretch = part.legato if part.kind != "sustain" else min(1.0, part.legato + 0.4)
        duration = max(0.06, (timeline.seconds(end) - timeline.seconds(begin)) * stretch)
        velocity, downward = span.section.energy * dice.uniform(0.6, 1), dice.chance(0.75)
        for i, pitch in enumerate(pitches if downward else pitches[::-1]):
            if part.dropping and dice.chance(part.dropping * 0.3):
                continue
            bus = BASS if part.left_hand and pitch == pitches[0] else part.bus
            sheet.note(bus, song.humanized(start + part.spread * i, 0.3), duration, pitch, velocity * dice.uniform(0.85, 1), part.player)


def play(song, heavy):
    """Writes up to three accompanists; in a section without bass the first often takes the bass in the left hand."""
    dice = song.dice
    for index in range(3):
        if not any(s.comps[index] for s in song.sections):
            continue
        left_handed = index == 0 and dice.chance(0.7)
        part, current, parts = _hire_part(song, index, heavy, False), None, {}
        for span in song.spans:
            if span.section is not current:
                current = span.section
                if current.kind in parts:
                    part = parts[current.kind]
                elif dice.chance(0.3):
                    fresh = _hire_part(song, index, heavy, False)
                    fresh.bus, part = part.bus, fresh
                parts[current.kind] = part
                part.left_hand = left_handed and not current.bass
            if current.comps[index] and song.audible(span):
                _accompany(song, part, span)


def play_texture(song):
    """Riffs and counter-lines: short figures of chord and scale notes that repeat; competitors of the lead."""
    dice, timeline = song.dice, song.timeline
    if not any(s.texture for s in song.sections):
        return
    player = hire(dice, song.sheet, dice.weighted({"synth": 22, "guitar": 14, "string": 16, "brass": 12, "pluck": 14, "wind": 10, "bell": 8, "voice": 4}), 0.45)
    center, legato = dice.uniform(52, 82), dice.uniform(0.5, 1)
    pattern = draw_pattern(dice, timeline.bar_beats, 3 if timeline.compound else 4, dice.uniform(0.2, 0.55))
    shape = [dice.below(5) for _ in pattern]
    rest_every = dice.pick((1, 1, 2, 4))
    for span in song.spans:
        if not span.section.texture or not song.audible(span):
            continue
        ladder = sorted(p for p in range(int(center) - 8, int(center) + 14) if p % 12 in span.chord.pitch_classes)
        for beat in pattern_onsets(pattern, timeline.bar_beats, span.start_beat, span.end_beat):
            bar = int(beat // timeline.bar_beats)
            if rest_every > 1 and bar % rest_every == 0:
                continue
            position = int(round((beat % timeline.bar_beats) * 1000))
            index = next((i for i, p in enumerate(pattern) if int(round(p * 1000)) == position), 0)
            following = pattern[index + 1] if index + 1 < len(pattern) else timeline.bar_beats
            start = timeline.seconds(beat)
            duration = (timeline.seconds(beat - pattern[index] + following) - start) * legato
            pitch = ladder[min(len(ladder) - 1, shape[index])]
            song.sheet.note(TEXTURE, song.humanized(start), max(0.06, duration), pitch, dice.uniform(0.6, 1), player)
