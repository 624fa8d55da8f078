"""Supplies the trainer with batches: worker processes draw clips, the GPU renders them and computes the features."""

import json
from pathlib import Path

import numpy as np
import torch
from torch.utils.data import DataLoader, IterableDataset, get_worker_info

from ear.clip import CLIP_SECONDS, draw_batch
from ear.effects import Mixer
from ear.features import Features
from ear.labels import FRAMES_PER_SECOND, SAMPLE_RATE_HZ
from ear.instruments import Instruments
from ear.synth import Synthesizer

HELD_OUT_SEED = 2_000_000_000
EXCERPT_GAIN_DECIBELS = 6.0
# Copies above the first level are to be heard, below the second they are not; what lies between is not asked.
HEARD_DECIBELS, UNHEARD_DECIBELS = -20.0, -32.0


class Material:
    """Optional ingredients of the generator: a chart table (ear.charts) and sampled instruments, by path."""

    def __init__(self, charts=None, soundfonts=()):
        self.charts = json.loads(Path(charts).read_text()) if charts else None
        self.soundfonts = Instruments(soundfonts) if soundfonts else None


class ClipStream(IterableDataset):
    """Endless batches of note sheets; batch ``i`` always holds the seeds ``first_seed + i * count`` and following.

    Of the batches from ``start`` on, one of every ``stride`` is drawn: the others belong to other GPUs.
    """

    def __init__(self, material, count, first_seed, start, clip_seconds=CLIP_SECONDS, stride=1):
        super().__init__()
        self.material, self.count, self.first_seed, self.start, self.stride = material, count, first_seed, start, stride
        self.clip_seconds = clip_seconds

    def __iter__(self):
        torch.set_num_threads(1)
        worker = get_worker_info()
        index, stride = (self.start + worker.id * self.stride, worker.num_workers * self.stride) if worker else (self.start, self.stride)
        while True:
            batch = draw_batch(self.first_seed + index * self.count, self.count, self.material.charts, self.material.soundfonts, self.clip_seconds)
            yield {name: torch.from_numpy(np.ascontiguousarray(array)) for name, array in batch.items()}
            index += stride


def heard_lags(lag_seconds, audibility):
    """Lag in frames [clips, frames] where copies are heard, -1 where none are, -2 where it is not asked."""
    lags = (lag_seconds * FRAMES_PER_SECOND).expand_as(audibility)
    doubtful = torch.where(audibility > UNHEARD_DECIBELS, -2.0, -1.0)
    return torch.where(lag_seconds > 0, torch.where(audibility > HEARD_DECIBELS, lags, doubtful), torch.full_like(audibility, -1.0))


def stream(material, count, first_seed=0, start=0, workers=14, clip_seconds=CLIP_SECONDS, stride=1):
    clips = ClipStream(material, count, first_seed, start, clip_seconds, stride)
    options = dict(prefetch_factor=3, pin_memory=True) if workers else {}
    return iter(DataLoader(clips, batch_size=None, num_workers=workers, **options))


class Renderer:
    """Note sheets to features, on one device."""

    def __init__(self, device, folder, material, clip_seconds=CLIP_SECONDS, seed=None, worn=True):
        generator = None if seed is None else torch.Generator(device).manual_seed(seed)
        self.device, self.samples = device, int(clip_seconds * SAMPLE_RATE_HZ)
        self.synthesizer = Synthesizer(device, folder, material.soundfonts, generator)
        self.mixer = Mixer(device, self.samples, generator, worn)
        self.features = Features(device)

    def audio(self, batch):
        """Recordings [clips, samples] scaled to RMS 0.1; frame by frame the lag that is heard (``heard_lags``)."""
        buses = self.synthesizer.buses(batch["notes"], batch["timbres"], batch["harmonics"], len(batch["gains"]), self.samples)
        echo, room = ({name: batch[f"{kind}_{name}"] for name in ("settings", "buses", "sent")} for kind in ("echo", "room"))
        mixed, audibility = self.mixer(buses, batch["gains"], batch["drive"], echo, room)
        return Features.scale(mixed), heard_lags(batch["echo_settings"][:, :1], audibility)

    @torch.no_grad()
    def __call__(self, batch, vary_gain=True):
        """(batch on the device, tonal, rhythm); ``vary_gain`` shifts each clip's level, as an excerpt's may be."""
        batch = {name: tensor.to(self.device, non_blocking=True) for name, tensor in batch.items()}
        audio, batch["echo"] = self.audio(batch)
        if vary_gain:
            decibels = EXCERPT_GAIN_DECIBELS * (2 * self.mixer.random(len(audio), 1) - 1)
            audio = audio * 10 ** (decibels / 20)
        return batch, *self.features(audio)
