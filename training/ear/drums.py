"""Drum kits, synthesized or sampled, and what drummers play in each meter and style."""

from dataclasses import dataclass

import numpy as np

from ear.labels import DRUMS as DRUM_CLASSES
from ear.soundfont import PERCUSSION_BANK
from ear.timbres import HARMONICS, HISS, Instrument, Timbre, band

# Kick on every beat and snare between them is tapped twice as fast where that is still a usual tempo; common practice, no source.
SLOWEST_DOUBLED_BPM = 100
KICK, SNARE, CYMBAL = range(len(DRUM_CLASSES))
CLASS_OF = {"kick": KICK, "snare": SNARE, "clap": SNARE, "rim": SNARE, "hat": CYMBAL, "open": CYMBAL, "ride": CYMBAL,
            "crash": CYMBAL, "shaker": CYMBAL, "tom1": None, "tom2": None, "tom3": None, "wood": None}
SAMPLE_KEYS = {"kick": (35, 36), "snare": (38, 40), "clap": (39,), "rim": (37,), "hat": (42, 44), "open": (46,),
               "ride": (51, 53, 59), "crash": (49, 57, 55, 52), "shaker": (54, 69, 70, 82), "tom1": (41, 43), "tom2": (45, 47),
               "tom3": (48, 50), "wood": (56, 60, 61, 62, 63, 75, 76, 77)}


@dataclass
class Drum:
    """One drum as the note sheet plays it."""

    row: int
    hertz: float
    decay: float
    glide: float = 0.0
    zone: object = None
    speed: float = 1.0


def _sine():
    row = np.zeros(HARMONICS, np.float32)
    row[0] = 1
    return row


def synthesized(dice, sheet, name):
    u, log = dice.uniform, dice.log_uniform
    hertz, decay, glide = 200.0, u(0.04, 0.12), 0.0
    t = Timbre(attack=0.001, release=0.05, fade_seconds=0.05, random_phase=0.0)
    hat_band = band(dice, (0, 10))
    if name == "kick":
        hertz, decay, glide = u(40, 75), u(0.05, 0.22), u(1, 6)
        t.glide_seconds, t.noise_level, t.noise_decay, t.noise_band = u(0.008, 0.04), u(0, 0.5), u(0.003, 0.015), band(dice, (12, 48))
    elif name == "snare":
        hertz, decay, glide = u(150, 260), u(0.05, 0.16), u(0.1, 0.8)
        t.glide_seconds, t.tone, t.noise_level, t.noise_decay = u(0.01, 0.03), u(0.1, 0.8), u(0.5, 1.5), u(0.05, 0.15)
        t.noise_band = band(dice, (8, 24))
    elif name == "clap":
        t.tone, t.noise_level, t.noise_decay, t.attack, t.noise_band = 0.0, 1.2, u(0.02, 0.1), u(0.001, 0.012), band(dice, (12, 24))
    elif name in ("rim", "wood"):
        hertz, decay, glide = log(350, 1700), u(0.01, 0.05), u(0, 0.2)
        t.tone, t.noise_level, t.noise_decay, t.noise_band = 0.8, u(0.1, 0.6), 0.01, band(dice, (12, 24))
    elif name in ("hat", "shaker"):
        t.tone, decay, t.noise_level, t.noise_decay, t.noise_band = 0.0, u(0.012, 0.06), u(0.3, 1), u(0.05, 0.1), hat_band
        t.attack = 0.001 if name == "hat" else u(0.002, 0.03)
    elif name in ("open", "ride", "crash"):
        decay = {"open": u(0.08, 0.25), "ride": u(0.1, 0.4), "crash": u(0.25, 0.7)}[name]
        hertz, t.tone = u(3000, 6000), u(0, 0.1) if name == "ride" else 0.0
        t.noise_level, t.noise_decay, t.noise_hold, t.noise_band = u(0.3, 1.3), u(0.3, 0.5), u(0.3, 0.5), band(dice, HISS)
    else:
        hertz, decay, glide = u(65, 110) * (1 + 0.35 * int(name[-1])), u(0.08, 0.2), u(0.2, 1)
        t.glide_seconds, t.noise_level, t.noise_decay, t.noise_band = u(0.02, 0.08), u(0, 0.4), 0.02, band(dice, (12, 36))
    row = sheet.enlist(Instrument("drum", t, _sine(), decay=decay)).row
    return Drum(row, hertz, decay, glide)


def draw_kit(dice, sheet):
    """{name: Drum}: a synthesized kit, a sampled one, or a mixture."""
    soundfont = sheet.soundfont
    share = dice.weighted({0.0: 50, 1.0: 35, 0.5: 15}) if soundfont else 0.0
    kit, sample_row, preset = {}, None, None
    if share:
        kits = sorted(p for p in soundfont.presets if p[0] == PERCUSSION_BANK)
        preset = dice.pick(kits) if dice.chance(0.7) else (PERCUSSION_BANK, 0)
        sample_row = sheet.enlist(Instrument("drum", Timbre(attack=0.001, sustain=1.0, release=0.05), _sine())).row
    for name, keys in SAMPLE_KEYS.items():
        if share and dice.chance(share):
            zone = soundfont.zone(preset, dice.pick(keys))
            kit[name] = Drum(sample_row, 0.0, 0.5, zone=zone, speed=dice.uniform(0.85, 1.15))
        else:
            kit[name] = synthesized(dice, sheet, name)
    return kit


@dataclass
class Groove:
    """The pattern of one section: strokes by name as (beat in the bar, velocity, chance)."""

    strokes: list
    time_keeper: str
    step: float
    accent: float
    shift: float = 0.0      # beats by which the time keeper plays behind the beat: half a beat in many dances


def _backbeats(timeline):
    """Where the snare answers; in an uneven bar at the end of every group."""
    if len(timeline.groups) > 1:
        return [a + size - 1 for a, size in zip(timeline.accents, timeline.groups)]
    return {"4/4": (1, 3), "12/8": (1, 3), "3/4": (1, 2), "2/4": (1,), "6/8": (1,)}[timeline.meter]


STYLES = {"rock": 33, "four": 12, "half": 11, "broken": 18, "ballad": 7, "heavy": 9, "percussion": 5, "double": 6, "blast": 4, "train": 3,
          "time only": 4, "rim": 5}
HEAVY_STYLES = {"rock": 24, "heavy": 22, "double": 24, "blast": 12, "half": 10, "broken": 8}
OFF_BEAT_SHARE = {"four": 0.6, "rock": 0.15, "broken": 0.15}


def draw_groove(dice, timeline, heavy=False):
    meter, bar = timeline.meter, timeline.bar_beats
    grid = 1 / timeline.subdivision
    style = dice.weighted(HEAVY_STYLES if heavy else STYLES)
    if style in ("double", "blast") and timeline.period > 60 / SLOWEST_DOUBLED_BPM:
        style = "rock"
    u = dice.uniform
    strokes, snare = [], dice.weighted({"snare": 76, "clap": 14, "rim": 10})
    keeper = dice.weighted({"hat": 56, "ride": 14, "open": 9, "shaker": 8, "": 13})
    step = dice.weighted({1.0: 22, 0.5: 52, 0.25: 26}) if not timeline.compound else dice.weighted({1 / 3: 72, 1.0: 14, 1 / 6: 6, 2 / 3: 8})
    kicks, back = [0.0], list(_backbeats(timeline))
    if style in ("rock", "broken", "rim"):
        if bar == 4 and dice.chance(0.7):
            kicks.append(2.0)
        kicks += [float(a) for a in timeline.accents[1:]]
        chance = 0.16 if style != "broken" else 0.3
        kicks += [i * grid for i in range(1, int(bar / grid)) if dice.chance(chance * (1 if i % 2 == 0 else 0.5))]
    if meter == "3/4":
        back = dice.pick(([1, 2], [2], [1], [1, 2]))
    if style == "four":
        kicks = [float(i) for i in range(bar)]
    elif style in ("half", "ballad"):
        back = [bar / 2] if bar in (4, 2) else [bar - 1]
        kicks += [2.5] if bar == 4 and dice.chance(0.5) and not timeline.compound else []
    elif style == "heavy":
        step_kick = dice.pick((0.25, 0.5)) if not timeline.compound else 1 / 3
        kicks = [i * step_kick for i in range(int(round(bar / step_kick)))]
        back = [bar / 2] if bar == 4 and dice.chance(0.4) else back
        keeper = dice.pick(("crash", "ride", "open"))
    elif style == "double" and not timeline.compound:
        kicks, back = [float(i) for i in range(bar)], [i + 0.5 for i in range(bar)]
    elif style == "blast" and not timeline.compound:
        # The feet run in eighths, the snare with them or between them.
        kicks = [i * 0.5 for i in range(2 * bar)]
        back = list(kicks) if dice.chance(0.4) else [i * 0.5 + 0.25 for i in range(2 * bar)]
        keeper = dice.pick(("crash", "ride", "hat"))
    elif style == "train":
        strokes += [(i * grid, "snare", u(0.2, 0.5) * (1 + (i % 4 == 2)), 0.97) for i in range(int(bar / grid))]
    elif style == "rim":
        snare = "rim"
    elif style == "percussion":
        hits = [i * grid for i in range(int(bar / grid)) if dice.chance(0.45 if i * grid % 1 < 1e-6 else 0.25)] or [0.0]
        strokes += [(h, dice.pick(("wood", "tom1", "tom2", "tom3", "shaker", "clap")), u(0.5, 1), 0.9) for h in hits]
        kicks, back = [], []
    elif style == "time only":
        kicks, back = [], []
    sure = 0.97 if style != "broken" else 0.9
    strokes += [(k, "kick", u(0.8, 1.1), sure) for k in sorted(set(kicks))]
    strokes += [(b, snare, u(0.8, 1.15), 0.98) for b in back]
    if dice.chance(0.25):
        strokes += [(i * grid, "snare", u(0.12, 0.3), 0.5) for i in range(int(bar / grid)) if dice.chance(0.15)]
    off_beat = step == 1.0 and not timeline.compound and dice.chance(OFF_BEAT_SHARE.get(style, 0.0))
    return Groove(strokes, keeper, step, dice.uniform(0.4, 1), 0.5 if off_beat else 0.0)


def play(song, heavy=False):
    """Writes the drums of all sections that have them; ``heavy`` ones beat as loud guitars want it."""
    dice, timeline, sheet = song.dice, song.timeline, song.sheet
    if not any(s.drums for s in song.sections):
        return
    kit = draw_kit(dice, sheet)
    keeper_level, crash, fill = dice.uniform(0.15, 0.75), dice.uniform(0, 0.5), dice.uniform(0, 0.3)
    spread = dice.pick((0.0, 0.003, 0.007))
    groove, grooves = None, {}
    for section in song.sections:
        if section.kind in grooves:
            groove = grooves[section.kind]
        elif groove is None or dice.chance(0.6):
            groove = draw_groove(dice, timeline, heavy)
        grooves[section.kind] = groove
        if not section.drums:
            continue

        def hit(beat, name, velocity):
            time = timeline.seconds(beat) + (dice.gauss(0, spread) if spread else 0)
            sheet.stroke(time, velocity * section.energy * dice.uniform(0.85, 1.1), kit[name], CLASS_OF[name])

        for bar_start in song.bars(section):
            last = bar_start + timeline.bar_beats >= section.end_beat - 1e-6
            filling = dice.chance(0.6 if last and section.end_beat < timeline.total_beats else fill * 0.4)
            quiet_from = timeline.bar_beats - 1 if filling else timeline.bar_beats
            for beat, name, velocity, chance in groove.strokes:
                if beat < quiet_from and dice.chance(chance):
                    hit(bar_start + beat, name, velocity)
            if groove.time_keeper:
                for i in range(int(round(timeline.bar_beats / groove.step))):
                    beat = i * groove.step + groove.shift
                    if dice.chance(0.96):
                        on_beat = beat % 1 < 1e-6
                        hit(bar_start + beat, groove.time_keeper, keeper_level * (1 if on_beat else groove.accent))
            if (bar_start == section.start_beat and dice.chance(0.45)) or dice.chance(crash * 0.25):
                hit(bar_start, "crash", dice.uniform(0.4, 1))
            if filling:
                grid = dice.pick((1, 2)) / timeline.subdivision if not timeline.compound else 1 / 3
                drums = dice.pick((("tom1", "tom2", "tom3", "snare"), ("snare",), ("snare", "kick"), ("tom1", "tom3")))
                for i in range(int(1 / grid)):
                    if dice.chance(0.9):
                        hit(bar_start + quiet_from + i * grid, dice.pick(drums), dice.uniform(0.5, 1))
