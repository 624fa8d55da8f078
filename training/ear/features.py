"""The network's input features (FEATURES.md), in torch: batches on CPU or GPU."""

import torch

from ear.labels import HOP_SAMPLES, SAMPLE_RATE_HZ

TONAL_WINDOWS = (16384, 8192, 4096)
RHYTHM_WINDOW = 2048
TARGET_RMS = 0.1


def triangles(window, lowest_hz, per_octave, count, first):
    """Filter weights [count, bins]; each triangle is at least one DFT bin wide on either side."""
    bin_hz = SAMPLE_RATE_HZ / window
    frequency = torch.arange(window // 2 + 1, dtype=torch.float64) * bin_hz
    rows = []
    for b in range(count):
        center = lowest_hz * 2 ** ((b + first) / per_octave)
        low = min(center * 2 ** (-1 / per_octave), center - bin_hz)
        high = max(center * 2 ** (1 / per_octave), center + bin_hz)
        rise = (frequency - low) / (center - low)
        fall = (high - frequency) / (high - center)
        rows.append(torch.clamp(torch.minimum(rise, fall), min=0))
    weights = torch.stack(rows)
    used = int(weights.sum(0).nonzero().max()) + 1
    return weights[:, :used].float().contiguous()


class Features:
    """Turns audio [B, N] into ``(tonal [B, 3, T, 264], rhythm [B, 1, T, 90])`` with T = N // 441."""

    def __init__(self, device="cpu"):
        self.windows = {w: torch.hann_window(w, device=device) for w in (*TONAL_WINDOWS, RHYTHM_WINDOW)}
        self.filters = {w: triangles(w, 27.5, 36, 264, -1).to(device) for w in TONAL_WINDOWS}
        self.filters[RHYTHM_WINDOW] = triangles(RHYTHM_WINDOW, 55.0, 12, 90, 0).to(device)

    @staticmethod
    def scale(audio):
        """Scales each row to RMS 0.1, as is done once for a whole recording."""
        return audio * (TARGET_RMS / (audio.pow(2).mean(-1, keepdim=True).sqrt() + 1e-5))

    def plane(self, audio, window):
        """Log filter outputs [B, T, filters] of one window length; ``audio`` is already scaled."""
        filters, taper = self.filters[window], self.windows[window]
        spectrum = torch.stft(
            audio, window, HOP_SAMPLES, window, taper, center=True, pad_mode="constant", return_complex=True
        )[:, : filters.shape[1], : audio.shape[-1] // HOP_SAMPLES]
        power = (spectrum.real.square() + spectrum.imag.square()) * (2 / taper.sum()) ** 2
        return torch.log1p(1000 * torch.matmul(filters, power).clamp(min=0).sqrt()).transpose(1, 2)

    def __call__(self, audio):
        tonal = torch.stack([self.plane(audio, w) for w in TONAL_WINDOWS], 1)
        return tonal, self.plane(audio, RHYTHM_WINDOW)[:, None]
