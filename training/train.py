"""Trains the listening network on random clips.

    python3 train.py --out RUN --seconds 500                     # constant rate, stops by the clock, saves
    python3 train.py --out RUN --resume RUN --decay-steps 800    # short decay to zero, then saves
    torchrun --nproc-per-node 2 train.py ...                     # one process a GPU, gradients averaged

The rate depends on the step alone, so a run may be cut anywhere and finished with a decay branch. With several GPUs every
process draws clips of its own; the clips a step learns from are then --clips times the number of GPUs.
"""

import argparse
import json
import os
import time

import torch
import torch.distributed

from ear import checkpoints, losses, supply
from ear.network import ListeningNetwork

WARMUP_STEPS = 400
LONGEST_AVERAGE = 0.9985
STEPS_BETWEEN_CLOCK_CHECKS = 10
# Parts that are trained apart, and what they lose.
ALONE = {"players": losses.players}
RANK, WORLD = int(os.environ.get("RANK", "0")), int(os.environ.get("WORLD_SIZE", "1"))


def arguments():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--out", required=True)
    parser.add_argument("--resume")
    parser.add_argument("--seconds", type=float, default=1e9, help="stop after this many seconds, set-up included")
    parser.add_argument("--steps", type=int, default=10**9, help="stop at this step")
    parser.add_argument("--decay-steps", type=int, default=0, help="decay the rate to zero over this many steps and stop")
    parser.add_argument("--decay-seconds", type=float, default=0, help="like --decay-steps, length measured from the speed of the last steps")
    parser.add_argument("--clips", type=int, default=14, help="clips a step and GPU")
    parser.add_argument("--clip-seconds", type=float, default=48.0)
    parser.add_argument("--rate", type=float, default=2e-3)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--workers", type=int, default=14)
    parser.add_argument("--device", default="cuda")
    parser.add_argument("--charts")
    parser.add_argument("--soundfont", action="append", default=[], help="may be given several times")
    parser.add_argument("--kernels", default="build", help="folder for the compiled voice kernel")
    parser.add_argument("--compile", action="store_true")
    parser.add_argument("--only", choices=["players"], help="learn this part of the network and leave the rest as it is")
    parser.add_argument("--unworn", action="store_true", help="leave out what wears a recording down (Mixer.worn), to see what it is good for")
    parser.add_argument("--log-every", type=int, default=100)
    parser.add_argument("--save-every", type=int, default=0, help="also save whenever this many steps are done, in case the machine goes away")
    return parser.parse_args()


class Trainer:
    """Network, moving average, optimizer and the supply of one run."""

    def __init__(self, options):
        self.options, self.began = options, time.time()
        if options.device == "cuda":
            torch.cuda.set_device(RANK)
        if WORLD > 1:
            torch.distributed.init_process_group("nccl" if options.device == "cuda" else "gloo")
        torch.manual_seed(options.seed + 1000 * RANK)
        torch.backends.cuda.matmul.allow_tf32 = torch.backends.cudnn.allow_tf32 = True
        torch.backends.cudnn.benchmark = True
        device = options.device
        self.network = ListeningNetwork().to(device)
        if device == "cuda":
            self.network = self.network.to(memory_format=torch.channels_last)
        self.learning = getattr(self.network, options.only) if options.only else self.network
        self.average = {k: v.detach().clone() for k, v in self.network.state_dict().items()}
        self.optimizer = torch.optim.AdamW(self.learning.parameters(), lr=options.rate, weight_decay=1e-2, betas=(0.9, 0.98))
        self.step, self.history = 0, []
        if options.resume:
            state = checkpoints.restore(options.resume, self.network, self.average, self.optimizer)
            self.step, self.history = state["step"], state["history"]
            torch.manual_seed(options.seed + self.step + 1_000_000 * RANK)
        material = supply.Material(options.charts, options.soundfont)
        self.renderer = supply.Renderer(device, options.kernels, material, options.clip_seconds, worn=not options.unworn)
        self.batches = supply.stream(material, options.clips, options.seed * 100_000_000, self.step * WORLD + RANK, options.workers,
                                     options.clip_seconds, WORLD)
        self.forward = torch.compile(self.learning) if options.compile else self.learning
        self.heard = torch.compile(self.network.heard) if options.compile else self.network.heard
        self.decay_from, self.decay_steps = None, options.decay_steps
        if options.decay_steps:
            self.decay_from = self.step

    def rate(self):
        base = self.options.rate * min(1.0, (self.step + 1) / WARMUP_STEPS)
        if self.decay_from is None:
            return base
        return base * max(0.0, 1 - (self.step - self.decay_from) / self.decay_steps)

    def one_step(self, clock):
        options = self.options
        begin = time.time()
        batch = next(self.batches)
        clock["wait"] += time.time() - begin
        batch, tonal, rhythm = self.renderer(batch)
        if clock["exact"]:
            torch.cuda.synchronize()
            clock["render"] += time.time() - begin
        if options.device == "cuda":
            tonal = tonal.to(memory_format=torch.channels_last)
        with torch.autocast(options.device, dtype=torch.bfloat16, enabled=options.device == "cuda"):
            out = self._listen(tonal, rhythm)
        out = {name: logits.float() for name, logits in out.items()}
        each = {options.only: ALONE[options.only](out[options.only], batch)} if options.only else losses.by_head(out, batch)
        loss = losses.total(each)
        for group in self.optimizer.param_groups:
            group["lr"] = self.rate()
        self.optimizer.zero_grad(set_to_none=True)
        loss.backward()
        self._share_gradients()
        torch.nn.utils.clip_grad_norm_(self.learning.parameters(), 2.0)
        # A bad step must change nothing, and asking the GPU whether it was bad would stall it.
        for parameter in self.learning.parameters():
            if parameter.grad is not None:
                torch.nan_to_num_(parameter.grad, 0.0, 0.0, 0.0)
        self.optimizer.step()
        self._average()
        if clock["exact"]:
            torch.cuda.synchronize()
            clock["step"] += time.time() - begin
        self.step += 1
        each["all"] = loss
        return {name: value.detach() for name, value in each.items()}

    def _listen(self, tonal, rhythm):
        """{output: logits}; where one part learns, the rest listens as it does in use."""
        if self.options.only == "players":
            self.network.eval()
            self.learning.train()
            return {"players": self.forward(*self.heard(tonal, rhythm))}
        return self.forward(tonal, rhythm)

    def _share_gradients(self):
        """Averages the gradients over all GPUs."""
        if WORLD == 1:
            return
        gradients = [p.grad for p in self.learning.parameters() if p.grad is not None]
        joined = torch.cat([g.flatten() for g in gradients])
        torch.distributed.all_reduce(joined)
        joined /= WORLD
        for gradient, part in zip(gradients, joined.split([g.numel() for g in gradients])):
            gradient.copy_(part.view_as(gradient))

    @torch.no_grad()
    def _average(self):
        weight = 1 - min(LONGEST_AVERAGE, (self.step + 1) / (self.step + 10))
        state = self.network.state_dict()
        names = [k for k in state if state[k].is_floating_point()]
        averages = [self.average[k] for k in names]
        torch._foreach_mul_(averages, 1 - weight)
        torch._foreach_add_(averages, [state[k] for k in names], alpha=weight)

    def _save(self):
        options = self.options
        if RANK == 0:
            checkpoints.save(options.out, self.network, self.average, self.optimizer, self.step, self.history,
                             dict(clips=options.clips * WORLD, clip_seconds=options.clip_seconds, rate=options.rate, seed=options.seed))

    def finished(self):
        if self.decay_from is not None and self.step >= self.decay_from + self.decay_steps:
            return True
        if self.step >= self.options.steps:
            return True
        return self.step % STEPS_BETWEEN_CLOCK_CHECKS == 0 and self._agreed(time.time() - self.began > self.options.seconds) > 0

    def _agreed(self, number):
        """The first process's number, so that all do the same."""
        if WORLD == 1:
            return number
        told = torch.tensor([float(number)], device=self.options.device)
        torch.distributed.broadcast(told, 0)
        return float(told)

    def run(self):
        options, first = self.options, self.step
        sums, count, marked, marked_step = {}, 0, time.time(), self.step
        say(setup=round(time.time() - self.began, 1), step=self.step)
        clock = dict(wait=0.0, render=0.0, step=0.0, exact=False)
        while not self.finished():
            done = self.step - first
            if done == 10 and options.device == "cuda":
                clock = dict(wait=0.0, render=0.0, step=0.0, exact=True)
            if done == 40 and options.device == "cuda":
                memory = torch.cuda.max_memory_allocated() / 2**30
                milliseconds = {k: round(clock[k] / 30 * 1e3, 1) for k in ("wait", "render", "step")}
                say(milliseconds=milliseconds, gigabytes=round(memory, 1))
                clock["exact"] = False
                marked, marked_step = time.time(), self.step
            for name, value in self.one_step(clock).items():
                sums[name] = sums.get(name, 0) + value
            count += 1
            if options.decay_seconds and self.decay_from is None and done == 60:
                per_step = self._agreed((time.time() - marked) / max(1, self.step - marked_step))
                self.decay_from, self.decay_steps = self.step, max(1, int(options.decay_seconds / per_step))
                say(decay_steps=self.decay_steps)
            if self.step % options.log_every == 0 and RANK == 0:
                row = {name: round(float(value / count), 4) for name, value in sums.items()}
                row.update(step=self.step, rate=round(self.rate(), 6), seconds=round(time.time() - self.began, 1),
                           clips_per_second=round((self.step - marked_step) * options.clips * WORLD / (time.time() - marked), 1))
                self.history.append(row)
                say(**row)
                sums, count = {}, 0
            if options.save_every and self.step % options.save_every == 0:
                self._save()
        self._save()
        say(saved=options.out, step=self.step, seconds=round(time.time() - self.began, 1))
        if WORLD > 1:
            torch.distributed.destroy_process_group()


def say(**facts):
    """One line of JSON, from the first process only."""
    if RANK == 0:
        print(json.dumps(facts), flush=True)


if __name__ == "__main__":
    Trainer(arguments()).run()
