"""Writes golden values by which another implementation of features and model can be checked.

    python3 golden.py --model FOLDER --out golden.json        # features and outputs, by onnxruntime or, without it, by PyTorch
    python3 golden.py --out golden.json                         # features only

The signal is a formula (``signal``), so that no audio has to be stored: eight chords of five decaying harmonics a note,
and a little noise from a linear congruential generator. All arithmetic is in 64 bits, the samples are then 32-bit floats.
"""

import argparse
import importlib.util
import json
import math
from pathlib import Path

import numpy as np
import torch

from ear import labels, warm
from ear.features import Features
from ear.network import ListeningNetwork

SECONDS = 8
CHORDS = ((45, 57, 60, 64), (41, 57, 60, 65), (48, 55, 60, 64), (43, 55, 59, 62))
FEATURE_FRAMES = (0, 1, 25, 26, 60, 111, 200, 263, 398, 399)
OUTPUT_FRAMES = (0, 26, 100, 151, 250, 399)
BIN_STEP = {"tonal": 7, "rhythm": 5}


def signal():
    """The test signal, float32 [SECONDS * 22050].

    Chord c (0 to 7) starts at sample 22050 c and lasts one second; its notes are CHORDS[c mod 4]. A note of MIDI pitch p has
    frequency f = 440 * 2^((p - 69) / 12) and adds, at t seconds after the chord's start,
    0.05 * exp(-3 t) * sum over h = 1...5 of sin(2 pi f h t) / h. Noise: s(0) = 1, s(n + 1) = (1103515245 s(n) + 12345) mod 2^31;
    sample n gets 0.002 * (s(n + 1) / 2^30 - 1).
    """
    rate = labels.SAMPLE_RATE_HZ
    samples = np.zeros(SECONDS * rate)
    t = np.arange(rate) / rate
    for chord in range(SECONDS):
        for pitch in CHORDS[chord % len(CHORDS)]:
            hertz = 440 * 2 ** ((pitch - 69) / 12)
            tone = sum(np.sin(2 * math.pi * hertz * h * t) / h for h in range(1, 6))
            samples[chord * rate : (chord + 1) * rate] += 0.05 * np.exp(-3 * t) * tone
    state = 1
    for n in range(len(samples)):
        state = (1103515245 * state + 12345) % 2**31
        samples[n] += 0.002 * (state / 2**30 - 1)
    return samples.astype(np.float32)


def rounded(values):
    return [round(float(v), 5) for v in values]


def feature_values(tonal, rhythm):
    rows = [dict(plane="tonal", channel=c, frame=f, everyBin=BIN_STEP["tonal"], values=rounded(tonal[0, c, f, :: BIN_STEP["tonal"]]))
            for c in range(3) for f in FEATURE_FRAMES]
    rows += [dict(plane="rhythm", channel=0, frame=f, everyBin=BIN_STEP["rhythm"], values=rounded(rhythm[0, 0, f, :: BIN_STEP["rhythm"]]))
             for f in FEATURE_FRAMES]
    return rows


@torch.no_grad()
def answers(model, tonal, rhythm):
    """Logits by output name, numpy [1, T, classes], of the exported model in folder ``model``."""
    if importlib.util.find_spec("onnxruntime"):
        from export import Sessions

        return Sessions(model)(tonal.numpy(), rhythm.numpy())
    network = ListeningNetwork()
    warm.fill(network, warm.exported(model))
    network.eval()
    played = network.players(*network.heard(tonal, rhythm)).unbind(1)
    return {name: logits.numpy() for name, logits in (*network(tonal, rhythm).items(), *zip(labels.PLAYERS, played))}


def output_values(model, tonal, rhythm):
    found = answers(model, tonal, rhythm)
    return [dict(output=name, frame=f, logits=rounded(values[0, f])) for name, values in found.items() for f in OUTPUT_FRAMES]


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--model")
    parser.add_argument("--out", required=True)
    options = parser.parse_args()
    audio = signal()
    tonal, rhythm = Features()(Features.scale(torch.from_numpy(audio)[None]))
    golden = dict(signal=dict(seconds=SECONDS, chords=CHORDS, samplesAt=[0, 1, 1000, 22050, 100000], samples=[float(audio[i]) for i in (0, 1, 1000, 22050, 100000)]),
                  features=feature_values(tonal, rhythm), outputs=output_values(options.model, tonal, rhythm) if options.model else [])
    text = json.dumps(golden).replace("{\"plane\"", "\n{\"plane\"").replace("{\"output\"", "\n{\"output\"")
    Path(options.out).parent.mkdir(parents=True, exist_ok=True)
    Path(options.out).write_text(text + "\n")


if __name__ == "__main__":
    main()
