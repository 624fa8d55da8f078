"""Patches: samples, loops, root pitches and envelopes come out as they were written; the installed set sounds at its pitches."""

import math
import struct
import tempfile
import unittest
from pathlib import Path

import numpy as np

from ear.instruments import Instruments
from ear.patches import BOTH_WAYS, LOOPING, SHAPED, SUSTAINED, WIDE, Patches, envelope

INSTALLED = Path("/usr/share/midi/freepats")    # Debian: freepats
RATE, ROOT_HERTZ = 22050, 220.0
# Range 0 is the fastest: 63 in it is a matter of milliseconds, 63 in range 3 of most of a second.
FAST, SLOW = 63, 3 << 6 | 63


def patch(modes, loop=(1000, 2002)):
    """A file with one sample: a sine of 220 Hz, half a second."""
    data = (np.sin(2 * math.pi * ROOT_HERTZ * np.arange(RATE // 2) / RATE) * 20000).astype("<i2").tobytes()
    head = struct.pack("<12s10s60sBBBHHI36x", b"GF1PATCH110", b"ID#000002", b"", 1, 14, 0, 1, 127, len(data))
    instrument = struct.pack("<2s16sIB40x", b"\0\0", b"sine", len(data), 1)
    layer = struct.pack("<BBIB40x", 0, 0, len(data), 1)
    sample = struct.pack("<7sBIIIHIIIhB6B6B6xBhH36x", b"sine", 0, len(data), loop[0] * 2, loop[1] * 2, RATE, 100_000, 400_000,
                         int(ROOT_HERTZ * 1000), 0, 7, FAST, SLOW, SLOW, FAST, FAST, FAST, 250, 250, 180, 0, 0, 0, modes, 60, 1024)
    return head + instrument + layer + sample + data


def read(modes, folder="Tone_000", name="073_Sine.pat"):
    with tempfile.TemporaryDirectory() as root:
        (Path(root) / folder).mkdir()
        (Path(root) / folder / name).write_bytes(patch(modes))
        return Patches(root, first_row=5, first_sample=300)


class Reading(unittest.TestCase):
    def test_a_tone_keeps_its_root_keys_loop_and_places(self):
        font = read(WIDE | LOOPING | SUSTAINED | SHAPED)
        zone = font.zone((0, 73), 60)
        self.assertEqual((zone.row, zone.root_hertz, zone.looped), (5, ROOT_HERTZ, True))
        # 100 and 400 Hz lie nearest G sharp 2 and G4 of the equal temperament on 440 Hz (ISO 16).
        self.assertEqual((zone.low_key, zone.high_key), (43, 67))
        start, length, loop_start, loop_end, frames_per_cycle, _ = font.zones[0]
        self.assertEqual((start, length, loop_start, loop_end), (300, 2002, 1000, 2002))
        self.assertAlmostEqual(frames_per_cycle, RATE / ROOT_HERTZ, places=3)

    def test_a_loop_that_runs_both_ways_is_written_out(self):
        font = read(WIDE | LOOPING | BOTH_WAYS)
        _, length, loop_start, loop_end, *_ = font.zones[0]
        self.assertEqual((loop_start, loop_end, length), (1000, 3004, 3004))
        self.assertTrue(np.array_equal(font.bank[1000:2002], font.bank[2002:3004][::-1]))

    def test_a_stroke_stands_on_its_own_key(self):
        font = read(WIDE, "Drum_000", "038_Snare.pat")
        self.assertEqual([(z.low_key, z.high_key) for z in font.presets[128, 0]], [(38, 38)])

    def test_the_envelope_falls_to_its_level(self):
        attack, decay, sustain, release = envelope((FAST, SLOW, SLOW, FAST, FAST, FAST), (250, 250, 180, 0, 0, 0))
        self.assertLess(attack, 0.01)
        # 70 of 255 steps of 36 dB.
        self.assertAlmostEqual(20 * math.log10(sustain), -70 / 255 * 36, places=6)
        self.assertGreater(decay, 10 * release)

    def test_a_folder_without_patches_is_refused(self):
        with tempfile.TemporaryDirectory() as empty, self.assertRaisesRegex(ValueError, "No patch was read"):
            Patches(empty)


@unittest.skipUnless(INSTALLED.is_dir(), "freepats is not installed")
class Installed(unittest.TestCase):
    def test_tones_sound_at_the_pitch_of_their_key(self):
        font = Instruments([INSTALLED]).fonts[0]
        for program in (0, 24, 40, 56, 71, 73):
            zone = font.zone((0, program), 67)
            start, length, *_ = font.zones[zone.row]
            frames_per_cycle = font.zones[zone.row][4]
            wave = font.bank[int(start) : int(start + length)][1500:9500]
            # Alike after one cycle, and not after half of one.
            lag = int(round(frames_per_cycle))
            alike = [float(np.corrcoef(wave[:-k], wave[k:])[0, 1]) for k in (lag, lag // 2)]
            self.assertGreater(alike[0], 0.8, program)
            self.assertGreater(alike[0], alike[1] + 0.05, program)


if __name__ == "__main__":
    unittest.main()
