"""Features against a direct computation with numpy, against arithmetic, and against the committed golden file."""

import json
import unittest
from pathlib import Path

import numpy as np
import torch

import golden
from ear import labels, metrics
from ear.features import Features, triangles
from ear.network import ListeningNetwork

ROOT = Path(__file__).resolve().parent.parent
GOLDEN = ROOT / "app" / "src" / "test" / "resources" / "ear" / "golden.json"
DESCRIPTION = ROOT / "app" / "src" / "main" / "resources" / "undersong" / "ear" / "ear.json"


class FeatureArithmetic(unittest.TestCase):
    def test_silence_is_zero_and_frames_are_counted_by_hops(self):
        tonal, rhythm = Features()(torch.zeros(1, 44100 + 300))
        self.assertEqual(tuple(tonal.shape), (1, 3, 100, 264))
        self.assertEqual(tuple(rhythm.shape), (1, 1, 100, 90))
        self.assertEqual(float(tonal.abs().max() + rhythm.abs().max()), 0.0)

    def test_a_sine_peaks_in_its_bin_at_about_its_amplitude(self):
        t = np.arange(44100) / 22050
        tonal, _ = Features()(torch.from_numpy(0.1 * np.sin(2 * np.pi * 440 * t)).float()[None])
        row = tonal[0, 0, 50]
        # A4 is MIDI 69: bin 3 * (69 - 21) + 1. The Hann main lobe spreads A^2 * 1.5 over the filter.
        self.assertEqual(int(row.argmax()), 145)
        self.assertAlmostEqual(float(row.max()), np.log1p(1000 * 0.1), delta=0.25)

    def test_one_frame_equals_a_direct_computation(self):
        # Reference: numpy's FFT in 64 bits and the formulas of FEATURES.md written out again.
        audio = np.random.default_rng(4).normal(0, 0.1, 30000)
        planes = {16384: (264, 27.5, 36, -1), 8192: (264, 27.5, 36, -1), 4096: (264, 27.5, 36, -1), 2048: (90, 55.0, 12, 0)}
        for window, (count, lowest, per_octave, first) in planes.items():
            padded = np.concatenate([np.zeros(window // 2), audio, np.zeros(window)])
            n = np.arange(window)
            taper = 0.5 - 0.5 * np.cos(2 * np.pi * n / window)
            power = abs(np.fft.rfft(padded[31 * 441 : 31 * 441 + window] * taper)) ** 2 * (4 / window) ** 2
            f, df = np.arange(window // 2 + 1) * 22050 / window, 22050 / window
            expected = []
            for b in range(count):
                c = lowest * 2 ** ((b + first) / per_octave)
                low, high = min(c * 2 ** (-1 / per_octave), c - df), max(c * 2 ** (1 / per_octave), c + df)
                w = np.maximum(0, np.minimum((f - low) / (c - low), (high - f) / (high - c)))
                expected.append(np.log(1 + 1000 * np.sqrt((w * power).sum())))
            found = Features().plane(torch.from_numpy(audio).float()[None], window)[0, 31].numpy()
            self.assertLess(np.abs(found - expected).max(), 1e-3, window)

    def test_triangles_are_at_least_a_bin_wide(self):
        weights = triangles(4096, 27.5, 36, 264, -1)
        self.assertTrue((weights.sum(1) > 0.4).all())


class GoldenFile(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.golden = json.loads(GOLDEN.read_text())

    def test_features_of_the_golden_signal(self):
        audio = golden.signal()
        for i, value in zip(self.golden["signal"]["samplesAt"], self.golden["signal"]["samples"]):
            self.assertAlmostEqual(float(audio[i]), value, places=6)
        tonal, rhythm = Features()(Features.scale(torch.from_numpy(audio)[None]))
        for expected, found in zip(self.golden["features"], golden.feature_values(tonal, rhythm)):
            self.assertEqual((expected["plane"], expected["channel"], expected["frame"]), (found["plane"], found["channel"], found["frame"]))
            self.assertLess(np.abs(np.array(expected["values"]) - found["values"]).max(), 1e-3)

    def test_every_output_has_golden_logits(self):
        told = {row["output"]: len(row["logits"]) for row in self.golden["outputs"]}
        self.assertEqual(told, {**{name: count for name, (count, _) in labels.OUTPUTS.items()}, **dict.fromkeys(labels.PLAYERS, labels.PITCHES)})


class NetworkContract(unittest.TestCase):
    def test_outputs_have_the_names_and_sizes_of_the_contract(self):
        network = ListeningNetwork().eval()
        with torch.no_grad():
            out = network(torch.zeros(2, 3, 40, 264), torch.zeros(2, 1, 40, 90))
        sizes = {name: count for name, (count, _) in labels.OUTPUTS.items()}
        self.assertEqual({name: tuple(v.shape) for name, v in out.items()}, {name: (2, 40, count) for name, count in sizes.items()})
        apart = sum(p.numel() for p in network.players.parameters())
        self.assertLessEqual(sum(p.numel() for p in network.parameters()) - apart, 4_000_000)
        self.assertLessEqual(apart, 150_000)

    def test_the_committed_description_agrees(self):
        description = json.loads(DESCRIPTION.read_text())
        self.assertEqual([(o["name"], o["classes"], o["reading"]) for o in description["outputs"]],
                         [(name, count, kind) for name, (count, kind) in labels.OUTPUTS.items()])


class MetricArithmetic(unittest.TestCase):
    def test_events(self):
        self.assertEqual(list(metrics.event_counts([10, 20, 30], [11, 29, 50], 3)), [2, 3, 3])
        self.assertAlmostEqual(metrics.f_measure([2, 3, 3]), 2 / 3)
        self.assertEqual(list(metrics.peaks(np.array([0, 0.2, 0.9, 0.3, 0, 0, 0, 0.6]), 0.5)), [2, 7])

    def test_key_weights(self):
        # Source: MIREX audio key detection: 1 same, 0.5 perfect fifth, 0.3 relative, 0.2 parallel.
        c_major, g_major, a_minor, c_minor, d_major = 0, 7, 12 + 9, 12, 2
        found = metrics.key_weight(np.array([c_major] * 5), np.array([c_major, g_major, a_minor, c_minor, d_major]))
        self.assertEqual(list(found), [1.0, 0.5, 0.3, 0.2, 0.0])


if __name__ == "__main__":
    unittest.main()
