"""One loss per output, from logits and the generator's labels, and their weighted sum."""


import torch
import torch.nn.functional as F

from ear import labels

WEIGHTS = {"beat": 3.0, "meter": 0.5, "tempo": 0.5, "chord_root": 1.0, "chord_bass": 0.8, "chord_quality": 0.9,
           "pitch_classes": 1.3, "key": 1.3, "voicing": 2.0, "lead": 0.9, "second": 1.1, "note_onset": 1.0, "note_sustain": 1.0,
           "bass_pitch": 0.7, "bass_onset": 1.0, "drums": 1.2, "boundary": 1.8, "echo": 0.7, "players": 1.0}
POINT_WEIGHT = 3.0
LEAD_SPREAD_BINS = 0.8
LAG_SPREAD_FRAMES = 0.6
TEMPO_SPREAD_CLASSES = 1.0


def points(logits, halves, weight=POINT_WEIGHT):
    """Binary cross-entropy against targets given in halves, rare events weighted up."""
    target = halves.float() / 2
    return F.binary_cross_entropy_with_logits(logits, target, pos_weight=logits.new_tensor(weight))


def classes(logits, target, ignored=None):
    """Cross-entropy over the last axis; frames whose target is ``ignored`` do not count."""
    target = target.long()
    if ignored is None:
        return F.cross_entropy(logits.reshape(-1, logits.shape[-1]), target.reshape(-1))
    kept = (target != ignored).float()
    each = F.cross_entropy(logits.reshape(-1, logits.shape[-1]), target.clamp(min=0).reshape(-1), reduction="none")
    return (each * kept.reshape(-1)).sum() / kept.sum().clamp(min=1)


def near(logits, position, spread, kept):
    """Cross-entropy against a Gaussian around a fractional class ``position`` [B, T], over frames in ``kept``."""
    index = torch.arange(logits.shape[-1], device=logits.device)
    target = torch.exp(-0.5 * ((index - position[..., None]) / spread).square())
    target = target / target.sum(-1, keepdim=True).clamp(min=1e-6)
    each = -(target * F.log_softmax(logits, -1)).sum(-1)
    return (each * kept).sum() / kept.sum().clamp(min=1)


def lags(logits, lag):
    """Cross-entropy of the lags heard: a Gaussian about ``lag`` [B, T] in frames, all on "no echo" where it is -1; -2 does not count."""
    position = (lag - labels.LAG_FRAMES[0])[..., None]
    index = torch.arange(labels.NO_ECHO, device=logits.device)
    about = torch.exp(-0.5 * ((index - position) / LAG_SPREAD_FRAMES).square())
    about = about / about.sum(-1, keepdim=True).clamp(min=1e-6)
    heard = (lag >= 0).float()[..., None]
    target = torch.cat([about * heard, 1 - heard], -1)
    kept = (lag > -1.5).float()
    each = -(target * F.log_softmax(logits, -1)).sum(-1)
    return (each * kept).sum() / kept.sum().clamp(min=1)


def players(logits, batch):
    """Notes by who plays them; ``logits`` [B, len(PLAYERS), T, PITCHES]."""
    truth = {"any_onset": batch["note_onset"], "any_sustain": batch["note_sustain"]}
    total = 0.0
    for name, plane in zip(labels.PLAYERS, logits.unbind(1)):
        target = truth.get(name, batch.get(name))
        begins = name.endswith("onset")
        each = points(plane, target, 3.0) * 6 if begins else F.binary_cross_entropy_with_logits(plane, target.float()) * 4
        total = total + each
    return total


def by_head(out, batch):
    """{output: loss}; ``out`` holds float logits, ``batch`` the labels of clip.py as tensors."""
    pitch = batch["lead"]
    position = (pitch - labels.LOWEST_PITCH) * 3 + 1
    sounding = ((pitch > 0) & (position >= 0) & (position <= labels.LEAD_BINS - 1)).float()
    second = (batch["second"] >= 0).float()
    voicing = torch.stack([(pitch > 0).float(), batch["sung"].float(), second], -1)
    # Whether it is sung and whether a second voice sounds matter where a lead sounds.
    mask = torch.stack([torch.ones_like(sounding), sounding, 0.3 + 0.7 * sounding], -1)
    voiced = F.binary_cross_entropy_with_logits(out["voicing"], voicing, reduction="none")
    frames = out["lead"].shape[1]
    every = torch.ones_like(sounding)
    return {
        "beat": points(out["beat"], batch["beat"]),
        "meter": classes(out["meter"], batch["meter"][:, None].expand(-1, frames)),
        "tempo": near(out["tempo"], batch["tempo"].clamp(0, labels.TEMPO_CLASSES - 1), TEMPO_SPREAD_CLASSES, every),
        "chord_root": classes(out["chord_root"], batch["chord_root"]),
        "chord_bass": classes(out["chord_bass"], batch["chord_bass"]),
        "chord_quality": classes(out["chord_quality"], batch["chord_quality"]),
        "pitch_classes": F.binary_cross_entropy_with_logits(out["pitch_classes"], batch["pitch_classes"].float()),
        "key": classes(out["key"], batch["key"], -1),
        "voicing": (voiced * mask).sum() / mask.sum(),
        "lead": near(out["lead"], position, LEAD_SPREAD_BINS, sounding),
        "second": classes(out["second"], batch["second"], -1),
        "note_onset": points(out["note_onset"], batch["note_onset"], 2.0) * 6,
        "note_sustain": F.binary_cross_entropy_with_logits(out["note_sustain"], batch["note_sustain"].float()) * 4,
        "bass_pitch": classes(out["bass_pitch"], batch["bass_pitch"]),
        "bass_onset": points(out["bass_onset"][..., 0], batch["bass_onset"]),
        "drums": points(out["drums"], batch["drums"], 2.0),
        "boundary": points(out["boundary"][..., 0], batch["boundary"]) * 2,
        "echo": lags(out["echo"], batch["echo"]),
    }


def total(losses):
    return sum(WEIGHTS[name] * loss for name, loss in losses.items())
