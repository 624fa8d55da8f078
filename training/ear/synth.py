"""Turns note sheets into audio: wavetables and the voice kernel (voice.cu), on the GPU or on the CPU."""

import ctypes
import math
import subprocess
from pathlib import Path

import torch

from ear.labels import SAMPLE_RATE_HZ
from ear.notes import BUSES, NOISE_LENGTH, NOTE_FIELDS
from ear.timbres import HARMONICS, NOISE_BANDS, TIMBRE_FIELDS, VOWELS

TABLE_SIZE = 1024
HIGHEST_PARTIAL_HZ = 10500
# Width in octaves and weight of the three formants.
FORMANTS = ((0.16, 1.0), (0.13, 0.8), (0.12, 0.5))
SOURCE = Path(__file__).with_name("voice.cu")


def build_kernel(device, folder):
    """Compiles voice.cu for ``device`` into ``folder`` unless it is there already, and loads it."""
    library = Path(folder) / f"voice_{device}.so"
    if not library.exists() or library.stat().st_mtime < SOURCE.stat().st_mtime:
        library.parent.mkdir(parents=True, exist_ok=True)
        if device == "cuda":
            command = ["nvcc", "-O3", "-arch=sm_90", "-use_fast_math", "-shared", "-Xcompiler", "-fPIC", str(SOURCE)]
        else:
            command = ["g++", "-O2", "-x", "c++", "-shared", "-fPIC", str(SOURCE)]
        subprocess.run([*command, "-o", str(library)], check=True)
    loaded = ctypes.CDLL(str(library))
    loaded.render.argtypes = [ctypes.c_void_p] * 8 + [ctypes.c_int] * 3 + [ctypes.c_float, ctypes.c_void_p]
    return loaded


class Synthesizer:
    """Renders batches of notes into buses [clips, buses, samples]."""

    def __init__(self, device, folder, soundfonts=None, generator=None):
        self.device = device
        self.kernel = build_kernel(device, folder)
        self.generator = generator
        zones = torch.zeros(1, 6) if soundfonts is None else torch.from_numpy(soundfonts.zones)
        bank = torch.zeros(8) if soundfonts is None else torch.from_numpy(soundfonts.bank)
        self.zones, self.bank = zones.to(device).contiguous(), bank.to(device).contiguous()
        self.vowels = torch.tensor(VOWELS, dtype=torch.float32, device=device)
        self.noise_hertz = torch.fft.rfftfreq(NOISE_LENGTH, 1 / SAMPLE_RATE_HZ).to(device).clamp(min=1.0)

    def random(self, *shape):
        return torch.rand(*shape, device=self.device, generator=self.generator)

    def normal(self, *shape):
        return torch.randn(*shape, device=self.device, generator=self.generator)

    def noises(self):
        """A bank of filtered noises [NOISE_BANDS, NOISE_LENGTH]: hisses, snares, breaths, knocks (12 each)."""
        low, high = self.random(NOISE_BANDS, 1), self.random(NOISE_BANDS, 1)
        i = torch.arange(NOISE_BANDS, device=self.device)[:, None]
        where = torch.where
        low = where(i < 12, 3000 + 5000 * low, where(i < 24, 150 + 1200 * low, where(i < 36, 600 + 2000 * low, 40 + 100 * low)))
        high = where(i < 12, 7000 + 4000 * high, where(i < 24, 2500 + 8000 * high, where(i < 36, 3000 + 7000 * high, 300 + 3000 * high)))
        slope = 1 + 3 * self.random(NOISE_BANDS, 1)
        gain = (1 + (low / self.noise_hertz) ** (2 * slope)).rsqrt() * (1 + (self.noise_hertz / high) ** (2 * slope)).rsqrt()
        noise = torch.fft.irfft(torch.fft.rfft(self.normal(NOISE_BANDS, NOISE_LENGTH)) * gain, NOISE_LENGTH)
        return (noise / noise.pow(2).mean(1, keepdim=True).sqrt()).contiguous()

    def tables(self, notes, timbres, harmonics):
        """Two wavetables per note [N, TABLE_SIZE]: its bright beginning and its dull end, formants applied."""
        column = {name: i for i, name in enumerate(NOTE_FIELDS)}
        field = {name: i for i, name in enumerate(TIMBRE_FIELDS)}
        rows = notes[:, column["timbre"]].long()
        timbre = timbres[rows]
        hertz = notes[:, column["hertz"], None]
        partials = hertz * torch.arange(1, HARMONICS + 1, device=self.device)
        brightness = notes[:, column["brightness"], None]
        phases = (self.random(len(timbres), HARMONICS) * timbres[:, field["random_phase"], None])[rows] * 2 * math.pi
        fixed = timbre[:, [field["formant_1"], field["formant_2"], field["formant_3"]]]
        gain, slope = timbre[:, field["formant_gain"], None], timbre[:, field["slope"], None]
        out = []
        for cutoff, floor, vowel in (("cutoff_start", 1.3, "vowel_from"), ("cutoff_end", 1.1, "vowel_to")):
            cut = torch.maximum(timbre[:, field[cutoff], None] * brightness, floor * hertz)
            amplitude = harmonics[rows] * (1 + (partials / cut) ** (2 * slope)).rsqrt()
            chosen = notes[:, column[vowel]].long()
            centers = torch.where(chosen[:, None] >= 0, self.vowels[chosen.clamp(min=0)], fixed) * timbre[:, field["formant_scale"], None]
            bump = torch.zeros_like(amplitude)
            for i, (width, weight) in enumerate(FORMANTS):
                bump += weight * torch.exp(-0.25 * (torch.log2(partials / centers[:, i : i + 1]) / width).square())
            amplitude = torch.where(gain > 0, amplitude * (0.12 + gain * bump), amplitude) * (partials < HIGHEST_PARTIAL_HZ)
            amplitude = amplitude / (amplitude.square().sum(1, keepdim=True) * 0.5 + 1e-6).sqrt()
            spectrum = torch.zeros(len(notes), TABLE_SIZE // 2 + 1, dtype=torch.complex64, device=self.device)
            spectrum[:, 1 : HARMONICS + 1] = torch.polar(amplitude, phases - math.pi / 2)
            out.append((torch.fft.irfft(spectrum, TABLE_SIZE) * (TABLE_SIZE / 2)).contiguous())
        return out

    def buses(self, notes, timbres, harmonics, clips, samples):
        """Audio of every bus [clips, buses, samples]; the inputs are float32 tensors on the device."""
        mix = torch.zeros(clips, len(BUSES), samples, device=self.device)
        if len(notes) == 0:
            return mix
        early, late = self.tables(notes, timbres, harmonics)
        noise = self.noises()
        stream = torch.cuda.current_stream().cuda_stream if self.device == "cuda" else None
        notes, timbres = notes.contiguous(), timbres.contiguous()
        code = self.kernel.render(notes.data_ptr(), timbres.data_ptr(), self.zones.data_ptr(), self.bank.data_ptr(), early.data_ptr(),
                                  late.data_ptr(), noise.data_ptr(), mix.data_ptr(), len(notes), len(BUSES), samples,
                                  float(SAMPLE_RATE_HZ), stream)
        if code != 0:
            raise RuntimeError(f"The voice kernel failed with CUDA error {code}; maybe it was built for another GPU.")
        return mix
