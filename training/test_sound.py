"""What the kernel plays is what the labels say: pitches, glides, drum times, chord members; struct layouts agree."""

import math
import re
import tempfile
import unittest

import numpy as np
import torch

from ear import labels
from ear.clip import draw_batch, draw_clip
from ear.dice import Dice
from ear.effects import Mixer
from ear.features import Features
from ear.notes import BACKING, BUSES, COMP, LEAD, NOTE_FIELDS, TEXTURE, NoteSheet, pitch_offsets
from ear.soundfont import ZONE_FIELDS
from ear.supply import heard_lags
from ear.synth import SOURCE, Synthesizer
from ear.timbres import RECIPES, TIMBRE_FIELDS, instrument

SAMPLES = labels.SAMPLE_RATE_HZ
FOLDER = tempfile.TemporaryDirectory()


def render(sheet, seconds, generator_seed=1):
    notes, timbres, harmonics = (torch.from_numpy(a) for a in sheet.arrays())
    synthesizer = Synthesizer("cpu", FOLDER.name, generator=torch.Generator().manual_seed(generator_seed))
    return synthesizer.buses(notes, timbres, harmonics, 1, int(seconds * SAMPLES))[0]


def template_offset(audio, midi, offsets):
    """The offset in semitones whose harmonics hold most magnitude: a coarse pitch meter independent of the features."""
    size = 1 << 16
    spectrum = np.abs(np.fft.rfft(audio * np.hanning(len(audio)), size))
    strength = []
    for offset in offsets:
        hertz = 440 * 2 ** ((midi + offset - 69) / 12)
        bins = [int(round(hertz * h / SAMPLES * size)) for h in range(1, 7)]
        strength.append(sum(spectrum[b - 1 : b + 2].max() * 0.8**i for i, b in enumerate(bins) if b + 2 < len(spectrum)))
    return offsets[int(np.argmax(strength))]


class Layouts(unittest.TestCase):
    def test_structs_of_the_kernel_list_the_same_fields(self):
        source = SOURCE.read_text()
        for name, fields in (("Note", NOTE_FIELDS), ("Timbre", TIMBRE_FIELDS), ("Zone", ZONE_FIELDS)):
            body = re.search(r"struct %s \{\s*float ([^;]*);" % name, source).group(1)
            self.assertEqual(tuple(f.strip() for f in body.split(",")), tuple(fields), name)


class Pitches(unittest.TestCase):
    def test_every_family_sounds_at_its_pitch(self):
        for family in sorted(set(RECIPES) - {"bell"}):
            dice = Dice(11)
            sheet = NoteSheet(dice, 1.0, 0.0)
            player = instrument(dice, family)
            player.timbre.detune = player.timbre.fm_index = player.timbre.drift_depth = 0.0
            sheet.enlist(player)
            sheet.note(COMP, 0.0, 0.9, 60, 1.0, player, vibrato=0.0)
            audio = render(sheet, 1.0).sum(0).numpy()[2000:14000]
            self.assertLess(abs(template_offset(audio, 60, np.arange(-0.9, 0.95, 0.1))), 0.15, family)

    def test_a_glide_moves_the_sound_as_the_label_says(self):
        dice = Dice(3)
        sheet = NoteSheet(dice, 1.5, 0.3)
        player = instrument(dice, "organ")
        player.timbre.glide_seconds = 0.4
        sheet.enlist(player)
        row = sheet.note(LEAD, 0.0, 1.4, 64, 1.0, player, glide=-0.2, vibrato=0.0)
        audio = render(sheet, 1.5).sum(0).numpy()
        for second in (0.15, 0.4, 1.0):
            a = int((second - 0.04) * SAMPLES)
            told = 0.3 + float(pitch_offsets(np.array([second]), row, player.timbre)[0])
            heard = template_offset(audio[a : a + int(0.08 * SAMPLES)], 64, np.arange(-5, 2, 0.05))
            self.assertAlmostEqual(heard, told, delta=0.2, msg=f"at {second} s")

    def test_tuning_shifts_everything(self):
        dice = Dice(4)
        sheet = NoteSheet(dice, 1.0, -0.4)
        player = sheet.enlist(instrument(dice, "organ"))
        sheet.note(COMP, 0.0, 0.9, 57, 1.0, player, vibrato=0.0)
        audio = render(sheet, 1.0).sum(0).numpy()[2000:14000]
        self.assertAlmostEqual(template_offset(audio, 57, np.arange(-0.9, 0.95, 0.05)), -0.4, delta=0.1)


class Delays(unittest.TestCase):
    def test_copies_stand_where_the_settings_say(self):
        # A click through a delay, from its definition: copy n at n lags, first * feedback^(n - 1), each duller than the one before.
        samples = 3 * SAMPLES
        mixer = Mixer("cpu", samples, torch.Generator().manual_seed(3))
        settings = torch.tensor([[0.4, 0.5, 0.5, 20000.0], [0.0, 0.5, 0.5, 20000.0]])
        click = torch.zeros(2, samples)
        click[:, 100] = 1.0
        out = torch.fft.irfft(torch.fft.rfft(click, mixer.length) * mixer.copies(settings), mixer.length)[:, :samples].numpy()
        for copy in (1, 2, 3):
            middle = 100 + int(copy * 0.4 * SAMPLES)
            self.assertAlmostEqual(out[0, middle - 60 : middle + 60].sum(), 0.5**copy, delta=0.02)
        self.assertLess(abs(out[1]).max(), 1e-6)

    def test_only_what_is_sent_in_comes_back(self):
        samples = 4 * SAMPLES
        buses = torch.zeros(1, len(BUSES), samples)
        burst = torch.randn(int(0.2 * SAMPLES), generator=torch.Generator().manual_seed(1))
        for at in (int(0.5 * SAMPLES), int(2.0 * SAMPLES)):
            buses[0, LEAD, at : at + len(burst)] = burst
        sent = torch.zeros(1, 200, dtype=torch.uint8)
        sent[0, 20:40] = 1
        mask = torch.zeros(1, len(BUSES))
        mask[0, LEAD] = 1
        echo = dict(settings=torch.tensor([[0.6, 0.6, 0.0, 8000.0]]), buses=mask, sent=sent)
        room = dict(settings=torch.zeros(1, 6), buses=torch.zeros(1, len(BUSES)), sent=torch.ones(1, 200))
        mixer = Mixer("cpu", samples, torch.Generator().manual_seed(5))
        _, audibility = mixer(buses, torch.zeros(1, len(BUSES)), torch.zeros(1, len(BUSES)), echo, room)
        self.assertGreater(float(audibility[0, 58:62].min()), -6)
        self.assertLess(float(audibility[0, 133:137].max()), -32)
        lags = heard_lags(echo["settings"][:, :1], audibility)[0]
        self.assertLess(float((lags[58:62] - 30).abs().max()), 1e-3)
        self.assertTrue((lags[133:137] == -1).all())

    def test_stretches_that_are_sent_in_hold_notes(self):
        found, manners = 0, set()
        for seed in range(60):
            clip = draw_clip(seed, clip_seconds=12.0)
            lag, first, feedback, corner = clip["echo_settings"]
            if lag == 0:
                self.assertEqual(clip["echo_buses"].sum() + clip["echo_sent"].sum(), 0)
                continue
            found += 1
            manners.add(bool(clip["echo_sent"].all()))
            self.assertTrue(labels.LAG_FRAMES[0] <= lag * labels.FRAMES_PER_SECOND <= labels.LAG_FRAMES[-1])
            self.assertTrue(0 < first < 1 and 0 <= feedback < 1 and corner > 1000)
            self.assertTrue(set(np.flatnonzero(clip["echo_buses"])) & {COMP, LEAD, TEXTURE, BACKING})
        self.assertTrue(10 <= found <= 30, found)
        self.assertEqual(manners, {True, False})


class Rooms(unittest.TestCase):
    SECONDS = (2.0, 1.5, 1.0, 0.6)

    def test_a_room_falls_as_long_as_its_settings_say(self):
        # Source of the measure: ISO 3382-1, backward integration of the squared impulse response, fall from -5 to -25 dB, times three
        # (as remembered). The mean over several rooms of equal settings, since each is one noise.
        mixer = Mixer("cpu", 4 * SAMPLES, torch.Generator().manual_seed(4))
        settings = torch.tensor([[*self.SECONDS, 0.02, 20000.0]]).repeat(6, 1)
        room = mixer.room(settings)
        for (low, high), seconds in zip(labels.ROOM_BANDS_HERTZ, self.SECONDS):
            middle = math.sqrt(low * high)
            narrow = torch.exp(-0.5 * (torch.log2(mixer.hertz.clamp(min=1) / middle) / 0.15).square())   # no edges, so it hardly rings
            power = torch.fft.irfft(room * narrow, mixer.length).roll(SAMPLES // 2, 1)[:, : 4 * SAMPLES].square().double().numpy()
            fall = 10 * np.log10(power[:, ::-1].cumsum(1)[:, ::-1] / power.sum(1, keepdims=True) + 1e-12)
            told = 3 * np.mean([(np.argmax(row < -25) - np.argmax(row < -5)) / SAMPLES for row in fall])
            self.assertAlmostEqual(told / seconds, 1, delta=0.15, msg=f"{low} to {high} Hz")


class WholeClips(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.seconds, cls.clips = 8.0, 10
        batch = draw_batch(400, cls.clips, clip_seconds=cls.seconds)
        cls.labels = batch
        tensors = {name: torch.from_numpy(np.ascontiguousarray(a)) for name, a in batch.items()}
        samples = int(cls.seconds * SAMPLES)
        generator = torch.Generator().manual_seed(2)
        synthesizer = Synthesizer("cpu", FOLDER.name, generator=generator)
        cls.buses = synthesizer.buses(tensors["notes"], tensors["timbres"], tensors["harmonics"], cls.clips, samples)
        echo, room = ({name: tensors[f"{kind}_{name}"] for name in ("settings", "buses", "sent")} for kind in ("echo", "room"))
        cls.mixed, _ = Mixer("cpu", samples, generator)(cls.buses, tensors["gains"], tensors["drive"], echo, room)
        pitched = cls.buses[:, 1:].sum(1)
        cls.tonal, _ = Features()(Features.scale(pitched))

    def test_the_mix_is_finite_and_near_its_level(self):
        self.assertTrue(torch.isfinite(self.mixed).all())
        self.assertLess(float(self.mixed.square().mean(1).sqrt().max()), 0.4)
        self.assertEqual(self.buses.shape[1], len(BUSES))

    def test_chord_members_sound_louder_than_other_pitch_classes(self):
        rows = torch.arange(labels.PITCHES)
        in_tune = self.tonal[:, 1, :, 1::3].numpy()
        # Middle register only; near A4 a tuning off by half a semitone still lies in the neighboring thirds.
        wide = np.maximum(in_tune, np.maximum(self.tonal[:, 1, :, 0::3].numpy(), self.tonal[:, 1, :, 2::3].numpy()))
        energy = np.zeros((*wide.shape[:2], 12))
        for row in rows[20:60].tolist():
            energy[..., (row + labels.LOWEST_PITCH) % 12] += np.expm1(wide[..., row])
        members = self.labels["pitch_classes"] > 0
        told = members.any(-1) & ((members.sum(-1) >= 3))
        inside = (energy * members).sum(-1)[told] / members.sum(-1)[told]
        outside = (energy * ~members).sum(-1)[told] / (~members).sum(-1)[told]
        self.assertGreater((inside > outside).mean(), 0.9)

    def test_held_pitches_hold_energy(self):
        wide = self.tonal[:, 1].numpy().reshape(self.clips, -1, labels.PITCHES, 3).max(-1)
        held = self.labels["note_sustain"] > 0
        median = np.median(wide, axis=-1, keepdims=True)
        self.assertGreater((wide > median)[held].mean(), 0.85)

    def test_strokes_that_stand_alone_are_sudden(self):
        # Twice differentiated: a quiet cymbal over a ringing kick is a rise of the high frequencies only.
        drums = np.diff(self.buses[:, 0].numpy(), 2, axis=-1)
        hits = rises = 0
        for clip in range(self.clips):
            strokes = np.flatnonzero((self.labels["drums"][clip] == 2).any(-1))
            for before_it, frame in zip(strokes, strokes[1:]):
                if 5 < frame < 380 and frame - before_it > 8:
                    middle = frame * labels.HOP_SAMPLES
                    before = np.abs(drums[clip, middle - 1500 : middle - 400]).mean()
                    after = np.abs(drums[clip, middle - 250 : middle + 900]).mean()
                    hits, rises = hits + 1, rises + (after > before)
        self.assertGreater(hits, 20)
        self.assertGreater(rises / hits, 0.9)

    def test_vibrato_formula_has_its_depth(self):
        dice = Dice(9)
        player = instrument(dice, "voice")
        player.timbre.drift_depth, player.timbre.vibrato_delay = 0.0, 0.01
        sheet = NoteSheet(dice, 1.0, 0.0)
        sheet.enlist(player)
        row = sheet.note(LEAD, 0.0, 0.9, 60, 1.0, player, vibrato=0.02)
        offsets = pitch_offsets(np.linspace(0.3, 0.9, 500), row, player.timbre)
        self.assertAlmostEqual(offsets.max(), 12 * math.log2(1.02), delta=0.01)


if __name__ == "__main__":
    unittest.main()
