"""Bass lines: what a bass player or a left hand does below the chords."""

from ear.notes import BASS
from ear.timbres import instrument, sampled

STYLES = {"hold": 17, "eighths": 20, "beats": 12, "fifths": 11, "pattern": 22, "walking": 7, "octaves": 6, "offbeats": 3, "riff": 6}
HEAVY_STYLES = {"eighths": 42, "gallop": 14, "pattern": 20, "riff": 14, "hold": 10}


def hire(dice, sheet, family, share=0.4):
    """An enlisted instrument of ``family``: sampled with probability ``share`` if a soundfont is at hand."""
    if sheet.soundfont and dice.chance(share):
        return sheet.enlist(sampled(dice, family, sheet.soundfont))
    return sheet.enlist(instrument(dice, family))


def draw_pattern(dice, bar_beats, parts, density):
    """Onsets within a bar, in beats, likelier on strong positions; never empty."""
    onsets = []
    for beat in range(bar_beats):
        for part in range(parts):
            weight = 1.0 if beat == part == 0 else 0.8 if part == 0 else 0.5 if part * 2 == parts else 0.18
            if dice.chance(weight * density):
                onsets.append(beat + part / parts)
    return onsets or [0.0]


def steps_between(start, end, step):
    """Multiples of ``step`` in [start, end)."""
    first = int(start / step - 1e-6) + (1 if start / step - int(start / step) > 1e-6 else 0)
    out, beat = [], first * step
    while beat < end - 1e-6:
        if beat >= start - 1e-6:
            out.append(beat)
        first += 1
        beat = first * step
    return out


def pattern_onsets(pattern, bar_beats, start, end):
    """Onsets of a repeating bar pattern in [start, end), counted from beat 0 of the clip."""
    out = []
    for bar in range(int(start // bar_beats), int(end // bar_beats) + 1):
        out += [bar * bar_beats + p for p in pattern if start - 1e-6 <= bar * bar_beats + p < end - 1e-6]
    return out


def galloping(start, end, reversed_steps=False):
    """[(beat, length)] in [start, end): an eighth and two sixteenths on every beat, or the other way round; common practice in hard rock."""
    steps = ((0, 0.25), (0.25, 0.25), (0.5, 0.5)) if reversed_steps else ((0, 0.5), (0.5, 0.25), (0.75, 0.25))
    return [(beat + at, length) for beat in steps_between(int(start), end, 1) for at, length in steps if start - 1e-6 <= beat + at < end - 1e-6]


def _onsets(style, pattern, timeline, span):
    start, end = span.start_beat, span.end_beat
    if style == "hold":
        return [start]
    if style in ("eighths", "octaves", "offbeats"):
        step = 1 / 3 if timeline.compound else 0.5
        onsets = steps_between(start, end, step)
        if style == "offbeats":
            return [b for b in onsets if b % 1 > 0.01] or [start]
    elif style == "gallop":
        onsets = [beat for beat, _ in galloping(start, end)]
    elif style in ("beats", "fifths", "walking"):
        onsets = steps_between(start, end, 1)
    else:
        onsets = pattern_onsets(pattern, timeline.bar_beats, start, end)
    if not onsets or onsets[0] > start + 0.01:
        onsets = [start] + onsets
    return onsets


def _manner(dice, timeline, heavy):
    """(style, pattern, legato, riff): how a bass player plays one kind of section."""
    style = dice.weighted(HEAVY_STYLES if heavy and not timeline.compound else STYLES)
    pattern = draw_pattern(dice, timeline.bar_beats, 6 if timeline.compound else 4, 0.65)
    if len(timeline.groups) > 1:
        pattern = sorted({*pattern, *map(float, timeline.accents)})
    legato = dice.uniform(0.5, 1.02)
    return style, pattern, legato, [dice.weighted({0: 50, 7: 14, 12: 14, 10: 8, 3: 3, 5: 6, -2: 5}) for _ in pattern]


def play(song, heavy=False):
    """Writes the bass line of all sections that have one; a ``heavy`` one runs with the guitars."""
    dice, timeline, sheet = song.dice, song.timeline, song.sheet
    if not any(s.bass for s in song.sections):
        return
    player = hire(dice, sheet, dice.weighted({"bass": 84, "pluck": 6, "synth": 5, "organ": 3, "electric": 2}))
    lowest = 26 + dice.below(11)
    previous, current, manner, manners = None, None, None, {}
    for span in song.spans:
        if span.section is not current:
            current = span.section
            if current.kind in manners:
                manner = manners[current.kind]
            elif manner is None or dice.chance(0.5):
                manner = _manner(dice, timeline, heavy)
            manners[current.kind] = manner
            style, pattern, legato, riff = manner
        if not current.bass or not song.audible(span):
            continue
        chord = span.chord
        base = lowest + (chord.bass - lowest) % 12
        rooted = chord.bass == chord.root
        fifth = base + 7 if rooted and 7 in chord.intervals else base + 12
        onsets = _onsets(style, pattern, timeline, span)
        for i, beat in enumerate(onsets):
            end = onsets[i + 1] if i + 1 < len(onsets) else span.end_beat
            pitch = base
            if style == "fifths" and i % 2:
                pitch = fifth
            elif style == "octaves" and i % 2:
                pitch = base + 12
            elif style == "walking" and i:
                members = [chord.root + v for v in chord.intervals]
                pitch = base + (dice.pick(members) - base) % 12 if dice.chance(0.6) else base + dice.pick((2, 5, -1, -2, 1, 12))
            elif style == "pattern" and i and dice.chance(0.25):
                pitch = dice.weighted({fifth: 40, base + 12: 25, base: 20, base - 2: 7, base + 2: 8})
            elif style == "riff" and i and rooted and 7 in chord.intervals:
                pitch = base + riff[i % len(riff)]
                if pitch - base == 3 and 4 in chord.intervals:
                    pitch = base
            start, stop = timeline.seconds(beat), timeline.seconds(end)
            glide = 0.0
            if previous is not None and player.glide and dice.chance(player.glide):
                glide = max(-0.4, min(0.6, 2 ** ((previous - pitch) / 12) - 1))
            sheet.note(BASS, song.humanized(start), max(0.06, (stop - start) * legato), pitch, current.energy * dice.uniform(0.7, 1), player, glide)
            previous = pitch
