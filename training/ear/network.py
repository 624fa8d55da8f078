"""The multi-task network: pitch planes for notes and lines, a temporal trunk for pulse, harmony, key and form."""

import torch
import torch.nn.functional as F
from torch import nn

from ear import labels

# Semitone distances to harmonics 2-8 and to sub-harmonics that every pitch row looks at.
HARMONIC_SHIFTS = (-24, -19, -12, -7, 0, 7, 12, 19, 24, 28, 31, 34, 36)
DILATIONS = (1, 2, 4, 8, 16, 32, 64, 128, 64, 256)
# Frames that ``look``, ``think``, ``follow`` and ``players`` see to either side.
LOOK_FRAMES, THINK_FRAMES, FOLLOW_FRAMES, PLAYERS_FRAMES = 5, 2 * sum(DILATIONS), 1, 64
TRUNK_OUTPUTS = ("beat", "meter", "tempo", "chord_root", "chord_bass", "chord_quality", "pitch_classes", "key", "voicing",
                 "bass_onset", "drums", "boundary", "echo")
BASS_ROW = labels.BASS_LOWEST - labels.LOWEST_PITCH


def convolution(inputs, outputs, kernel, stride=1):
    """Convolution over (time, pitch), normalized and rectified; a stride acts on pitch only."""
    padding = (kernel[0] // 2, kernel[1] // 2 if stride == 1 else (kernel[1] - stride) // 2)
    return nn.Sequential(nn.Conv2d(inputs, outputs, kernel, (1, stride), padding, bias=False), nn.BatchNorm2d(outputs), nn.ReLU(inplace=True))


class HarmonicStack(nn.Module):
    """Shows every pitch its harmonics and sub-harmonics."""

    def __init__(self, channels, squeezed=12):
        super().__init__()
        self.squeeze = nn.Conv2d(channels, squeezed, 1)
        self.mix = nn.Sequential(nn.Conv2d(squeezed * len(HARMONIC_SHIFTS), channels, 1, bias=False), nn.BatchNorm2d(channels))

    def forward(self, x):
        reach, rows = max(HARMONIC_SHIFTS), x.shape[3]
        z = F.pad(self.squeeze(x), (reach, reach))
        z = torch.cat([z[:, :, :, reach + shift : reach + shift + rows] for shift in HARMONIC_SHIFTS], 1)
        return F.relu(x + self.mix(z))


class Residual(nn.Module):
    def __init__(self, channels, kernel=(3, 3)):
        super().__init__()
        padding = (kernel[0] // 2, kernel[1] // 2)
        self.body = nn.Sequential(nn.Conv2d(channels, channels, kernel, padding=padding, bias=False), nn.BatchNorm2d(channels))

    def forward(self, x):
        return F.relu(x + self.body(x))


class TemporalBlock(nn.Module):
    """Dilated convolution over time with a residual path."""

    def __init__(self, width, dilation, dropout):
        super().__init__()
        self.wide = nn.Conv1d(width, width, 5, padding=2 * dilation, dilation=dilation, bias=False)
        self.norm_wide = nn.BatchNorm1d(width)
        self.point = nn.Conv1d(width, width, 1, bias=False)
        self.norm_point = nn.BatchNorm1d(width)
        self.dropout = nn.Dropout(dropout)

    def forward(self, x):
        h = self.dropout(F.relu(self.norm_wide(self.wide(x))))
        return F.relu(x + self.norm_point(self.point(h)))


class Returns(nn.Module):
    """Which lag brings back, weaker, what sounded before at the same pitches: every lag judged by the same few weights.

    Takes marks [B, 2 * maps * 88, T] of what may have come back and of what may come back, at every pitch; multiplies each frame's with
    those of the frames before it and gives a logit for every lag [B, T, lags].
    """

    CHUNK = 128     # frames multiplied at once; longer than the longest lag

    def __init__(self, maps, hidden=12):
        super().__init__()
        self.maps = maps
        self.near = convolution(maps, hidden, (5, 3))
        self.wide = nn.Sequential(nn.Conv2d(hidden, hidden, (9, 3), padding=(16, 1), dilation=(4, 1), bias=False), nn.BatchNorm2d(hidden), nn.ReLU())
        self.judge = nn.Conv2d(hidden, 1, 1)

    def products(self, marks):
        """Sums over the pitches of marks now times marks a lag ago [B, maps, T, lags]."""
        batch, _, frames = marks.shape
        chunk, longest, count = self.CHUNK, labels.LAG_FRAMES[-1], len(labels.LAG_FRAMES)
        padded = F.pad(marks, (0, chunk))[:, :, : (frames + chunk - 1) // chunk * chunk]
        # [B, 2, maps, chunks, chunk, pitches]
        both = padded.reshape(batch, 2, self.maps, labels.PITCHES, -1, chunk).permute(0, 1, 2, 4, 5, 3)
        now, past = both[:, 0], both[:, 1]
        before = torch.cat([torch.zeros_like(past[:, :, :1]), past[:, :, :-1]], 2)
        all_pairs = now @ torch.cat([before, past], 3).transpose(3, 4)
        # Row j of a chunk meets the frame a lag ago in column j + chunk - lag: one more column a row makes that column - j a constant.
        rows = F.pad(all_pairs.flatten(3), (0, chunk)).reshape(batch, self.maps, -1, chunk, 2 * chunk + 1)
        band = rows[..., chunk - longest : chunk - longest + count].flip(-1)
        return band.flatten(2, 3)[:, :, :frames]

    def forward(self, marks):
        return self.judge(self.wide(self.near(torch.log1p(self.products(marks)))))[:, 0]


class Players(nn.Module):
    """Who plays a note: voices beside the lead, lines of the accompaniment, or anybody.

    ``planes`` [B, plane, T, 88] and ``context`` [B, maps * 88, T] to logits [B, len(PLAYERS), T, 88]. Sees further in time than the lines
    do, and at every step what sounds most clearly at any pitch, since a line is told from a chord by what begins with it. Takes what the
    rest of the network has learned and can be trained apart.
    """

    DILATIONS = (1, 2, 4, 8, 16, 32)

    def __init__(self, plane, maps, width=40, shared=12):
        super().__init__()
        self.maps = maps
        self.enter = convolution(plane + maps, width, (3, 3))
        self.harmonics = HarmonicStack(width, 8)
        self.blocks = nn.ModuleList(nn.Sequential(nn.Conv2d(width, width, 3, padding=(d, 1), dilation=(d, 1), bias=False), nn.BatchNorm2d(width))
                                    for d in self.DILATIONS)
        self.share = nn.ModuleList(nn.Conv2d(width, shared, 1) for _ in self.DILATIONS)
        self.spread = nn.ModuleList(nn.Conv2d(shared, width, 1, bias=False) for _ in self.DILATIONS)
        self.leave = nn.Sequential(convolution(width, 32, (1, 5)), nn.Conv2d(32, len(labels.PLAYERS), 1))
        nn.init.constant_(self.leave[-1].bias, -3.0)

    def forward(self, planes, context):
        batch, _, frames, _ = planes.shape
        context = context.reshape(batch, self.maps, labels.PITCHES, frames).permute(0, 1, 3, 2)
        x = self.harmonics(self.enter(torch.cat([planes, context], 1)))
        for block, share, spread in zip(self.blocks, self.share, self.spread):
            anywhere = spread(share(x).amax(3, keepdim=True))
            x = F.relu(x + block(x) + anywhere)
        return self.leave(x)


class ListeningNetwork(nn.Module):
    """``tonal`` [B, 3, T, 264] and ``rhythm`` [B, 1, T, 90] to a dictionary of logits [B, T, C] (FEATURES.md)."""

    def __init__(self, fine=28, plane=64, width=224, context=6, maps=6, dropout=0.1):
        super().__init__()
        self.tonal_norm, self.rhythm_norm = nn.BatchNorm2d(3), nn.BatchNorm2d(1)
        self.fine = nn.Sequential(convolution(3, fine, (3, 5)), convolution(fine, fine, (3, 3)), convolution(fine, plane, (3, 5), 3))
        self.planes = nn.Sequential(HarmonicStack(plane), Residual(plane), HarmonicStack(plane), Residual(plane))
        self.squeeze = convolution(plane, 24, (1, 1))
        self.tonal_embed = nn.Conv1d(24 * labels.PITCHES, width, 1)
        self.rhythm = nn.Sequential(
            convolution(1, 16, (3, 3)), nn.MaxPool2d((1, 3)), convolution(16, 32, (5, 3)), nn.MaxPool2d((1, 3)),
            convolution(32, 40, (5, 3)), nn.MaxPool2d((1, 2)))
        self.rhythm_embed = nn.Conv1d(40 * 5, 112, 1)
        self.join = nn.Sequential(nn.Conv1d(width + 112, width, 1, bias=False), nn.BatchNorm1d(width), nn.ReLU())
        self.trunk = nn.Sequential(*[TemporalBlock(width, d, dropout) for d in DILATIONS])
        self.mark, self.returns, self.no_echo = nn.Conv2d(plane, 2 * maps, 1), Returns(maps), nn.Conv1d(width, 1, 1)
        self.sizes = [labels.OUTPUTS[name][0] for name in TRUNK_OUTPUTS]
        self.heads = nn.Conv1d(width, sum(self.sizes) - self.sizes[-1] + 1, 1)
        self.width = width
        self.context = nn.Conv1d(width, labels.PITCHES * context, 1)
        self.context_planes, self.plane = context, plane
        # Planes over the 88 pitches: three lead thirds, second voice, onset, sustain, bass.
        self.players = Players(plane, context)
        self.lines = nn.Sequential(convolution(plane + context, 40, (3, 3)), convolution(40, 40, (1, 5)), nn.Conv2d(40, 7, 1))

    # The three stages of a pass. Only the second looks far in time, and what it takes is narrow: so a program can run the first
    # and the third, which are broad, on short stretches of a recording.

    def look(self, tonal, rhythm):
        """Pitch planes [B, plane, T, 88] and what the second stage takes in [B, width + marks, T]; sees ``LOOK_FRAMES`` to either side."""
        batch, _, frames, _ = tonal.shape
        planes = self.planes(self.fine(self.tonal_norm(tonal)))
        e = self.squeeze(planes).permute(0, 1, 3, 2).reshape(batch, 24 * labels.PITCHES, frames)
        r = self.rhythm(self.rhythm_norm(rhythm)).permute(0, 1, 3, 2).reshape(batch, 200, frames)
        joined = self.join(torch.cat([F.relu(self.tonal_embed(e)), F.relu(self.rhythm_embed(r))], 1))
        marks = F.relu(self.mark(planes)).permute(0, 1, 3, 2).reshape(batch, -1, frames)
        return planes, torch.cat([joined, marks], 1)

    def think(self, joined):
        """Logits of all trunk outputs and "no bass" [B, T, sum + 1], and context for the lines [B, context * 88, T]."""
        h = self.trunk(joined[:, : self.width])
        heads = self.heads(h).transpose(1, 2)
        echo = torch.cat([self.returns(joined[:, self.width :]), self.no_echo(h).transpose(1, 2)], 2)
        return torch.cat([heads[:, :, :-1], echo, heads[:, :, -1:]], 2), self.context(h)

    def follow(self, planes, context):
        """Logits over the pitches [B, T, 7, 88]: three thirds of the lead, second voice, onset, sustain, bass."""
        batch, _, frames, _ = planes.shape
        context = context.reshape(batch, self.context_planes, labels.PITCHES, frames).permute(0, 1, 3, 2)
        return self.lines(torch.cat([planes, context], 1)).permute(0, 2, 1, 3)

    @torch.no_grad()
    def heard(self, tonal, rhythm):
        """What the players' stage takes in: planes and context."""
        planes, joined = self.look(tonal, rhythm)
        return planes, self.think(joined)[1]

    def outputs(self, flat, lines):
        """The dictionary of logits, from what ``think`` and ``follow`` give."""
        out = dict(zip(TRUNK_OUTPUTS, flat.split(self.sizes + [1], 2)))
        batch, frames = flat.shape[:2]
        out["lead"] = lines[:, :, :3].transpose(2, 3).reshape(batch, frames, labels.LEAD_BINS)
        out["second"], out["note_onset"], out["note_sustain"] = lines[:, :, 3], lines[:, :, 4], lines[:, :, 5]
        bass = lines[:, :, 6, BASS_ROW : BASS_ROW + labels.BASS_PITCHES]
        out["bass_pitch"] = torch.cat([bass, flat[:, :, -1:]], 2)
        return {name: out[name] for name in labels.OUTPUTS}

    def forward(self, tonal, rhythm):
        planes, joined = self.look(tonal, rhythm)
        flat, context = self.think(joined)
        return self.outputs(flat, self.follow(planes, context))
