"""Reads a SoundFont 2 file into one sample bank and key zones for the voice kernel.

Only what the kernel plays is read: samples, loops, root keys, tuning, attenuation and the volume envelope. Source of
the format: "SoundFont Technical Specification" 2.04 (Creative, 2006), sections 5 to 8; field numbers from memory.
"""

import struct
from dataclasses import dataclass

import numpy as np

ZONE_FIELDS = ("start", "length", "loop_start", "loop_end", "frames_per_cycle", "gain")
START_OFFSET, END_OFFSET, LOOP_START_OFFSET, LOOP_END_OFFSET = 0, 1, 2, 3
ATTACK, DECAY, SUSTAIN, RELEASE = 34, 36, 37, 38
INSTRUMENT, KEY_RANGE, VELOCITY_RANGE, ATTENUATION = 41, 43, 44, 48
COARSE_TUNE, FINE_TUNE, SAMPLE, SAMPLE_MODES, ROOT_KEY = 51, 52, 53, 54, 58
OVERALL_RMS = 0.2
PERCUSSION_BANK = 128


@dataclass(frozen=True)
class Zone:
    """One sample over a range of keys; ``row`` is its index in the kernel's zone table."""

    low_key: int
    high_key: int
    row: int
    root_hertz: float
    seconds: float
    looped: bool
    attack: float
    decay: float
    sustain: float
    release: float


class SoundFont:
    """``bank``: float32 samples; ``zones``: float32 [rows, ZONE_FIELDS]; ``presets[bank, program]``: list of Zone.

    ``first_row`` and ``first_sample`` say where zones and samples will lie once several fonts are joined.
    """

    def __init__(self, path, first_row=0, first_sample=0):
        with open(path, "rb") as file:
            chunks = dict(_chunks(file.read()))
        samples = np.frombuffer(chunks[b"smpl"], "<i2").astype(np.float32) / 32768
        self._headers = list(struct.iter_unpack("<20sIIIIIBbHH", chunks[b"shdr"]))[:-1]
        self._bank_parts, self._bank_length, self._sample_starts = [], first_sample, {}
        self._first_row = first_row
        self._samples = samples
        self._rows = []
        self.presets = self._read_presets(chunks)
        self.bank = np.concatenate(self._bank_parts)
        self.zones = np.array(self._rows, np.float32).reshape(-1, len(ZONE_FIELDS))

    def zone(self, preset, key):
        """The zone of ``preset`` that plays ``key``, or the nearest one."""
        zones = self.presets[preset]
        return min(zones, key=lambda z: max(0, z.low_key - key, key - z.high_key))

    def _read_presets(self, chunks):
        headers = list(struct.iter_unpack("<20sHHHIII", chunks[b"phdr"]))
        preset_zones = _zones(chunks[b"pbag"], chunks[b"pgen"])
        instruments = list(struct.iter_unpack("<20sH", chunks[b"inst"]))
        instrument_zones = _zones(chunks[b"ibag"], chunks[b"igen"])
        presets = {}
        for here, following in zip(headers, headers[1:]):
            zones = []
            for outer in preset_zones[here[3] : following[3]]:
                if INSTRUMENT not in outer:
                    continue
                index = outer[INSTRUMENT]
                shared = {}
                for inner in instrument_zones[instruments[index][1] : instruments[index + 1][1]]:
                    if SAMPLE not in inner:
                        shared = inner
                        continue
                    zone = self._zone({**shared, **inner}, outer)
                    if zone:
                        zones.append(zone)
            if zones:
                presets[here[2], here[1]] = sorted(zones, key=lambda z: (z.low_key, z.row))
        return presets

    def _zone(self, generators, outer):
        name, start, end, loop_start, loop_end, rate, original_key, correction, _, kind = self._headers[generators[SAMPLE]]
        if kind & 0x8000 or end - start < 64 or kind == 2:
            return None
        velocity_low, velocity_high = _range(generators.get(VELOCITY_RANGE, 0x7F00))
        if not velocity_low <= 90 <= velocity_high:
            return None
        offset, level = self._sample(generators[SAMPLE], start, end, rate)
        looped = bool(_signed(generators.get(SAMPLE_MODES, 0)) & 1) and loop_end - loop_start > 8
        root = generators.get(ROOT_KEY, original_key)
        root = original_key if root in (-1, 0xFFFF, 255) else root
        cents = 100 * _signed(generators.get(COARSE_TUNE, 0)) + _signed(generators.get(FINE_TUNE, 0)) + correction
        root_hertz = 440.0 * 2 ** ((root - 69 - cents / 100) / 12)
        low, high = _range(generators.get(KEY_RANGE, 0x7F00))
        outer_low, outer_high = _range(outer.get(KEY_RANGE, 0x7F00))
        gain = OVERALL_RMS / level * 10 ** (-min(_signed(generators.get(ATTENUATION, 0)), 120) * 0.4 / 200)
        self._rows.append((offset, end - start, loop_start - start if looped else -1, loop_end - start,
                           rate / root_hertz, gain))
        seconds = {g: 2 ** (_signed(generators.get(g, -12000)) / 1200) for g in (ATTACK, DECAY, RELEASE)}
        sustain = 10 ** (-_signed(generators.get(SUSTAIN, 0)) / 200)
        return Zone(max(low, outer_low), min(high, outer_high), self._first_row + len(self._rows) - 1, root_hertz, (end - start) / rate,
                    looped, seconds[ATTACK], seconds[DECAY], sustain, seconds[RELEASE])

    def _sample(self, index, start, end, rate):
        """Copies a sample into the bank once, without what 22,050 Hz cannot hold; (offset, RMS of its loud part)."""
        if index not in self._sample_starts:
            data = self._samples[start:end]
            if rate > 24000:
                spectrum = np.fft.rfft(data)
                spectrum[int(10500 / rate * len(data)) :] = 0
                data = np.fft.irfft(spectrum, len(data)).astype(np.float32)
            self._sample_starts[index] = (self._bank_length, loudest(data))
            self._bank_parts.append(data)
            self._bank_length += len(data)
        return self._sample_starts[index]


def loudest(samples):
    """RMS of the loudest 256 samples in a row, never 0."""
    blocks = samples[: len(samples) // 256 * 256].reshape(-1, 256) if len(samples) >= 256 else samples[None]
    return float(np.sqrt(np.mean(blocks**2, 1).max())) + 1e-4


def _chunks(data, at=0, end=None):
    end = len(data) if end is None else end
    while at + 8 <= end:
        name, size = data[at : at + 4], struct.unpack_from("<I", data, at + 4)[0]
        if name in (b"RIFF", b"LIST"):
            yield from _chunks(data, at + 12, at + 8 + size)
        else:
            yield name, data[at + 8 : at + 8 + size]
        at += 8 + size + (size & 1)


def _zones(bags, generators):
    """One dictionary {generator: raw amount} per bag."""
    starts = [bag[0] for bag in struct.iter_unpack("<HH", bags)]
    amounts = list(struct.iter_unpack("<HH", generators))
    return [dict(amounts[a:b]) for a, b in zip(starts, starts[1:])]


def _signed(value):
    return value - 65536 if value >= 32768 else value


def _range(value):
    return value & 255, value >> 8
