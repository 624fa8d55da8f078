"""Training state on disk: weights and optimizer apart, each under 16 MiB."""

import json
from pathlib import Path

import torch


def half(tensor):
    return tensor.half() if tensor.is_floating_point() else tensor


def save(folder, network, average, optimizer, step, history, started):
    """Writes weights.pt, average.pt, moments_1.pt, moments_2.pt and state.json into ``folder``."""
    folder = Path(folder)
    folder.mkdir(parents=True, exist_ok=True)
    parameters = list(network.parameters())
    torch.save({k: v.cpu() for k, v in network.state_dict().items()}, folder / "weights.pt")
    # Running statistics can exceed what 16 bits hold.
    torch.save({k: (v if "running" in k else half(v)).cpu() for k, v in average.items()}, folder / "average.pt")
    for file, key in (("moments_1.pt", "exp_avg"), ("moments_2.pt", "exp_avg_sq")):
        moments = [optimizer.state[p][key].bfloat16().cpu() if p in optimizer.state else None for p in parameters]
        torch.save(moments, folder / file)
    (folder / "state.json").write_text(json.dumps(dict(step=step, history=history, **started)))


def load_average(folder):
    state = torch.load(Path(folder) / "average.pt", map_location="cpu")
    return {k: v.float() if v.is_floating_point() else v for k, v in state.items()}


def restore(folder, network, average, optimizer):
    """Loads what ``save`` wrote; returns the contents of state.json."""
    folder = Path(folder)
    network.load_state_dict(torch.load(folder / "weights.pt", map_location="cpu"))
    for name, tensor in load_average(folder).items():
        average[name].copy_(tensor)
    state = json.loads((folder / "state.json").read_text())
    if not (folder / "moments_1.pt").exists():      # weights taken from an exported model (ear.warm)
        return state
    first = torch.load(folder / "moments_1.pt", map_location="cpu")
    second = torch.load(folder / "moments_2.pt", map_location="cpu")
    for parameter, m, v in zip(network.parameters(), first, second):
        if m is not None:
            optimizer.state[parameter] = dict(step=torch.tensor(float(state["step"])), exp_avg=m.float().to(parameter.device),
                                              exp_avg_sq=v.float().to(parameter.device))
    return state
