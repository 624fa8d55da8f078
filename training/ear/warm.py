"""Takes the weights out of an exported model, so that a training can begin where another ended.

    python3 -m ear.warm ear.onnx RUN [--charts ...] [--soundfont ...]

The exporter has folded every batch normalization into the convolution before it. The folded weights are put back beside
normalizations that change nothing; these then get the mean and spread they meet on random clips, and the scale and shift that
undo them, so that the network's answers stay the same and training finds it as it would have been.
"""

import argparse
import json
from pathlib import Path

import numpy as np
import torch
from torch import nn

from ear import checkpoints, supply
from ear.network import DILATIONS, ListeningNetwork

CLIPS = 10
NORMALIZATIONS = (nn.BatchNorm1d, nn.BatchNorm2d)


def module_of(node):
    """The module's name in PyTorch from the exported node's: /trunk/trunk.0/wide/Conv is trunk.0.wide."""
    parts = [part for part in node.split("/")[1:-1] if part != "network"]
    return ".".join(p for p, after in zip(parts, parts[1:] + [""]) if not after.startswith(p + "."))


def norm_after(name):
    """The normalization that followed a convolution."""
    if name.endswith(("wide", "point")):
        head, last = name.rsplit(".", 1)
        return f"{head}.norm_{last}"
    return name[:-1] + "1"


def exported(path):
    """{module: [arrays]} of an exported model, in 32 bits."""
    import onnx
    from onnx import numpy_helper

    out = {}
    for model in [path] if Path(path).is_file() else sorted(Path(path).glob("*.onnx")):
        graph = onnx.load(model).graph
        values = {t.name[:-5] if t.name.endswith("_half") else t.name: numpy_helper.to_array(t).astype(np.float32) for t in graph.initializer}
        for node in graph.node:
            if node.op_type in ("Conv", "BatchNormalization"):
                out[module_of(node.name)] = [values[name] for name in node.input[1:]]
    return out


@torch.no_grad()
def fill(network, arrays):
    """Copies what was exported; normalizations that were folded become neutral, layers that are new add nothing."""
    modules = dict(network.named_modules())
    for name, values in arrays.items():
        module, tensors = modules[name], [torch.from_numpy(v.copy()) for v in values]
        module.weight.copy_(tensors[0])
        if isinstance(module, NORMALIZATIONS):
            for target, value in zip((module.bias, module.running_mean, module.running_var), tensors[1:]):
                target.copy_(value)
        elif module.bias is not None:
            module.bias.copy_(tensors[1])
        elif len(tensors) > 1:
            norm = modules[norm_after(name)]
            norm.weight.fill_((1 + norm.eps) ** 0.5)
            norm.bias.copy_(tensors[1])
    for index in range(len(DILATIONS)):
        if f"trunk.{index}.wide" not in arrays:
            modules[f"trunk.{index}"].norm_point.weight.zero_()


@torch.no_grad()
def settle(network, inputs):
    """Gives every normalization the mean and spread of what it meets, and the scale and shift that keep its answer."""
    seen, hooks = {}, []
    for name, module in network.named_modules():
        if isinstance(module, NORMALIZATIONS) and not name.endswith(("tonal_norm", "rhythm_norm")):
            def listen(module, given, _, name=name):
                x = given[0]
                axes = [0] + list(range(2, x.dim()))
                total = seen.setdefault(name, [0, 0, 0])
                total[0], total[1], total[2] = total[0] + x.mean(axes), total[1] + x.square().mean(axes), total[2] + 1
            hooks.append(module.register_forward_hook(listen))
    network.eval()
    for tonal, rhythm in inputs:
        network(tonal, rhythm)
    for hook in hooks:
        hook.remove()
    modules = dict(network.named_modules())
    for name, (mean, square, count) in seen.items():
        norm, mean = modules[name], mean / count
        variance = (square / count - mean.square()).clamp(min=1e-6)
        scale = norm.weight / (norm.running_var + norm.eps).sqrt()
        shift = norm.bias - norm.running_mean * scale
        norm.running_mean.copy_(mean)
        norm.running_var.copy_(variance)
        norm.weight.copy_(scale * (variance + norm.eps).sqrt())
        norm.bias.copy_(shift + mean * scale)


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("model")
    parser.add_argument("run")
    parser.add_argument("--charts")
    parser.add_argument("--soundfont", action="append", default=[], help="may be given several times")
    parser.add_argument("--kernels", default="build")
    options = parser.parse_args()
    network = ListeningNetwork()
    fill(network, exported(options.model))
    material = supply.Material(options.charts, options.soundfont)
    renderer = supply.Renderer("cpu", options.kernels, material, 12.0, seed=5)
    batches = supply.stream(material, 2, supply.HELD_OUT_SEED, 0, 0, 12.0)
    inputs = [renderer(next(batches))[1:] for _ in range(CLIPS // 2)]
    network.eval()
    with torch.no_grad():
        before = network(*inputs[0])
        settle(network, inputs)
        after = network(*inputs[0])
    print(json.dumps({name: round(float((before[name] - after[name]).abs().max()), 5) for name in before}))
    state = network.state_dict()
    folder = Path(options.run)
    folder.mkdir(parents=True, exist_ok=True)
    torch.save(state, folder / "weights.pt")
    torch.save({k: v if "running" in k else checkpoints.half(v) for k, v in state.items()}, folder / "average.pt")
    (folder / "state.json").write_text(json.dumps(dict(step=0, history=[], from_model=Path(options.model).name)))


if __name__ == "__main__":
    main()
