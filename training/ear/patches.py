"""Reads a folder of GF1 patches (``.pat``) as the samples and key zones of a soundfont.

Tones lie in ``Tone_000`` and strokes in ``Drum_000``; a file's name begins with its General MIDI program or key. Only what the
voice kernel plays is read: samples, loops, root pitches, and the envelope as attack, decay, sustain and release. Source of the
format: the patch section of the Gravis "UltraSound Software Development Kit" 2.22 (1994); offsets and the steps of the envelope
from memory, checked by the pitches that come out (test_sound.py).
"""

import struct
from dataclasses import replace
from pathlib import Path

import numpy as np

from ear.soundfont import OVERALL_RMS, PERCUSSION_BANK, Zone, loudest

HEADER = struct.Struct("<12s10s60sBBBHHI36x2s16sIB40xBBIB40x")
SAMPLE = struct.Struct("<7sBIIIHIIIhB6B6B6xBhH36x")
WIDE, UNSIGNED, LOOPING, BOTH_WAYS, BACKWARDS, SUSTAINED, SHAPED = (1 << i for i in range(7))
LONGEST_SECONDS = 6.0
# A full swing of the envelope takes this many seconds at rate 1; its range is 36 dB.
FULL_SWING_SECONDS, ENVELOPE_DECIBELS = 47.4, 36.0
NEPER_DECIBELS = 8.686


class Patches:
    """As ``SoundFont``: ``bank``, ``zones`` and ``presets``."""

    def __init__(self, folder, first_row=0, first_sample=0):
        self._parts, self._length, self._rows, self._first_row = [], first_sample, [], first_row
        self.presets = {}
        for path in sorted(Path(folder).rglob("*.pat")):
            number, zones = int(path.name[:3]), self._read(path.read_bytes())
            if path.parent.name.startswith("Drum"):
                kit = self.presets.setdefault((PERCUSSION_BANK, 0), [])
                kit += [replace(zone, low_key=number, high_key=number) for zone in zones[:1]]
            elif zones:
                self.presets[0, number] = sorted(zones, key=lambda z: (z.low_key, z.row))
        if not self._rows:
            raise ValueError(f"No patch was read below {folder}; a folder with Tone_000 and Drum_000 is wanted.")
        self.bank, self.zones = np.concatenate(self._parts), np.array(self._rows, np.float32)

    def zone(self, preset, key):
        """The zone of ``preset`` that plays ``key``, or the nearest one."""
        return min(self.presets[preset], key=lambda z: max(0, z.low_key - key, key - z.high_key))

    def _read(self, data):
        at, zones = HEADER.size, []
        for _ in range(HEADER.unpack_from(data)[-1]):
            fields = SAMPLE.unpack_from(data, at)
            at += SAMPLE.size
            zones.append(self._zone(fields, data[at : at + fields[2]]))
            at += fields[2]
        return zones

    def _zone(self, fields, raw):
        _, _, _, loop_start, loop_end, rate, low, high, root, _, _, *rest = fields
        rates, offsets, modes = rest[:6], rest[6:12], rest[12]
        width = 2 if modes & WIDE else 1
        samples = np.frombuffer(raw[: len(raw) // width * width], {(2, 0): "<i2", (2, 1): "<u2", (1, 0): "i1", (1, 1): "u1"}[width, int(bool(modes & UNSIGNED))])
        middle = 2.0 ** (8 * width - 1)
        samples = samples.astype(np.float32) / middle - (1 if modes & UNSIGNED else 0)
        samples = samples[::-1] if modes & BACKWARDS else samples
        begin, end, looped = loop_start // width, loop_end // width, bool(modes & LOOPING) and loop_end - loop_start > 8 * width
        if looped:
            samples = samples[:end]
            if modes & BOTH_WAYS:
                samples = np.concatenate([samples, samples[begin:][::-1]])
                end = len(samples)
        else:
            samples = samples[: int(LONGEST_SECONDS * rate)]
        self._parts.append(np.ascontiguousarray(samples))
        self._rows.append((self._length, len(samples), begin if looped else -1, end, rate * 1000 / root, OVERALL_RMS / loudest(samples)))
        self._length += len(samples)
        attack, decay, sustain, release = envelope(rates, offsets) if modes & SHAPED else (0.001, 1.0, 1.0, 0.5)
        keys = [int(round(69 + 12 * np.log2(max(hertz, 8000) / 440_000))) for hertz in (low, high)]
        return Zone(*keys, self._first_row + len(self._rows) - 1, root / 1000, len(samples) / rate, looped, attack, decay,
                    sustain if modes & SUSTAINED else 0.0, release)


def envelope(rates, offsets):
    """(attack, decay, sustain level, release) of six stages; decay and release in seconds for 100 dB, as a soundfont counts them."""
    seconds, before = [], 0
    for rate, offset in zip(rates, offsets):
        speed = (rate & 63) << (3 * (3 - (rate >> 6)))
        seconds.append(abs(offset - before) / 255 * FULL_SWING_SECONDS / max(1, speed))
        before = offset
    fallen = (max(offsets[:2]) - offsets[2]) / 255 * ENVELOPE_DECIBELS
    sustain = 10 ** (-fallen / 20)
    slope = (seconds[1] + seconds[2]) / fallen if fallen > 1 else 1.0
    falling = max(1e-3, (offsets[2] - offsets[5]) / 255 * ENVELOPE_DECIBELS)
    return max(0.001, seconds[0]), 100 * slope, sustain, 100 * sum(seconds[3:]) / falling
