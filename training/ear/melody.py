"""The lead, its second voice, its doublings, and speech that is no lead."""

from dataclasses import dataclass, replace

from ear.bass import draw_pattern, hire
from ear.drums import Drum
from ear.notes import BACKING, LEAD
from ear.dice import Dice
from ear.theory import COLOR_TONES, SCALES
from ear.timbres import BREATH, HISS, VOWELS, Instrument, Timbre, band, instrument

LEAD_FAMILIES = {"voice": 50, "synth": 9, "brass": 7, "wind": 10, "string": 8, "guitar": 8, "pluck": 7, "electric": 4, "organ": 2, "bell": 3}
ANSWER_FAMILIES = {"synth": 14, "guitar": 20, "string": 16, "brass": 14, "pluck": 14, "wind": 14, "electric": 8, "bell": 5, "voice": 8}
LEAPS = {0: 14, 1: 23, -1: 25, 2: 10, -2: 10, 3: 4, -3: 4, 4: 3, -4: 3, 7: 2, -7: 2}

WORDY_SHARE, SHORTEST_SYLLABLE_SECONDS = 0.45, 0.16
# Voiced consonants (m, n, l, v): the pitch is there, the mouth is nearly shut.
MURMURING_SHARE, SHORTEST_MURMURED_SECONDS = 0.6, 0.18
SECOND_SHARE, LONE_SECOND_SHARE, ANSWER_SHARE, AGAINST_SHARE = 0.6, 0.25, 0.3, 0.25
SHORTEST_REST_BEATS = 1.0


@dataclass
class Sung:
    """One note of a line as planned: beats, seconds and pitch."""

    beat: float
    start: float
    duration: float
    pitch: float
    first: bool    # first of its phrase


@dataclass
class LeadNote:
    """What the labels need of a lead note; ``row`` is the kernel note with its glide and vibrato."""

    start: float
    end: float
    pitch: float
    row: tuple
    timbre: object
    sung: bool


def _ladder(section, center):
    scale = {(section.tonic + s) % 12 for s in SCALES[section.mode]}
    return [p for p in range(int(center) - 13, int(center) + 15) if p % 12 in scale]


def plan(song, center, density, voiced, legato):
    """The notes of a line over all sections that have a lead, phrase by phrase from a few repeated rhythms."""
    dice, timeline = song.dice, song.timeline
    chromatic = dice.uniform(0, 0.06)
    notes, position, seeds = [], None, {}
    for section in song.sections:
        if not section.lead:
            continue
        # A section that returns has the same tune, more often than not.
        seed, returns = song.dice.below(1 << 30), section.kind in seeds
        dice = Dice(seeds.setdefault(section.kind, seed) if song.dice.chance(0.75) else seed)
        position = None if returns else position
        motifs = [draw_pattern(dice, timeline.bar_beats, 3 if timeline.compound else 4, density) for _ in range(2)]
        ladder = _ladder(section, center)
        position = len(ladder) // 2 if position is None else min(position, len(ladder) - 4)
        phrase_bars = dice.pick((1, 2, 2, 4))
        sings, rests_from = True, 1.0
        for index, bar in enumerate(song.bars(section)):
            if index % phrase_bars == 0:
                sings, rests_from = dice.chance(voiced), dice.uniform(0.6, 1.25)
                fresh = True
            if not sings:
                continue
            into = (index % phrase_bars) / phrase_bars
            if fresh and bar > section.start_beat and dice.chance(0.35):
                onsets_before = [bar - (k + 1) * (1 / 3 if timeline.compound else 0.5) for k in range(1 + dice.below(3))][::-1]
            else:
                onsets_before = []
            onsets = onsets_before + [bar + p for p in motifs[int(dice.chance(0.3))]
                      if dice.chance(0.92) and into + p / timeline.bar_beats / phrase_bars < rests_from]
            for i, beat in enumerate(onsets):
                following = onsets[i + 1] if i + 1 < len(onsets) else bar + timeline.bar_beats
                longest = dice.weighted({1.0: 34, 2.0: 38, 4.0: 28})
                end = min(following, beat + longest)
                closing = index % phrase_bars == phrase_bars - 1 and i == len(onsets) - 1
                position = _step(dice, section, ladder, position, closing)
                pitch = _fitted(dice, song, beat, ladder[position], chromatic)
                start, stop = timeline.seconds(beat), timeline.seconds(end)
                if start < song.clip_seconds and stop > -0.5:
                    notes.append(Sung(beat, start, max(0.07, (stop - start) * legato), pitch, fresh))
                    fresh = False
    return notes


def _step(dice, section, ladder, position, closing):
    """The next place on the ladder; phrases like to close on the tonic, and the tone that tells the mode is dwelt on."""
    aim = None
    if closing and dice.chance(0.5):
        aim = dice.weighted({0: 60, SCALES[section.mode][2]: 20, 7: 20})
    elif dice.chance(0.09):
        aim = COLOR_TONES[section.mode]
    if aim is not None:
        near = [i for i in range(max(2, position - 4), min(len(ladder) - 2, position + 5)) if (ladder[i] - section.tonic) % 12 == aim]
        if near:
            return min(near, key=lambda i: abs(i - position))
    position += dice.weighted(LEAPS)
    return position if 2 <= position <= len(ladder) - 3 else 3 + dice.below(len(ladder) - 6)


def _fitted(dice, song, beat, pitch, chromatic):
    """Pulls a scale note onto the chord on strong beats or where it clashes; sometimes off the scale."""
    chord = song.chord_at(beat)
    if chord is not None and len(chord.intervals) > 2:
        members = chord.pitch_classes
        clash = pitch % 12 not in members and ((pitch + 1) % 12 in members or (pitch - 1) % 12 in members)
        if dice.chance(0.6 if beat % 1 < 0.01 else 0.5 if clash else 0.1):
            near = [p for p in range(pitch - 4, pitch + 5) if p % 12 in members]
            if near:
                pitch = min(near, key=lambda p: abs(p - pitch) + 0.1 * dice.uniform(0, 1))
    return pitch + dice.pick((-1, 1)) if dice.chance(chromatic) else pitch


def _worded(dice, notes):
    """Sings some long notes as two to four syllables on one pitch, with a little air between them, as words ask for."""
    out = []
    for note in notes:
        most = int(note.duration / SHORTEST_SYLLABLE_SECONDS)
        count = min(most, 2 + dice.below(3)) if most >= 2 and dice.chance(0.5) else 1
        cuts = [0.0] + [(i + dice.uniform(-0.15, 0.15)) / count for i in range(1, count)] + [1.0]
        for i, (a, b) in enumerate(zip(cuts, cuts[1:])):
            gap = dice.uniform(0.0, 0.05) if i + 1 < count else 0.0
            out.append(replace(note, start=note.start + a * note.duration, duration=(b - a) * note.duration - gap, first=note.first and i == 0))
    return out


def _mouth(dice, sheet):
    """Consonant and breath noises of a singer."""
    noises = []
    for limits in (HISS, (12, 24), BREATH):
        t = Timbre(attack=dice.uniform(0.005, 0.03), sustain=1.0, release=0.03, tone=0.0, noise_level=1.0, noise_hold=1.0, noise_band=band(dice, limits))
        noises.append(sheet.enlist(Instrument("noise", t, instrument(dice, "organ").harmonics)).row)
    return noises


def _hum(dice, sheet, player):
    """The same singer with the mouth shut."""
    t = replace(player.timbre, attack=dice.uniform(0.005, 0.02), cutoff_start=dice.uniform(350, 900), cutoff_end=dice.uniform(350, 900),
                noise_level=0.0, release=0.02, formant_gain=0.0)
    return sheet.enlist(replace(player, timbre=t, preset=None, row=-1))


def _murmur(dice, sheet, hum, bus, start, length, pitch, level):
    """A voiced consonant of a sung note, as the labels need it; no note of its own."""
    row = sheet.note(bus, start, length, pitch, level * dice.uniform(0.15, 0.5), hum, 0.0, 0.0, heard=False)
    return [LeadNote(start, start + length, pitch, row, hum.timbre, True)] if row else []


def sing(song, notes, player, bus, level, mouth, off_tune):
    """Writes planned notes with glides, vibrato, vowels, consonants and breaths; returns their LeadNotes."""
    dice, sheet = song.dice, song.sheet
    vocal = player.family == "voice"
    hum = _hum(dice, sheet, player) if vocal and mouth and player.preset is None and dice.chance(MURMURING_SHARE) else None
    softest = dice.uniform(0.3, 0.65) if vocal else 0.65
    if vocal and mouth and dice.chance(WORDY_SHARE):
        notes = _worded(dice, notes)
    previous, out = None, []
    for i, note in enumerate(notes):
        start = song.humanized(note.start, 1.3)
        room = notes[i + 1].start - start if i + 1 < len(notes) else note.duration
        duration = max(0.06, min(note.duration, room if room > 0.06 else note.duration))
        pitch = note.pitch + (dice.gauss(0, off_tune) if off_tune else 0)
        glide = 0.0
        if player.glide and dice.chance(player.glide):
            if previous is not None and dice.chance(0.5):
                glide = max(-0.3, min(0.4, 2 ** ((previous - pitch) / 12) - 1))
            else:
                glide = 2 ** (-abs(dice.gauss(0, 1.2)) / 12) - 1
        vibrato = player.vibrato_depth * dice.uniform(0.5, 1.3) if duration > 0.2 and dice.chance(0.8) else 0.0
        vowels = (dice.below(len(VOWELS)), dice.below(len(VOWELS))) if vocal else (-1, -1)
        opens = closes = 0.0
        if hum and duration > SHORTEST_MURMURED_SECONDS:
            opens = dice.uniform(0.03, 0.09) if dice.chance(0.4) else 0.0
            closes = dice.uniform(0.04, 0.1) if dice.chance(0.3) else 0.0
        row = sheet.note(bus, start + opens, duration - opens - closes, pitch, level * dice.uniform(softest, 1), player, glide, vibrato, vowels)
        if row is None:
            continue
        if opens:
            out += _murmur(dice, sheet, hum, bus, start, opens, pitch, level)
        if opens or closes:
            sheet.heard[-1] = (start, start + duration, *sheet.heard[-1][2:])
        if vocal and mouth and dice.chance(0.5):
            length = dice.uniform(0.03, 0.11)
            _hush(sheet, bus, start - length, length, dice.uniform(0.05, 0.5) * level, mouth[dice.below(2)])
        if vocal and mouth and note.first and dice.chance(0.5):
            length = dice.uniform(0.15, 0.35)
            _hush(sheet, bus, start - length - 0.1, length, dice.uniform(0.03, 0.2) * level, mouth[2])
        tail = min(duration, player.decay * 2.5) if not player.sustains else duration
        out.append(LeadNote(start + opens, start + tail - closes, pitch, row, player.timbre, vocal))
        if closes:
            out += _murmur(dice, sheet, hum, bus, start + duration - closes, closes, pitch, level)
        previous = pitch
    return out


def _hush(sheet, bus, start, length, level, row):
    sheet.stroke(start, level, Drum(row, 200.0, length / 6), bus=bus)


def play(song):
    """Writes lead, second voice and doublings; returns (lead notes, second-voice notes)."""
    dice, sheet = song.dice, song.sheet
    speech(song)
    if not any(s.lead for s in song.sections):
        return [], []
    lone = not any(s.bass or any(s.comps) for s in song.sections)
    family = "voice" if lone and dice.chance(0.7) else dice.weighted(LEAD_FAMILIES)
    player = hire(dice, sheet, family, 0.12 if family == "voice" else 0.4)
    if family in ("pluck", "bell", "electric"):
        player.decay = max(player.decay, 0.5)
    center = dice.weighted({0: 25, 1: 57, 2: 18})
    center = (dice.uniform(50, 60), dice.uniform(60, 72), dice.uniform(72, 82))[center]
    mouth = _mouth(dice, sheet) if family == "voice" and dice.chance(0.8) else None
    off_tune = dice.uniform(0, 0.18) if family in ("voice", "string", "wind") else 0.0
    notes = plan(song, center, dice.uniform(0.4, 0.9), dice.uniform(0.6, 1.05), dice.uniform(0.78, 1.02))
    lead = sing(song, notes, player, LEAD, 1.0, mouth, off_tune)
    if not lone and dice.chance(ANSWER_SHARE):
        _answer(song, notes, center, family)
    if not lone and dice.chance(AGAINST_SHARE):
        _against(song, notes, center, family)
    second = []
    if dice.chance(LONE_SECOND_SHARE if lone else SECOND_SHARE):
        second = _harmonize(song, notes, player, family, off_tune)
    if dice.chance(0.14):
        shift = dice.pick((0, 0, -12, 12))
        double = hire(dice, sheet, family if dice.chance(0.6) else dice.weighted(LEAD_FAMILIES), 0.3)
        copies = [Sung(n.beat, n.start + dice.uniform(0, 0.02), n.duration, n.pitch + shift, n.first) for n in notes]
        copied = sing(song, copies, double, BACKING, dice.uniform(0.3, 0.6), None, 0.12)
        if shift and not second:
            second = copied
    return lead, second


def _harmonize(song, notes, player, family, off_tune):
    """A line in thirds, sixths or octaves with the lead, in some of its phrases."""
    dice = song.dice
    voice = hire(dice, song.sheet, family if dice.chance(0.75) else "voice", 0.15)
    steps = dice.weighted({-2: 40, 2: 22, -5: 16, 5: 4, -7: 9, -3: 5, -4: 4})
    always, active, line = dice.chance(0.5), True, []
    behind, skipping, leaning = dice.uniform(-0.02, 0.03), dice.pick((0, 0, 0.1)), dice.pick((0, 0.5))
    for note in notes:
        if note.first:
            active = always or dice.chance(0.6)
        section = next((s for s in song.sections if s.start_beat - 1e-6 <= note.beat < s.end_beat), song.sections[-1])
        ladder = _ladder(section, note.pitch)
        if not active or not ladder or dice.chance(skipping):
            continue
        nearest = min(range(len(ladder)), key=lambda i: abs(ladder[i] - note.pitch))
        pitch = ladder[max(0, min(len(ladder) - 1, nearest + steps))] if abs(steps) != 7 else note.pitch + (12 if steps > 0 else -12)
        if dice.chance(leaning) and abs(steps) != 7:
            leant = _fitted(dice, song, note.beat, pitch, 0.0)
            pitch = leant if abs(leant - note.pitch) > 2 else pitch
        line.append(Sung(note.beat, note.start + behind, note.duration, pitch, note.first))
    return sing(song, line, voice, BACKING, dice.uniform(0.7, 1), None, off_tune)


def _answer(song, notes, center, family):
    """Another instrument answers in the rests of the lead: it plays as a lead does, but it is none."""
    dice, timeline = song.dice, song.timeline
    others = {name: weight for name, weight in ANSWER_FAMILIES.items() if name != family}
    player = hire(dice, song.sheet, dice.weighted(others), 0.4)
    keeps, step, figure = dice.uniform(0.4, 1), 1 / 3 if timeline.compound else dice.pick((0.5, 0.5, 0.25)), []
    for _ in range(2 + dice.below(4)):
        figure.append(dice.weighted(LEAPS))
    position, line = None, []
    for before, after in zip(notes, notes[1:]):
        begin = timeline.beat_at(before.start + before.duration) + 1
        if after.beat - begin < SHORTEST_REST_BEATS or not dice.chance(keeps):
            continue
        section = next((s for s in song.sections if s.start_beat - 1e-6 <= begin < s.end_beat), song.sections[-1])
        ladder = _ladder(section, center + dice.pick((-7, 0, 0, 7)))
        position = min(max(2, len(ladder) // 2 + dice.below(5) - 2), len(ladder) - 3)
        for i, leap in enumerate(figure):
            beat = begin + i * step
            if beat + step > after.beat + 1e-6:
                break
            position = min(max(0, position + leap), len(ladder) - 1)
            pitch = _fitted(dice, song, beat, ladder[position], 0.0)
            start, stop = timeline.seconds(beat), timeline.seconds(min(after.beat, beat + step * (1 if i + 1 < len(figure) else 3)))
            line.append(Sung(beat, start, max(0.07, (stop - start) * 0.95), pitch, i == 0))
    return sing(song, line, player, BACKING, dice.uniform(0.6, 1), None, 0.0)


def _against(song, notes, center, family):
    """A line with a rhythm of its own while the lead sounds: longer notes, mostly of the chord, that keep clear of it."""
    dice, timeline = song.dice, song.timeline
    player = hire(dice, song.sheet, family if dice.chance(0.4) else dice.weighted(ANSWER_FAMILIES), 0.3)
    lengths = [dice.pick((1, 1.5, 2, 3, 4)) * (1 / 3 if timeline.compound else 0.5) for _ in range(4 + dice.below(5))]
    about, keeps, line, joins = center + dice.pick((-12, -7, 5, 9, 12)), dice.uniform(0.6, 1), [], {}
    for section in song.sections:
        if not section.lead or not joins.setdefault(section.kind, dice.chance(0.6)):
            continue
        ladder = _ladder(section, about)
        beat, index, position = section.start_beat, 0, len(ladder) // 2
        while beat < section.end_beat - 0.2:
            end = min(section.end_beat, beat + lengths[index % len(lengths)])
            start, stop = timeline.seconds(beat), timeline.seconds(end)
            position = min(max(0, position + dice.weighted(LEAPS)), len(ladder) - 1)
            pitch = _fitted(dice, song, beat, ladder[position], 0.0)
            clear = all(abs(n.pitch - pitch) > 2 for n in notes if n.start < stop and start < n.start + n.duration)
            if clear and dice.chance(keeps) and start < song.clip_seconds and stop > -0.5:
                line.append(Sung(beat, start, max(0.07, (stop - start) * 0.95), pitch, index == 0))
            beat, index = end, index + 1
    return sing(song, line, player, BACKING, dice.uniform(0.6, 1), None, 0.0)


def speech(song):
    """Talking in sections marked for it: quick syllables without a steady pitch, which no label mentions."""
    dice, sheet, timeline = song.dice, song.sheet, song.timeline
    if not any(s.speech and not s.lead for s in song.sections):
        return
    talker = instrument(dice, "voice")
    talker.timbre.glide_seconds = dice.uniform(0.08, 0.2)
    sheet.enlist(talker)
    mouth, center = _mouth(dice, sheet), dice.uniform(43, 58)
    for section in song.sections:
        if section.lead or not section.speech:
            continue
        at, end = max(0.0, timeline.seconds(section.start_beat)), min(song.clip_seconds, timeline.seconds(section.end_beat))
        while at < end - 0.3:
            length = dice.uniform(0.07, 0.22)
            sheet.note(LEAD, at, length, center + dice.gauss(0, 2.5), dice.uniform(0.5, 1), talker, dice.uniform(-0.25, 0.3), 0.0,
                       (dice.below(len(VOWELS)), dice.below(len(VOWELS))), heard=False)
            if dice.chance(0.6):
                _hush(sheet, LEAD, at + length, dice.uniform(0.03, 0.1), dice.uniform(0.1, 0.6), mouth[dice.below(2)])
            at += length + (dice.uniform(0.02, 0.12) if dice.chance(0.85) else dice.uniform(0.3, 0.9))
