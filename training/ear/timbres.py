"""Random instruments: a row of numbers for the voice kernel and 128 harmonic amplitudes.

Families are rough recipes (a plucked string, a reed, a voice); every call draws another instrument of that family.
"""

from dataclasses import astuple, dataclass, fields

import numpy as np

HARMONICS = 128
NOISE_BANDS = 48
HISS, BREATH = (0, 12), (24, 36)
# First three formants in Hz of nine vowels; rounded averages of the kind given in phonetics textbooks, from memory.
VOWELS = ((730, 1090, 2440), (570, 840, 2410), (300, 870, 2240), (270, 2290, 3010), (530, 1840, 2480),
          (660, 1720, 2410), (440, 1020, 2240), (490, 1350, 1690), (390, 1990, 2550))


@dataclass
class Timbre:
    """One instrument. Field order is that of ``struct Timbre`` in voice.cu."""

    attack: float = 0.005
    sustain: float = 0.0
    release: float = 0.1
    glide_seconds: float = 0.03
    vibrato_hertz: float = 5.5
    vibrato_delay: float = 0.3
    detune: float = 0.0
    detune_mix: float = 0.0
    fade_seconds: float = 0.2
    noise_level: float = 0.0
    noise_decay: float = 0.03
    noise_hold: float = 0.0
    noise_band: float = 30.0
    tremolo_depth: float = 0.0
    tremolo_hertz: float = 5.0
    fm_ratio: float = 0.0
    fm_index: float = 0.0
    fm_decay: float = 0.3
    tone: float = 1.0
    drift_depth: float = 0.0
    drift_hertz: float = 2.0
    cutoff_start: float = 8000.0
    cutoff_end: float = 3000.0
    slope: float = 2.0
    formant_gain: float = 0.0
    formant_scale: float = 1.0
    formant_1: float = 500.0
    formant_2: float = 1500.0
    formant_3: float = 2500.0
    random_phase: float = 0.0


TIMBRE_FIELDS = tuple(f.name for f in fields(Timbre))


@dataclass
class Instrument:
    """A timbre with its harmonics and what a player of it does: decay, glides, vibrato depth."""

    family: str
    timbre: Timbre
    harmonics: np.ndarray
    decay: float = 0.5
    pitch_decay: float = 0.0
    glide: float = 0.0
    vibrato_depth: float = 0.0
    preset: tuple = None
    row: int = -1

    @property
    def sustains(self):
        return self.timbre.sustain > 0.05

    def timbre_row(self):
        return astuple(self.timbre)


def shaped(rng, dice, amplitudes, roughness=(0.1, 0.8)):
    """Normalizes harmonic amplitudes after a random unevenness."""
    row = amplitudes * np.exp(rng.normal(0, dice.uniform(*roughness), HARMONICS))
    return (row / np.sqrt((row**2).sum() + 1e-9)).astype(np.float32)


def band(dice, limits):
    return float(limits[0] + dice.below(limits[1] - limits[0]))


def instrument(dice, family):
    """A random synthesized instrument of ``family``."""
    rng = np.random.Generator(np.random.PCG64(dice.below(1 << 30)))
    k = np.arange(1, HARMONICS + 1)
    timbre, amplitudes, player = RECIPES[family](dice, k, rng)
    timbre.random_phase = float(dice.chance(0.5))
    return Instrument(family, timbre, shaped(rng, dice, amplitudes), **player)


def _comb(dice, k, low, high):
    return np.abs(np.sin(np.pi * k * dice.uniform(low, high)))


def _odd(dice, k, row, chance, rest=0.3):
    return np.where(k % 2 == 1, row, row * dice.uniform(0, rest)) if dice.chance(chance) else row


def _pluck(dice, k, rng):
    t = Timbre(attack=dice.uniform(0.001, 0.008), sustain=dice.uniform(0, 0.08), release=dice.uniform(0.04, 0.35),
               cutoff_start=dice.log_uniform(1500, 9000), cutoff_end=dice.log_uniform(400, 3000),
               fade_seconds=dice.log_uniform(0.03, 0.6), noise_level=dice.pick((0, dice.uniform(0, 0.4))),
               noise_decay=dice.uniform(0.004, 0.03), noise_band=band(dice, (12, 48)), slope=dice.pick((1.0, 2.0, 4.0)))
    if dice.chance(0.3):
        t.detune, t.detune_mix = dice.uniform(0.0005, 0.006), dice.uniform(0.2, 0.9)
    row = k ** -dice.uniform(0.7, 2.0) * (0.15 + _comb(dice, k, 0.05, 0.5))
    return t, row, dict(decay=dice.log_uniform(0.15, 2.5), pitch_decay=dice.uniform(0.2, 0.8))


def _guitar(dice, k, rng):
    t, row, _ = _pluck(dice, k, rng)
    t.sustain, t.release, t.fade_seconds = dice.uniform(0.2, 0.7), dice.uniform(0.03, 0.12), dice.uniform(0.1, 0.8)
    return t, row, dict(decay=dice.uniform(1.5, 5), vibrato_depth=dice.pick((0, dice.uniform(0, 0.01))), glide=dice.uniform(0, 0.2))


def _electric(dice, k, rng):
    t = Timbre(attack=dice.uniform(0.001, 0.01), sustain=dice.pick((0, dice.uniform(0, 0.6))), release=dice.uniform(0.05, 0.5),
               fm_ratio=dice.pick((1, 1, 2, 3, 4, 5, 7, 14, 0.5, 1.41, 3.53)), fm_index=dice.uniform(0.2, 3),
               fm_decay=dice.log_uniform(0.03, 1.5), tremolo_depth=dice.pick((0, 0, dice.uniform(0.1, 0.5))),
               tremolo_hertz=dice.uniform(2, 7))
    overtones = dice.pick((0.0, 0.2))
    return t, np.where(k == 1, 1.0, overtones * k**-2.0), dict(decay=dice.log_uniform(0.2, 2.5))


def _bell(dice, k, rng):
    t = Timbre(attack=0.001, sustain=0, release=dice.uniform(0.2, 0.8), fm_ratio=dice.pick((2.76, 3.5, 1.41, 5.4, 4.0)),
               fm_index=dice.uniform(0.1, 1.5), fm_decay=dice.uniform(0.02, 0.4), noise_level=dice.uniform(0, 0.2),
               noise_decay=0.01, noise_band=band(dice, (12, 36)))
    row = np.where(k == 1, 1.0, 0.0) + (rng.random(HARMONICS) < 0.06) * rng.random(HARMONICS) * 0.6 * (k < 12)
    return t, row, dict(decay=dice.uniform(0.15, 1.5))


def _organ(dice, k, rng):
    t = Timbre(attack=dice.uniform(0.003, 0.03), sustain=1, release=dice.uniform(0.02, 0.12), vibrato_hertz=dice.uniform(4, 7.5),
               vibrato_delay=0.01, tremolo_depth=dice.pick((0, dice.uniform(0.05, 0.4))), tremolo_hertz=dice.uniform(4, 7.5),
               noise_level=dice.pick((0, dice.uniform(0, 0.3))), noise_decay=0.01, cutoff_start=9000, cutoff_end=9000)
    row = np.zeros(HARMONICS)
    for h in (1, 2, 3, 4, 5, 6, 8, 10):
        row[h - 1] = rng.random() * (1 if h < 5 else 0.5)
    row[0] += 0.2
    return t, row, dict(decay=1.0, vibrato_depth=dice.pick((0, dice.uniform(0.001, 0.008))))


def _pad(dice, k, rng):
    t = Timbre(attack=dice.log_uniform(0.02, 0.45), sustain=dice.uniform(0.5, 1), release=dice.log_uniform(0.08, 1.0),
               detune=dice.uniform(0.001, 0.012), detune_mix=dice.uniform(0.3, 1), cutoff_start=dice.log_uniform(700, 9000),
               cutoff_end=dice.log_uniform(500, 8000), fade_seconds=dice.uniform(0.1, 2), vibrato_hertz=dice.uniform(4, 6.5),
               noise_level=dice.pick((0, dice.uniform(0, 0.08))), noise_hold=1, noise_band=band(dice, BREATH))
    if dice.chance(0.25):
        t.formant_gain = dice.uniform(1, 4)
        t.formant_1, t.formant_2, t.formant_3 = dice.pick(VOWELS)
    return t, k ** -dice.uniform(0.7, 2.0), dict(decay=dice.uniform(0.3, 2), vibrato_depth=dice.pick((0, dice.uniform(0, 0.006))))


def _brass(dice, k, rng):
    t = Timbre(attack=dice.uniform(0.004, 0.06), sustain=dice.uniform(0.4, 1), release=dice.uniform(0.03, 0.2),
               cutoff_start=dice.log_uniform(800, 9000), cutoff_end=dice.log_uniform(800, 7000), fade_seconds=dice.uniform(0.02, 0.5),
               detune=dice.pick((0, dice.uniform(0.001, 0.012))), detune_mix=dice.uniform(0, 1), vibrato_hertz=dice.uniform(4, 7),
               vibrato_delay=dice.uniform(0.1, 0.6), noise_level=dice.pick((0, dice.uniform(0, 0.1))), noise_hold=dice.pick((0, 1)),
               noise_band=band(dice, BREATH))
    if dice.chance(0.3):
        t.formant_gain = dice.uniform(0.5, 3)
        t.formant_1, t.formant_2, t.formant_3 = dice.uniform(400, 1500), dice.uniform(1500, 2500), dice.uniform(2500, 4000)
    return t, k ** -dice.uniform(0.7, 2.0), dict(decay=dice.uniform(0.1, 0.8), glide=dice.uniform(0, 0.4),
                                                 vibrato_depth=dice.pick((0, dice.uniform(0, 0.015))))


def _synth(dice, k, rng):
    t, row, player = _brass(dice, k, rng)
    return t, _odd(dice, k, row, 0.4), player


def _wind(dice, k, rng):
    t = Timbre(attack=dice.uniform(0.02, 0.08), sustain=dice.uniform(0.7, 1), release=dice.uniform(0.04, 0.15),
               vibrato_hertz=dice.uniform(4, 6.5), vibrato_delay=dice.uniform(0.1, 0.7), noise_level=dice.uniform(0, 0.25),
               noise_hold=dice.uniform(0.3, 1), noise_decay=0.05, noise_band=band(dice, BREATH), drift_depth=dice.uniform(0, 0.004))
    row = _odd(dice, k, k ** -dice.uniform(1.4, 3.2), 0.35)
    return t, row, dict(glide=dice.uniform(0, 0.4), vibrato_depth=dice.uniform(0, 0.012))


def _string(dice, k, rng):
    t = Timbre(attack=dice.uniform(0.02, 0.12), sustain=dice.uniform(0.7, 1), release=dice.uniform(0.05, 0.2),
               vibrato_hertz=dice.uniform(4.5, 7), vibrato_delay=dice.uniform(0.05, 0.5), formant_gain=dice.uniform(0, 3),
               formant_1=dice.uniform(400, 900), formant_2=dice.uniform(1200, 2200), formant_3=dice.uniform(2500, 4000),
               noise_level=dice.uniform(0, 0.06), noise_hold=1, noise_band=band(dice, BREATH))
    row = k ** -dice.uniform(0.7, 1.3) * (0.3 + _comb(dice, k, 0.06, 0.2))
    return t, row, dict(glide=dice.uniform(0, 0.7), vibrato_depth=dice.uniform(0.001, 0.014))


def _voice(dice, k, rng):
    t = Timbre(attack=dice.uniform(0.015, 0.07), sustain=dice.uniform(0.6, 1), release=dice.uniform(0.03, 0.12),
               vibrato_hertz=dice.uniform(4.3, 7), vibrato_delay=dice.uniform(0.15, 0.7), formant_gain=dice.uniform(2, 6),
               formant_scale=dice.uniform(0.85, 1.25), cutoff_start=dice.uniform(3000, 9000), cutoff_end=dice.uniform(3000, 9000),
               noise_level=dice.uniform(0, 0.25), noise_hold=dice.uniform(0, 0.4), noise_decay=dice.uniform(0.02, 0.06),
               noise_band=band(dice, BREATH), glide_seconds=dice.log_uniform(0.015, 0.12), drift_depth=dice.uniform(0.001, 0.009),
               drift_hertz=dice.uniform(1, 4), fade_seconds=dice.uniform(0.05, 0.4),
               tremolo_depth=dice.pick((0, dice.uniform(0, 0.15))), tremolo_hertz=dice.uniform(4, 7))
    if dice.chance(0.25):
        t.detune, t.detune_mix = dice.uniform(0.001, 0.007), dice.uniform(0.3, 0.9)
    return t, k ** -dice.uniform(0.6, 1.5), dict(decay=0.4, glide=dice.uniform(0.3, 1), vibrato_depth=dice.uniform(0, 0.03))


def _bass(dice, k, rng):
    t = Timbre(attack=dice.uniform(0.002, 0.015), release=dice.uniform(0.03, 0.12), cutoff_start=dice.log_uniform(300, 6000),
               cutoff_end=dice.log_uniform(150, 2000), fade_seconds=dice.uniform(0.02, 0.4),
               noise_level=dice.pick((0, dice.uniform(0, 0.3))), noise_decay=0.01, noise_band=band(dice, (12, 48)),
               detune=dice.pick((0, 0, dice.uniform(0.001, 0.01))), detune_mix=dice.uniform(0.2, 1))
    plucked = dice.chance(0.55)
    t.sustain = dice.uniform(0, 0.5) if plucked else dice.uniform(0.5, 1)
    row = _odd(dice, k, k ** -dice.uniform(0.8, 2.6) * (0.2 + _comb(dice, k, 0.05, 0.5)), 0.2, 0.0)
    if dice.chance(0.12):
        row = np.where(k == 1, 1.0, 0.05 * k**-2.0)
    return t, row, dict(decay=dice.uniform(0.25, 2.5) if plucked else dice.uniform(0.1, 0.6), glide=dice.uniform(0, 0.2))


RECIPES = {"pluck": _pluck, "guitar": _guitar, "electric": _electric, "bell": _bell, "organ": _organ, "pad": _pad,
           "brass": _brass, "synth": _synth, "wind": _wind, "string": _string, "voice": _voice, "bass": _bass}

# General MIDI programs of a soundfont that can stand in for a family.
FAMILY_PROGRAMS = {
    "pluck": (0, 1, 2, 3, 6, 7, 24, 25, 26, 45, 46, 104, 105, 106), "guitar": (24, 25, 26, 27, 28, 29, 30),
    "electric": (4, 5, 11, 12), "bell": (8, 10, 11, 12, 13, 108), "organ": (16, 17, 18, 19, 20, 21, 23),
    "pad": (48, 49, 50, 51, 52, 53, 88, 89, 90, 91, 92, 94, 95), "brass": (56, 57, 58, 59, 60, 61, 62, 63),
    "synth": (80, 81, 82, 83, 85, 86, 87), "wind": (64, 65, 66, 67, 68, 69, 71, 72, 73, 74, 75, 79),
    "string": (40, 41, 42, 44, 48, 49), "voice": (52, 53, 54, 85), "bass": (32, 33, 34, 35, 36, 37, 38, 39),
}


def sampled(dice, family, soundfont):
    """An instrument that plays a preset of ``soundfont`` with that preset's own envelope, a little varied."""
    programs = [p for p in FAMILY_PROGRAMS[family] if (0, p) in soundfont.presets]
    preset = (0, dice.pick(programs))
    zones = soundfont.presets[preset]
    zone = zones[len(zones) // 2]
    t = Timbre(attack=max(0.001, min(0.3, zone.attack * dice.uniform(0.7, 1.4))),
               sustain=max(0.0, min(1.0, zone.sustain)) if zone.looped else 1.0,
               release=max(0.02, min(1.0, zone.release / 11.5 * dice.uniform(0.6, 1.6))), vibrato_hertz=dice.uniform(4, 7),
               vibrato_delay=dice.uniform(0.1, 0.6), detune=dice.pick((0, 0, dice.uniform(0.001, 0.008))),
               detune_mix=dice.uniform(0.2, 1))
    singing = family in ("voice", "string", "wind", "brass", "synth")
    # The format's decay and release fall 100 dB in the given time: 11.5 time constants.
    decay = max(0.1, min(6.0, zone.decay / 11.5))
    return Instrument(family, t, np.eye(1, HARMONICS, dtype=np.float32)[0], decay=decay,
                      glide=dice.uniform(0, 0.3) if singing else 0.0,
                      vibrato_depth=dice.uniform(0, 0.01) if singing else 0.0, preset=preset)
