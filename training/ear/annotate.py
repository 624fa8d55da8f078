"""Frame labels of a clip, from its plan and from what is really played (FEATURES.md, "Frame targets")."""

import math

import numpy as np

from ear import labels
from ear.notes import BACKING, BASS, COMP, LEAD, TEXTURE, pitch_offsets
from ear.theory import sounding_quality
from ear.timeline import meter_class

# A chord member counts if the accompaniment plays it for this share of the chord, or the lead dwells on it this long.
ACCOMPANIED_SHARE = 0.07
SUNG_SHARE = 0.2
UNLABELED = -1
# Notes that begin within this belong to one stroke.
TOGETHER_SECONDS = 0.09


def frame(seconds):
    return int(math.ceil(seconds * labels.FRAMES_PER_SECOND - 1e-9))


class Annotator:
    """Collects the label arrays of one clip of ``frames`` frames."""

    def __init__(self, song, frames):
        self.song, self.frames = song, frames
        self.active = song.active or (-1e9, 1e9)
        heard = np.array(song.sheet.heard, np.float64).reshape(-1, 5)
        self.starts, self.ends, self.pitches = heard[:, 0], heard[:, 1], np.round(heard[:, 2]).astype(int)
        self.buses, self.players = heard[:, 3].astype(int), heard[:, 4].astype(int)

    def all(self, lead, second):
        """The dictionary of label arrays; see train.py for how each one is used."""
        out = {}
        out.update(self._pulse())
        out.update(self._harmony())
        out.update(self._lines(lead, second))
        out.update(self._notes())
        out.update(self._points_of("voice", self._beside()))
        out.update(self._points_of("line", self._alone()))
        return out

    def _points(self, times, size=1):
        """Point targets in halves: 2 on the frame, 1 beside it (``size`` frames on either side)."""
        row = np.zeros(self.frames, np.uint8)
        for time in times:
            middle = int(round(time * labels.FRAMES_PER_SECOND))
            for i in range(max(0, middle - size), min(self.frames, middle + size + 1)):
                row[i] = max(row[i], 2 if i == middle else 1)
        return row

    def _pulse(self):
        timeline, fps = self.song.timeline, labels.FRAMES_PER_SECOND
        beats = np.array(timeline.beats)
        sounding = [t for t in beats if self.active[0] - 0.02 <= t <= self.active[1] + 0.02]
        downbeats = [t for t in beats[:: timeline.bar_beats] if t in sounding]
        pulse = np.stack([self._points(sounding), self._points(downbeats)], 1)
        periods = np.diff(beats)
        smooth = np.convolve(np.pad(periods, 2, mode="edge"), np.ones(5) / 5, "valid")
        index = np.clip(np.searchsorted(beats, np.arange(self.frames) / fps, "right") - 1, 0, len(periods) - 1)
        tempo = labels.TEMPO_CLASSES_PER_OCTAVE * np.log2(60 / smooth[index] / labels.SLOWEST_BPM)
        edges = np.zeros(self.frames, np.uint8)
        for section in self.song.sections:
            time = timeline.seconds(section.start_beat)
            inside = self.active[0] < time < self.active[1]
            if inside and (section.marked or section.halfway):
                # A section that changes halfway through is half a boundary.
                for reach, value in ((0.3, 1), (0.1, 2)) if section.marked else ((0.1, 1),):
                    a, b = max(0, frame(time - reach)), min(self.frames, frame(time + reach))
                    edges[a:b] = np.maximum(edges[a:b], value) if b > a else 0
        strokes = np.zeros((self.frames, len(labels.DRUMS)), np.uint8)
        for kind in range(len(labels.DRUMS)):
            strokes[:, kind] = self._points([t for t, k in self.song.sheet.strokes if k == kind])
        return dict(beat=pulse, tempo=tempo.astype(np.float32), meter=np.int64(meter_class(timeline)), boundary=edges, drums=strokes)

    def _harmony(self):
        shape = self.frames
        root, bass = np.full(shape, labels.NO_PITCH_CLASS, np.int8), np.full(shape, labels.NO_PITCH_CLASS, np.int8)
        quality, members = np.zeros(shape, np.int8), np.zeros((shape, 12), np.uint8)
        key = np.full(shape, UNLABELED, np.int8)
        played = (self.buses == BASS) | (self.buses == COMP) | (self.buses == TEXTURE)
        sung = self.buses >= LEAD
        for span in self.song.spans:
            a, b = max(0, frame(max(span.start, self.active[0]))), min(shape, frame(min(span.end, self.active[1])))
            if b <= a:
                continue
            section = span.section
            if section.keyed:
                key[a:b] = labels.MODES.index(section.mode) * 12 + section.tonic
            if span.chord is None:
                continue
            length = span.end - span.start
            overlap = np.clip(np.minimum(self.ends, span.end) - np.maximum(self.starts, span.start), 0, None) / length
            classes = self.pitches % 12
            accompaniment = np.bincount(classes, overlap * played, 12)
            voices = np.bincount(classes, overlap * sung, 12)
            if accompaniment.max() < ACCOMPANIED_SHARE:
                continue
            chord = span.chord
            heard = {i for i in chord.intervals
                     if accompaniment[(chord.root + i) % 12] >= ACCOMPANIED_SHARE or voices[(chord.root + i) % 12] >= SUNG_SHARE}
            heard.add(0)
            root[a:b] = chord.root
            quality[a:b] = labels.QUALITIES.index(sounding_quality(chord, heard))
            members[a:b, [(chord.root + i) % 12 for i in heard]] = 1
            bass[a:b] = self._lowest(chord, overlap, played, classes)
        if not self.song.sheet.heard:
            key[:] = UNLABELED
        return dict(chord_root=root, chord_bass=bass, chord_quality=quality, pitch_classes=members, key=key)

    def _lowest(self, chord, overlap, played, classes):
        """The chord's bass: as planned if a bass plays, else the lowest member the accompaniment dwells on."""
        if (overlap * (self.buses == BASS)).sum() > 0.1:
            return chord.bass
        lasting = played & (overlap > 0.12)
        if lasting.any():
            lowest = int(classes[np.where(lasting, self.pitches, 999).argmin()])
            if lowest in chord.pitch_classes:
                return lowest
        return chord.bass

    def _lines(self, lead, second):
        fps, frames = labels.FRAMES_PER_SECOND, self.frames
        pitch, sung, other = np.zeros(frames, np.float32), np.zeros(frames, np.uint8), np.full(frames, UNLABELED, np.int8)
        for i, note in enumerate(lead):
            end = min(note.end, lead[i + 1].start) if i + 1 < len(lead) else note.end
            a, b = max(0, frame(note.start)), min(frames, frame(end))
            if b > a:
                times = np.arange(a, b) / fps - note.start
                pitch[a:b] = note.pitch + self.song.sheet.tuning + pitch_offsets(times, note.row, note.timbre)
                sung[a:b] = note.sung
        for note in second:
            a, b = max(0, frame(note.start)), min(frames, frame(note.end))
            other[a:b] = int(round(note.pitch)) - labels.LOWEST_PITCH
        other[(other >= labels.PITCHES) | (pitch <= 0)] = UNLABELED
        return dict(lead=pitch, sung=sung, second=other)

    def _beside(self):
        """Notes of voices beside the lead, whether they sing with it or in its rests; those at its own pitch are none."""
        lead = np.flatnonzero(self.buses == LEAD)
        beside = self.buses == BACKING
        for i in np.flatnonzero(beside):
            same = (self.pitches[lead] == self.pitches[i]) & (np.abs(self.starts[lead] - self.starts[i]) < TOGETHER_SECONDS)
            beside[i] = not same.any()
        return beside

    def _alone(self):
        """Notes of the accompaniment with which the same player strikes no other."""
        alone = (self.buses == COMP) | (self.buses == TEXTURE)
        for player in np.unique(self.players[alone]):
            mine = np.flatnonzero(alone & (self.players == player))
            mine = mine[np.argsort(self.starts[mine], kind="stable")]
            close = np.diff(self.starts[mine]) < TOGETHER_SECONDS
            alone[mine[:-1][close]] = alone[mine[1:][close]] = False
        return alone

    def _points_of(self, name, chosen):
        """Beginnings, in halves, and holding of the chosen notes by pitch."""
        onset, sustain = np.zeros((self.frames, labels.PITCHES), np.uint8), np.zeros((self.frames, labels.PITCHES), np.uint8)
        for i in np.flatnonzero(chosen):
            self._mark(onset, sustain, self.starts[i], self.ends[i], self.pitches[i] - labels.LOWEST_PITCH)
        return {name + "_onset": onset, name + "_sustain": sustain}

    def _mark(self, onset, sustain, start, end, row):
        a, b, middle = max(0, frame(start)), min(self.frames, frame(end)), int(round(start * labels.FRAMES_PER_SECOND))
        if 0 <= row < labels.PITCHES and b > a:
            sustain[a:b, row] = 1
            for i in (middle - 1, middle, middle + 1):
                if 0 <= i < self.frames:
                    onset[i, row] = max(onset[i, row], 2 if i == middle else 1)

    def _notes(self):
        frames = self.frames
        onset, sustain = np.zeros((frames, labels.PITCHES), np.uint8), np.zeros((frames, labels.PITCHES), np.uint8)
        bass, bass_onsets = np.full(frames, labels.NO_BASS, np.int8), []
        order = np.argsort(self.starts, kind="stable")
        for start, end, pitch, bus in zip(self.starts[order], self.ends[order], self.pitches[order], self.buses[order]):
            a, b = max(0, frame(start)), min(frames, frame(end))
            self._mark(onset, sustain, start, end, pitch - labels.LOWEST_PITCH)
            if bus == BASS and b > a and labels.BASS_LOWEST <= pitch < labels.BASS_LOWEST + labels.BASS_PITCHES:
                bass[a:b] = pitch - labels.BASS_LOWEST
                bass_onsets.append(start)
        return dict(note_onset=onset, note_sustain=sustain, bass_pitch=bass, bass_onset=self._points(bass_onsets))
