"""Writes the trained network as three ONNX files, one a stage (weights stored in 16 bits, cast when loaded), and ear.json.

    python3 export.py --run RUN --out FOLDER [--report report.json] [--only players]

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
from ear.network import FOLLOW_FRAMES, LOOK_FRAMES, THINK_FRAMES, TRUNK_OUTPUTS, ListeningNetwork

LEAST_ELEMENTS_IN_HALF = 256
CLASS_NAMES = {
    "beat": ["beat", "downbeat"], "meter": list(labels.METERS), "chord_quality": list(labels.QUALITIES),
    "voicing": list(labels.VOICING), "drums": list(labels.DRUMS), "bass_onset": ["onset"], "boundary": ["boundary"],
}


class Look(torch.nn.Module):
    """First stage: spectra to pitch planes and to what the second stage takes in."""

    inputs, outputs = ("tonal", "rhythm"), ("planes", "joined")
    axes = {"tonal": 2, "rhythm": 2, "planes": 2, "joined": 2}

    def __init__(self, network):
        super().__init__()
        self.network = network

    def forward(self, tonal, rhythm):
        return self.network.look(tonal, rhythm)


class Think(Look):
    """Second stage: everything that needs a wide view, and the context of the third."""

    inputs, outputs = ("joined",), (*TRUNK_OUTPUTS, "no_bass", "context")
    axes = {"joined": 2, "context": 2, "no_bass": 1, **{name: 1 for name in TRUNK_OUTPUTS}}

    def forward(self, joined):
        flat, context = self.network.think(joined)
        return (*flat.split(self.network.sizes + [1], 2), context)


class Follow(Look):
    """Third stage: notes and lines."""

    inputs = ("planes", "context", "no_bass")
    outputs = tuple(name for name in labels.OUTPUTS if name not in TRUNK_OUTPUTS)
    axes = {"planes": 2, "context": 2, "no_bass": 1, **{name: 1 for name in outputs}}

    def forward(self, planes, context, no_bass):
        trunk = torch.cat([no_bass.new_zeros(*no_bass.shape[:2], sum(self.network.sizes)), no_bass], 2)
        out = self.network.outputs(trunk, self.network.follow(planes, context))
        return tuple(out[name] for name in self.outputs)


class Players(Look):
    """Takes planes and context as ``follow`` does: notes by who plays them."""

    inputs, outputs = ("planes", "context"), labels.PLAYERS
    axes = {"planes": 2, "context": 2, **{name: 1 for name in outputs}}

    def forward(self, planes, context):
        return tuple(self.network.players(planes, context).unbind(1))


STAGES = {"look": Look, "think": Think, "follow": Follow}
# Stages that a model may lack.
MORE_STAGES = {"players": Players}


def trained(run):
    network = ListeningNetwork()
    network.load_state_dict(checkpoints.load_average(run))
    return network.eval()


@torch.no_grad()
def write_stages(network, folder, stages):
    """Writes the ONNX files of the given stages into ``folder``."""
    given = dict(tonal=torch.rand(1, 3, 400, 264) * 3, rhythm=torch.rand(1, 1, 400, 90) * 3)
    # What earlier stages would give, where only a later one is written.
    given.update(planes=torch.rand(1, network.plane, 400, labels.PITCHES), context=torch.rand(1, network.context_planes * labels.PITCHES, 400))
    for name in stages:
        stage = {**STAGES, **MORE_STAGES}[name]
        # The wrapper must be in evaluation mode itself: the exporter restores its mode, and with it the network's.
        wrapped = stage(network).eval()
        arguments = tuple(given[i] for i in stage.inputs)
        settings = dict(input_names=list(stage.inputs), output_names=list(stage.outputs), opset_version=17,
                        dynamic_axes={n: {axis: "T"} for n, axis in stage.axes.items()})
        path = str(Path(folder) / f"{name}.onnx")
        try:
            torch.onnx.export(wrapped, arguments, path, dynamo=False, **settings)
        except TypeError:   # older PyTorch knows only one exporter
            torch.onnx.export(wrapped, arguments, path, **settings)
        given.update(zip(stage.outputs, wrapped(*arguments)))


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


class Sessions:
    """All stages that there are in ONNX Runtime, run one after the other on a whole excerpt."""

    def __init__(self, folder, threads=2):
        import onnxruntime

        options = onnxruntime.SessionOptions()
        options.intra_op_num_threads, options.inter_op_num_threads = threads, 1
        self.kinds = {**STAGES, **{name: stage for name, stage in MORE_STAGES.items() if (Path(folder) / f"{name}.onnx").exists()}}
        self.stages = {name: onnxruntime.InferenceSession(str(Path(folder) / f"{name}.onnx"), options, providers=["CPUExecutionProvider"])
                       for name in self.kinds}

    def __call__(self, tonal, rhythm):
        """{output: logits [1, T, C]} from arrays."""
        known = dict(tonal=tonal, rhythm=rhythm)
        for name, stage in self.kinds.items():
            found = self.stages[name].run(list(stage.outputs), {i: known[i] for i in stage.inputs})
            known.update(zip(stage.outputs, found))
        return {name: known[name] for name in (*labels.OUTPUTS, *labels.PLAYERS) if name in known}


def compare(network, folder, frames):
    """Largest difference of any logit between PyTorch and the exported model."""
    tonal, rhythm = torch.rand(1, 3, frames, 264) * 3, torch.rand(1, 1, frames, 90) * 3
    with torch.no_grad():
        reference = network(tonal, rhythm)
    found = Sessions(folder)(tonal.numpy(), rhythm.numpy())
    return {name: round(float(np.abs(value.numpy() - found[name]).max()), 5) for name, value in reference.items()}


def seconds_for_a_minute(folder):
    """Seconds that one minute of audio takes on two threads in stretches of ten seconds, the better of two runs."""
    run = Sessions(folder)
    tonal, rhythm = np.random.rand(1, 3, 500, 264).astype(np.float32) * 3, np.random.rand(1, 1, 500, 90).astype(np.float32) * 3
    times = []
    for _ in range(3):
        begin = time.time()
        for _ in range(6):
            run(tonal, rhythm)
        times.append(time.time() - begin)
    return min(times[1:])


def description(folder, run, report):
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
        version=3, sha256=hashlib.sha256(b"".join((folder / f"{name}.onnx").read_bytes() for name in STAGES)).hexdigest(),
        stages=[dict(file=f"{name}.onnx", inputs=list(stage.inputs), outputs=list(stage.outputs)) for name, stage in STAGES.items()],
        reach=dict(look=LOOK_FRAMES, think=THINK_FRAMES, follow=FOLLOW_FRAMES),
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
    parser.add_argument("--only", choices=list(MORE_STAGES), help="write this stage alone; to be named in ear.json by hand, its file counted in sha256")
    parser.add_argument("--no-compare", dest="compare", action="store_false", help="without onnxruntime")
    options = parser.parse_args()
    out = Path(options.out)
    out.mkdir(parents=True, exist_ok=True)
    torch.set_num_threads(2)
    network = trained(options.run)
    full = Path(options.run) / "full"
    full.mkdir(exist_ok=True)
    stages = [options.only] if options.only else list(STAGES)
    write_stages(network, full, stages)
    for name in stages:
        store_in_half(str(full / f"{name}.onnx"), str(out / f"{name}.onnx"))
    report = json.loads(Path(options.report).read_text()) if options.report else {}
    if options.only:
        return
    (out / "ear.json").write_text(json.dumps(description(out, options.run, report), indent=1) + "\n")
    facts = dict(parameters=sum(p.numel() for p in network.parameters()), bytes=sum((out / f"{n}.onnx").stat().st_size for n in STAGES))
    if options.compare:
        facts.update(full=compare(network, full, 400), half=compare(network, out, 777), seconds_per_minute=round(seconds_for_a_minute(out), 2))
    print(json.dumps(facts))


if __name__ == "__main__":
    main()
