"""Scores a trained network on held-out random clips and calibrates every output.

    python3 evaluate.py --run RUN --out report.json [--batches 16]
"""

import argparse
import json

import numpy as np
import torch
import torch.nn.functional as F

from ear import checkpoints, labels, metrics, supply
from ear.network import ListeningNetwork

POINT_OUTPUTS = {"beat": (0, 3), "downbeat": (1, 3)}
TEMPERATURES = np.exp(np.linspace(np.log(0.5), np.log(2.5), 33))


class Scores:
    """Running sums: ``add`` weighted means, ``count`` event counts."""

    def __init__(self):
        self.means, self.events = {}, {}

    def add(self, name, values, kept=None):
        values = np.asarray(values, np.float64)
        kept = np.ones(values.shape, bool) if kept is None else kept
        a, b = self.means.get(name, (0.0, 0))
        self.means[name] = (a + values[kept].sum(), b + kept.sum())

    def count(self, name, truth, found, tolerance):
        self.events[name] = self.events.get(name, 0) + metrics.event_counts(truth, found, tolerance)

    def report(self):
        out = {name: round(float(a / max(1, b)), 4) for name, (a, b) in self.means.items()}
        out.update({name + " F": round(float(metrics.f_measure(c)), 4) for name, c in self.events.items()})
        return dict(sorted(out.items()))


def score_batch(scores, logits, batch):
    """Adds one batch; ``logits`` and ``batch`` are dictionaries of numpy arrays."""
    best = {name: logits[name].argmax(-1) for name, (_, kind) in labels.OUTPUTS.items() if kind == "softmax"}
    chance = {name: 1 / (1 + np.exp(-logits[name])) for name, (_, kind) in labels.OUTPUTS.items() if kind == "sigmoid"}
    _pulse(scores, best, chance, batch)
    _harmony(scores, best, chance, batch)
    _lines(scores, best, chance, logits, batch)
    _notes(scores, best, chance, batch)
    _echoes(scores, best, batch)


def _pulse(scores, best, chance, batch):
    meter = np.broadcast_to(batch["meter"][:, None], best["meter"].shape)
    scores.add("meter", best["meter"] == meter)
    for i, name in enumerate(labels.METERS):
        if (batch["meter"] == i).any():
            scores.add("meter " + name, (best["meter"] == meter)[batch["meter"] == i])
    off = best["tempo"] - batch["tempo"]
    scores.add("tempo within 4 percent", abs(off) <= 1.4)
    octave = (off + 12) % 24 - 12
    scores.add("tempo within 4 percent, octave ignored", abs(octave) <= 1.4)
    for clip in range(len(meter)):
        for name, (column, tolerance) in POINT_OUTPUTS.items():
            truth = metrics.true_events(batch["beat"][clip, :, column])
            found = metrics.peaks(chance["beat"][clip, :, column], 0.4 if column == 0 else 0.35, 6)
            scores.count(name, truth, found, tolerance)
            scores.count(f"{name} in {labels.METERS[batch['meter'][clip]]}", truth, found, tolerance)
        for i, drum in enumerate(labels.DRUMS):
            scores.count("drum " + drum, metrics.true_events(batch["drums"][clip, :, i]), metrics.peaks(chance["drums"][clip, :, i], 0.4), 2)
        truth = metrics.true_events(batch["boundary"][clip])
        found = metrics.peaks(chance["boundary"][clip, :, 0], 0.4, 50)
        scores.count("boundary within 0.5 s", truth, found, 25)


def _harmony(scores, best, chance, batch):
    quality, guess = batch["chord_quality"], best["chord_quality"]
    harmonic = quality > 0
    scores.add("chord root", best["chord_root"] == batch["chord_root"])
    scores.add("chord bass", best["chord_bass"] == batch["chord_bass"])
    scores.add("chord quality", guess == quality)
    whole = (best["chord_root"] == batch["chord_root"]) & (guess == quality)
    scores.add("chord root and quality", whole)
    inverted = harmonic & (batch["chord_bass"] != batch["chord_root"])
    scores.add("chord bass where inverted", best["chord_bass"] == batch["chord_bass"], inverted)
    open_truth, open_guess = metrics.THIRDLESS[quality], metrics.THIRDLESS[guess]
    scores.add("no third told", open_guess, open_truth)
    scores.add("no third falsely told", open_guess, harmonic & ~open_truth)
    for i, name in enumerate(labels.QUALITIES):
        scores.add("quality " + name, guess == i, quality == i)
    told, members = chance["pitch_classes"] > 0.5, batch["pitch_classes"] > 0
    scores.add("pitch classes precision", members, told)
    scores.add("pitch classes recall", told, members)
    key, known = batch["key"].astype(int), batch["key"] >= 0
    scores.add("key and mode", best["key"] == key, known)
    scores.add("key tonic", best["key"] % 12 == key % 12, known)
    scores.add("key weighted", metrics.key_weight(np.maximum(key, 0), best["key"]), known)
    for i, name in enumerate(labels.MODES):
        scores.add("mode " + name, best["key"] // 12 == i, known & (key // 12 == i))


def _lines(scores, best, chance, logits, batch):
    pitch = batch["lead"]
    sounding, heard = pitch > 0, chance["voicing"][..., 0] > 0.5
    # Center of gravity of three bins around the best one.
    row = logits["lead"]
    middle = np.clip(best["lead"], 1, labels.LEAD_BINS - 2)
    near = np.take_along_axis(row, middle[..., None] + np.arange(-1, 2), -1)
    weight = np.exp(near - near.max(-1, keepdims=True))
    guess = labels.LOWEST_PITCH + (middle - 1 + (weight * np.arange(-1, 2)).sum(-1) / weight.sum(-1)) / 3
    off = guess - pitch
    right, chroma = abs(off) <= 0.5, abs((off + 6) % 12 - 6) <= 0.5
    scores.add("lead raw pitch", right, sounding)
    scores.add("lead raw chroma", chroma, sounding)
    scores.add("lead within 25 cents", abs(off) <= 0.25, sounding)
    scores.add("lead voicing recall", heard, sounding)
    scores.add("lead false alarm", heard, ~sounding)
    scores.add("lead overall", np.where(sounding, right & heard, ~heard))
    sung = batch["sung"] > 0
    scores.add("lead raw pitch, sung", right, sung)
    scores.add("sung told", (chance["voicing"][..., 1] > 0.5) == sung, sounding)
    second = batch["second"] >= 0
    scores.add("second pitch", best["second"] == batch["second"], second)
    scores.add("second voicing recall", chance["voicing"][..., 2] > 0.5, second)
    scores.add("second false alarm", chance["voicing"][..., 2] > 0.5, sounding & ~second)


def _notes(scores, best, chance, batch):
    told, held = chance["note_sustain"] > 0.5, batch["note_sustain"] > 0
    scores.add("note sustain precision", held, told)
    scores.add("note sustain recall", told, held)
    bass, none = batch["bass_pitch"], batch["bass_pitch"] == labels.NO_BASS
    scores.add("bass pitch", best["bass_pitch"] == bass, ~none)
    scores.add("bass pitch class", (best["bass_pitch"] - bass) % 12 == 0, ~none & (best["bass_pitch"] != labels.NO_BASS))
    scores.add("bass absence told", best["bass_pitch"] == labels.NO_BASS, none)
    scores.add("bass falsely absent", best["bass_pitch"] == labels.NO_BASS, ~none)
    for clip in range(len(bass)):
        scores.count("bass onset", metrics.true_events(batch["bass_onset"][clip]), metrics.peaks(chance["bass_onset"][clip, :, 0], 0.4), 2)
        for row in np.flatnonzero((batch["note_onset"][clip] == 2).any(0) | (chance["note_onset"][clip] > 0.4).any(0)):
            scores.count("note onset", metrics.true_events(batch["note_onset"][clip, :, row]), metrics.peaks(chance["note_onset"][clip, :, row], 0.4), 2)


def _echoes(scores, best, batch):
    lag, told = batch["echo"], best["echo"] != labels.NO_ECHO
    heard = lag >= 0
    near = abs(best["echo"] + labels.LAG_FRAMES[0] - lag) <= 1.5
    scores.add("echo told where one is heard", told, heard)
    scores.add("echo lag within 30 ms", near, heard)
    scores.add("echo falsely told", told, lag == -1)


def targets(batch):
    """{output: (target, kept)} for calibration: classes of softmax outputs, bits of sigmoid outputs."""
    frames = batch["chord_root"].shape[1]
    position = (batch["lead"] - labels.LOWEST_PITCH) * 3 + 1
    voiced = batch["lead"] > 0
    every = np.ones(batch["chord_root"].shape, bool)
    out = {"meter": (np.repeat(batch["meter"][:, None], frames, 1), every),
           "tempo": (np.clip(np.round(batch["tempo"]), 0, labels.TEMPO_CLASSES - 1), every),
           "key": (batch["key"], batch["key"] >= 0), "second": (batch["second"], batch["second"] >= 0),
           "lead": (np.clip(np.round(position), 0, labels.LEAD_BINS - 1), voiced)}
    lag = batch["echo"]
    out["echo"] = (np.where(lag < 0, labels.NO_ECHO, np.round(lag).astype(int) - labels.LAG_FRAMES[0]).clip(0, labels.NO_ECHO), lag > -1.5)
    for name in ("chord_root", "chord_bass", "chord_quality", "bass_pitch"):
        out[name] = (batch[name], every)
    voicing = np.stack([voiced, batch["sung"] > 0, batch["second"] >= 0], -1)
    # Whether it is sung, and whether a second voice is there, are meant where the lead sounds.
    out["voicing"] = (voicing, np.stack([every, voiced, voiced], -1))
    for name in ("beat", "drums", "note_onset"):
        out[name] = (batch[name] == 2, np.ones(batch[name].shape, bool))
    for name in ("bass_onset", "boundary"):
        out[name] = (batch[name][..., None] == 2, np.ones((*batch[name].shape, 1), bool))
    for name in ("pitch_classes", "note_sustain"):
        out[name] = (batch[name] > 0, np.ones(batch[name].shape, bool))
    return out


def logistic_fit(logits, target, steps=25):
    """(temperature, bias) of least log loss for sigmoid(logits / temperature + bias), by Newton's method."""
    slope, bias = 1.0, 0.0
    for _ in range(steps):
        chance = 1 / (1 + np.exp(-np.clip(slope * logits + bias, -40, 40)))
        off, spread = chance - target, chance * (1 - chance) + 1e-9
        gradient = np.array([(off * logits).mean(), off.mean()])
        curvature = np.array([[(spread * logits**2).mean(), (spread * logits).mean()], [(spread * logits).mean(), spread.mean()]])
        step = np.linalg.solve(curvature + 1e-9 * np.eye(2), gradient)
        slope, bias = max(0.05, slope - np.clip(step[0], -0.5, 0.5)), bias - np.clip(step[1], -2, 2)
    return 1 / slope, bias


class Calibration:
    """Collects a sample of frames per output and finds what makes its logits honest.

    Every output gets the temperature by which its logits are divided. Sigmoid outputs, whose rare events were weighted up in training,
    also get a pair that makes probabilities of them: ``sigmoid(logits / temperature + bias)``.
    """

    def __init__(self):
        self.kept = {}

    def add(self, logits, batch, every=7):
        for name, (target, kept) in targets(batch).items():
            row, kept = logits[name][:, ::every], kept[:, ::every]
            self.kept.setdefault(name, []).append((row[kept], target[:, ::every][kept].astype(np.int64)))

    def report(self):
        out = {}
        for name, parts in self.kept.items():
            logits = torch.from_numpy(np.concatenate([a for a, _ in parts])).float()
            target = torch.from_numpy(np.concatenate([b for _, b in parts]))
            softmax = labels.OUTPUTS[name][1] == "softmax"

            if softmax:
                best = min(TEMPERATURES, key=lambda t: float(F.cross_entropy(logits / t, target)))
                fitted, bias = best, 0.0
            else:
                best = min(TEMPERATURES, key=lambda t: float(F.binary_cross_entropy_with_logits(logits / t, target.float())))
                fitted, bias = logistic_fit(logits.numpy().astype(np.float64), target.numpy())
            errors = {}
            for label, temperature, shift in (("before", 1.0, 0.0), ("after", fitted, bias)):
                if softmax:
                    confidence, guess = F.softmax(logits / temperature, -1).max(-1)
                    right = guess == target
                else:
                    confidence, right = torch.sigmoid(logits / temperature + shift), target > 0
                errors[label] = round(float(metrics.calibration_error(confidence.numpy(), right.numpy())), 4)
            out[name] = dict(temperature=round(float(best), 3), ece_before=errors["before"], ece_after=errors["after"])
            if not softmax:
                out[name]["probability"] = dict(temperature=round(float(fitted), 3), bias=round(float(bias), 3))
        return out


@torch.no_grad()
def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--run", required=True)
    parser.add_argument("--out", required=True)
    parser.add_argument("--batches", type=int, default=16)
    parser.add_argument("--clips", type=int, default=28)
    parser.add_argument("--clip-seconds", type=float, default=24.0)
    parser.add_argument("--device", default="cuda")
    parser.add_argument("--workers", type=int, default=14)
    parser.add_argument("--kernels", default="build")
    parser.add_argument("--charts")
    parser.add_argument("--soundfont", action="append", default=[], help="may be given several times")
    options = parser.parse_args()
    network = ListeningNetwork()
    network.load_state_dict(checkpoints.load_average(options.run))
    network.eval().to(options.device)
    material = supply.Material(options.charts, options.soundfont)
    renderer = supply.Renderer(options.device, options.kernels, material, options.clip_seconds, seed=5)
    batches = supply.stream(material, options.clips, supply.HELD_OUT_SEED, 0, options.workers, options.clip_seconds)
    scores, calibration = Scores(), Calibration()
    for _ in range(options.batches):
        batch, tonal, rhythm = renderer(next(batches), vary_gain=False)
        logits = {name: tensor.float().cpu().numpy() for name, tensor in network(tonal, rhythm).items()}
        arrays = {name: tensor.cpu().numpy() for name, tensor in batch.items()}
        score_batch(scores, logits, arrays)
        calibration.add(logits, arrays)
    report = dict(clips=options.batches * options.clips, scores=scores.report(), calibration=calibration.report())
    with open(options.out, "w") as file:
        json.dump(report, file, indent=1)
    print(json.dumps(report["scores"], indent=0))
    print(json.dumps(report["calibration"]))


if __name__ == "__main__":
    main()
