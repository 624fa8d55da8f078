"""Writes the trained network as ONNX (weights stored in 16 bits, cast when loaded) with its description ear.json.

    python3 export.py --run RUN --out FOLDER [--report report.json]

Needs the packages onnx and onnxruntime; compares the exported model with PyTorch and times it on two threads.
"""

import argparse
import hashlib
import json
import time
from pathlib import Path

import numpy as np
import torch

from ear import checkpoints, labels
from ear.network import ListeningNetwork

LEAST_ELEMENTS_IN_HALF = 256
CLASS_NAMES = {
    "beat": ["beat", "downbeat"], "meter": list(labels.METERS), "chord_quality": list(labels.QUALITIES),
    "voicing": list(labels.VOICING), "drums": list(labels.DRUMS), "bass_onset": ["onset"], "boundary": ["boundary"],
}


class Tuple(torch.nn.Module):
    """The network with its outputs as a tuple, in the order of labels.OUTPUTS."""

    def __init__(self, network):
        super().__init__()
        self.network = network

    def forward(self, tonal, rhythm):
        out = self.network(tonal, rhythm)
        return tuple(out[name] for name in labels.OUTPUTS)


def trained(run):
    network = ListeningNetwork()
    network.load_state_dict(checkpoints.load_average(run))
    return network.eval()


def write_onnx(network, path):
    tonal, rhythm = torch.rand(1, 3, 400, 264) * 3, torch.rand(1, 1, 400, 90) * 3
    axes = {"tonal": {2: "T"}, "rhythm": {2: "T"}, **{name: {1: "T"} for name in labels.OUTPUTS}}
    # The wrapper must be in evaluation mode itself: the exporter restores its mode, and with it the network's.
    wrapped = Tuple(network).eval()
    settings = dict(input_names=["tonal", "rhythm"], output_names=list(labels.OUTPUTS), opset_version=17, dynamic_axes=axes)
    try:
        torch.onnx.export(wrapped, (tonal, rhythm), path, dynamo=False, **settings)
    except TypeError:   # older PyTorch knows only one exporter
        torch.onnx.export(wrapped, (tonal, rhythm), path, **settings)


def store_in_half(source, target):
    """Copies a model with its large weights as float16, each cast back to float32 in the graph."""
    import onnx
    from onnx import TensorProto, helper, numpy_helper

    model = onnx.load(source)
    weights, casts = [], []
    for tensor in model.graph.initializer:
        values = numpy_helper.to_array(tensor)
        if values.dtype == np.float32 and values.size > LEAST_ELEMENTS_IN_HALF:
            weights.append(numpy_helper.from_array(values.astype(np.float16), tensor.name + "_half"))
            casts.append(helper.make_node("Cast", [tensor.name + "_half"], [tensor.name], to=TensorProto.FLOAT))
        else:
            weights.append(tensor)
    nodes = list(model.graph.node)
    del model.graph.initializer[:], model.graph.node[:]
    model.graph.initializer.extend(weights)
    model.graph.node.extend(casts + nodes)
    onnx.save(model, target)


def session(path, threads=2):
    import onnxruntime

    options = onnxruntime.SessionOptions()
    options.intra_op_num_threads, options.inter_op_num_threads = threads, 1
    return onnxruntime.InferenceSession(str(path), options, providers=["CPUExecutionProvider"])


def compare(network, path, frames):
    """Largest difference of any logit between PyTorch and the exported model."""
    tonal, rhythm = torch.rand(1, 3, frames, 264) * 3, torch.rand(1, 1, frames, 90) * 3
    with torch.no_grad():
        reference = network(tonal, rhythm)
    found = session(path).run(list(labels.OUTPUTS), {"tonal": tonal.numpy(), "rhythm": rhythm.numpy()})
    return {name: round(float(np.abs(reference[name].numpy() - value).max()), 5) for name, value in zip(labels.OUTPUTS, found)}


def seconds_for_a_minute(path):
    """Seconds that one minute of audio takes on two threads, the better of two runs."""
    run = session(path)
    feed = {"tonal": np.random.rand(1, 3, 3000, 264).astype(np.float32) * 3, "rhythm": np.random.rand(1, 1, 3000, 90).astype(np.float32) * 3}
    times = []
    for _ in range(3):
        begin = time.time()
        run.run(None, feed)
        times.append(time.time() - begin)
    return min(times[1:])


def description(model, run, report):
    """The contents of ear.json."""
    state = json.loads((Path(run) / "state.json").read_text())
    calibration = report.get("calibration", {})
    outputs = []
    for name, (count, reading) in labels.OUTPUTS.items():
        entry = dict(name=name, classes=count, reading=reading)
        if name in CLASS_NAMES:
            entry["names"] = CLASS_NAMES[name]
        entry["temperature"] = calibration.get(name, {}).get("temperature", 1.0)
        if reading == "sigmoid":
            entry["probability"] = calibration.get(name, {}).get("probability", dict(temperature=1.0, bias=0.0))
        outputs.append(entry)
    return dict(
        version=1, sha256=hashlib.sha256(Path(model).read_bytes()).hexdigest(),
        sampleRateHz=labels.SAMPLE_RATE_HZ, hopSamples=labels.HOP_SAMPLES, framesPerSecond=labels.FRAMES_PER_SECOND,
        inputs=[dict(name="tonal", shape=[1, 3, "T", 264]), dict(name="rhythm", shape=[1, 1, "T", 90])],
        outputs=outputs, modes=list(labels.MODES), lowestTempoBpm=labels.SLOWEST_BPM,
        tempoClassesPerOctave=labels.TEMPO_CLASSES_PER_OCTAVE, lowestPitch=labels.LOWEST_PITCH, lowestBassPitch=labels.BASS_LOWEST,
        training=dict(steps=state["step"], clips=state["step"] * state["clips"], clipSeconds=state["clip_seconds"], seed=state["seed"]))


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--run", required=True)
    parser.add_argument("--out", required=True)
    parser.add_argument("--report")
    options = parser.parse_args()
    out = Path(options.out)
    out.mkdir(parents=True, exist_ok=True)
    torch.set_num_threads(2)
    network = trained(options.run)
    full, model = str(Path(options.run) / "ear_full.onnx"), str(out / "ear.onnx")
    write_onnx(network, full)
    store_in_half(full, model)
    report = json.loads(Path(options.report).read_text()) if options.report else {}
    (out / "ear.json").write_text(json.dumps(description(model, options.run, report), indent=1) + "\n")
    print(json.dumps(dict(parameters=sum(p.numel() for p in network.parameters()), bytes=Path(model).stat().st_size,
                          full=compare(network, full, 400), half=compare(network, model, 777),
                          seconds_per_minute=round(seconds_for_a_minute(model), 2))))


if __name__ == "__main__":
    main()
