"""From buses to a worn recording: levels, drive, filters, rooms, echoes, compression, tape, codecs, noise, fades."""

import math

import torch
import torch.nn.functional as F

from ear.labels import HOP_SAMPLES, ROOM_BANDS_HERTZ, SAMPLE_RATE_HZ
from ear.notes import BASS, BUSES, DRUMS

# As long as a room is played; what rings on after it is 46 dB or more below its beginning.
ROOM_SECONDS = 3.5


def fast_length(samples):
    """The next FFT length of the form 2^a * 9 or 2^a * 15 and the like that leaves room for tails."""
    need = samples + int((ROOM_SECONDS + 0.1) * SAMPLE_RATE_HZ)
    return min(m << a for m in (1, 3, 5, 9, 15) for a in range(30) if m << a >= need)


class Mixer:
    """Random processing of a batch; every call draws new settings from ``generator``. Without ``worn`` it only mixes."""

    def __init__(self, device, samples, generator=None, worn=True):
        self.device, self.samples, self.generator, self.wears = device, samples, generator, worn
        self.length = fast_length(samples)
        self.hertz = torch.fft.rfftfreq(self.length, 1 / SAMPLE_RATE_HZ).to(device)
        place = torch.log2(self.hertz.clamp(min=30) / 30) / math.log2(11025 / 30) * 255
        self.place = place.clamp(0, 255)
        self.index = self.place.floor().long().clamp(max=254)

    def random(self, *shape):
        return torch.rand(*shape, device=self.device, generator=self.generator)

    def normal(self, *shape):
        return torch.randn(*shape, device=self.device, generator=self.generator)

    def sometimes(self, clips, chance):
        return (self.random(clips, 1) < chance).float()

    def curve(self, clips, decibels):
        """A smooth random frequency response [clips, bins] of about ``decibels`` standard deviation."""
        knots = self.normal(clips, 1, 8) * decibels
        fine = F.interpolate(knots, size=256, mode="linear", align_corners=True)
        fine = F.avg_pool1d(F.pad(fine, (16, 16), mode="replicate"), 33, 1)[:, 0]
        part = self.place - self.index
        return 10 ** ((fine[:, self.index] * (1 - part) + fine[:, self.index + 1] * part) / 20)

    def leveled(self, buses, gains, drive):
        """Every bus at RMS 0.1 over its loud frames, driven through a soft clipper if asked, at its gain in dB."""
        clips, count, samples = buses.shape
        power = buses.view(clips, count, samples // HOP_SAMPLES, HOP_SAMPLES).square().mean(-1)
        active = (power > power.amax(-1, keepdim=True) * 0.003) & (power > 1e-9)
        rms = ((power * active).sum(-1) / active.sum(-1).clamp(min=1) + 1e-12).sqrt()
        x = buses * torch.where(rms > 1e-5, 0.1 / rms, torch.zeros_like(rms))[..., None]
        amount = drive[..., None]
        driven = torch.tanh(x * 10 * amount) * 0.1
        driven = driven / (driven.square().mean(-1, keepdim=True).sqrt() * 10 + 1e-3)
        return torch.where(amount > 0, driven, x) * 10 ** (gains[..., None] / 20)

    def room(self, settings):
        """Spectrum [clips, bins] of noise that decays as rooms.SETTINGS say, of energy 1; zero where there is no room."""
        clips, samples, size = len(settings), int(ROOM_SECONDS * SAMPLE_RATE_HZ), 512
        window = torch.hann_window(size, device=self.device)
        noise = torch.stft(self.normal(clips, samples), size, size // 4, size, window, return_complex=True)
        hertz = torch.fft.rfftfreq(size, 1 / SAMPLE_RATE_HZ).to(self.device)
        t = torch.arange(noise.shape[2], device=self.device) * (size // 4) / SAMPLE_RATE_HZ - settings[:, 4, None, None]
        envelope = torch.exp(-math.log(1000) * t.clamp(min=0) / self.decay(settings, hertz)[..., None]) * (t >= 0)
        response = torch.istft(noise * envelope, size, size // 4, size, window, length=samples)
        response = response / response.square().sum(1, keepdim=True).sqrt()
        corner = settings[:, 5:6]
        return torch.fft.rfft(response, self.length) * (1 + (self.hertz / corner.clamp(min=1.0)).square()).rsqrt() * (corner > 0)

    @staticmethod
    def decay(settings, hertz):
        """Decay times [clips, frequencies]: those of the bands at their middles, between them even on logarithmic scales."""
        middles = torch.tensor([math.log2(math.sqrt(low * high)) for low, high in ROOM_BANDS_HERTZ], device=hertz.device)
        at = (torch.log2(hertz.clamp(min=1.0)).clamp(float(middles[0]), float(middles[-1])) - middles[0]) / (middles[1] - middles[0])
        index = at.floor().long().clamp(max=len(middles) - 2)
        part, logs = at - index, torch.log(settings[:, : len(middles)].clamp(min=0.05))
        return torch.exp(logs[:, index] * (1 - part) + logs[:, index + 1] * part)

    def copies(self, settings):
        """Spectrum [clips, bins] of a delay that feeds back through a low pass; zero where the lag is."""
        lag, first, feedback, corner = (settings[:, i : i + 1] for i in range(settings.shape[1]))
        dull = (1 + (self.hertz / corner.clamp(min=1.0)).square()).rsqrt() * (lag > 0)
        angle = -2 * math.pi * self.hertz * lag
        later = torch.polar(dull, angle)
        return first * later / (1 - feedback * later)

    def spatial(self, x, echo, room):
        """Equalizes every bus and sends it to the delay and to the room: the spectra of what is direct, of the room, and of the copies.

        ``echo`` and ``room`` hold what echoes.draw and rooms.draw tell: settings, buses and, frame by frame, what is sent in.
        """
        sent, wet = (F.interpolate(sends["sent"].float()[:, None], size=self.samples, mode="linear")[:, 0] for sends in (echo, room))
        copying, direct, copied, entering = self.copies(echo["settings"]), 0, 0, 0
        for bus in range(len(BUSES)):
            curve = self.curve(len(x), 3.0 if bus == BASS else 4.0)
            spectrum = torch.fft.rfft(x[:, bus], self.length) * curve
            if bus not in (DRUMS, BASS):
                copy = torch.fft.rfft(x[:, bus] * sent * echo["buses"][:, bus : bus + 1], self.length) * curve * copying
                copied = copied + copy
                spectrum = spectrum + copy
            direct, entering = direct + spectrum, entering + room["buses"][:, bus : bus + 1] * spectrum
        entering = torch.fft.irfft(entering, self.length)[:, : self.samples] * wet
        return direct, torch.fft.rfft(entering, self.length) * self.room(room["settings"]), copied

    def audibility(self, total, copied):
        """Level in dB of the copies against the whole mix, frame by frame [clips, frames]."""
        power = [torch.fft.irfft(s, self.length)[:, : self.samples].reshape(len(s), -1, HOP_SAMPLES).square().mean(-1) for s in (total, copied)]
        smooth = [F.avg_pool1d(p[:, None], 5, 1, 2, count_include_pad=False)[:, 0] for p in power]
        return 10 * torch.log10((smooth[1] + 1e-12) / (smooth[0] + 1e-6))

    def band_limited(self, spectrum):
        clips = len(spectrum)
        spectrum = spectrum * self.curve(clips, 3.0)
        low = torch.where(self.random(clips, 1) < 0.4, 3000 + 7500 * self.random(clips, 1), 20000.0)
        high = torch.where(self.random(clips, 1) < 0.3, 30 + 130 * self.random(clips, 1), 15.0)
        return spectrum * (1 + (self.hertz / low) ** 8).rsqrt() * (1 + (high / self.hertz.clamp(min=1)) ** 4).rsqrt()

    @staticmethod
    def normalized(y):
        return y * (0.1 / (y.square().mean(1, keepdim=True).sqrt() + 1e-5))

    def compressed(self, y):
        clips = len(y)
        power = y.view(clips, -1, HOP_SAMPLES).square().mean(-1)
        decay = torch.exp(-torch.arange(25, device=self.device) / 6.0)
        kernel = (decay / decay.sum()).flip(0)[None, None]
        level = F.conv1d(F.pad(power[:, None], (24, 0)), kernel)[:, 0].sqrt()
        ratio, threshold = 0.9 * self.random(clips, 1) * self.sometimes(clips, 0.6), 0.03 + 0.1 * self.random(clips, 1)
        gain = (level / threshold).clamp(min=1) ** -ratio
        return y * F.interpolate(gain[:, None], size=self.samples, mode="linear", align_corners=True)[:, 0]

    def saturated(self, y):
        """Soft saturation on some clips, hard clipping on a few."""
        clips = len(y)
        amount = torch.where(self.random(clips, 1) < 0.4, 1 + 7 * self.random(clips, 1).square(), 0.0)
        y = torch.where(amount > 0, torch.tanh(y * amount * 2) / (amount.clamp(min=1) * 2), y)
        limit = torch.where(self.random(clips, 1) < 0.08, 0.08 + 0.25 * self.random(clips, 1), 10.0)
        return torch.maximum(torch.minimum(y, limit), -limit)

    def wobbled(self, y, rows):
        """Tape wow and flutter on the given clips: time is bent by up to about 2 ms."""
        t = torch.arange(self.samples, device=self.device, dtype=torch.float32)
        bend = torch.zeros(len(rows), self.samples, device=self.device)
        for slow, fast, depth in ((0.4, 1.5, 0.0025), (4, 9, 0.0006)):
            rate = slow + (fast - slow) * self.random(len(rows), 1)
            shape = torch.sin(2 * math.pi * (rate * t / SAMPLE_RATE_HZ + self.random(len(rows), 1)))
            bend += depth * self.random(len(rows), 1) * SAMPLE_RATE_HZ / (2 * math.pi * rate) * shape
        at = (t + bend).clamp(0, self.samples - 2)
        i = at.long()
        part = at - i
        source = y[rows]
        y[rows] = source.gather(1, i) * (1 - part) + source.gather(1, i + 1) * part
        return y

    def coded(self, y, rows):
        """Spectral holes as low bit rates leave them: weak bins beside strong ones vanish, in blocks."""
        window = torch.hann_window(1024, device=self.device)
        z = torch.stft(y[rows], 1024, 512, 1024, window, return_complex=True)
        level = torch.log(z.abs() + 1e-7)
        around = F.avg_pool2d(level[:, None], (15, 1), 1, (7, 0))[:, 0]
        floor = -0.2 - 1.8 * self.random(len(rows), 1, 1)
        keep = (level > around + floor) | (torch.arange(z.shape[1], device=self.device)[None, :, None] < 6)
        y[rows] = torch.istft(z * keep, 1024, 512, 1024, window, length=self.samples)
        return y

    def noisy(self, y):
        clips = len(y)
        level = 10 ** (-(16 + 50 * self.random(clips, 1)) / 20) * self.sometimes(clips, 0.6)
        noise, dull = self.normal(clips, self.samples), self.random(clips, 1)
        noise = noise * (1 - dull) + dull * F.avg_pool1d(F.pad(noise, (4, 4)), 9, 1) * 3
        crackle = (self.random(clips, self.samples) < 0.0004) * self.normal(clips, self.samples) * self.sometimes(clips, 0.05)
        return y + 0.1 * level * noise + 0.15 * crackle

    def faded(self, y):
        clips = len(y)
        t = torch.linspace(0, 1, self.samples, device=self.device)
        edge = 0.3 + 0.6 * self.random(clips, 1)
        out = ((1 - t) / (1 - edge)).clamp(max=1)
        gain = torch.where(self.random(clips, 1) < 0.06, out, torch.ones_like(out))
        gain = torch.where(self.random(clips, 1) < 0.03, (t / edge).clamp(max=1).expand_as(gain), gain)
        return y * gain

    def chosen(self, clips, share):
        return torch.randperm(clips, device=self.device, generator=self.generator)[: max(1, int(round(share * clips)))]

    def __call__(self, buses, gains, drive, echo, room):
        """Mixes buses [clips, buses, samples] down to recordings [clips, samples] of RMS near 0.1; and ``audibility``."""
        direct, wet, copied = self.spatial(self.leveled(buses, gains, drive), echo, room)
        total = direct + wet
        heard = self.audibility(total, copied)
        if self.wears:
            return self.worn(total), heard
        return self.normalized(torch.fft.irfft(total, self.length)[:, : self.samples]), heard

    def worn(self, total):
        """What happens to a mix on its way to a listener."""
        clips = len(total)
        y = torch.fft.irfft(self.band_limited(total), self.length)[:, : self.samples]
        y = self.normalized(self.compressed(self.normalized(y)))
        y = self.saturated(y)
        if clips > 3:
            y = self.coded(self.wobbled(y, self.chosen(clips, 0.15)), self.chosen(clips, 0.15))
        return self.faded(self.noisy(y))
