"""The note sheet of one clip: what the voice kernel plays, and what of it the labels need."""

import math

import numpy as np

from ear.labels import SAMPLE_RATE_HZ
from ear.timbres import TIMBRE_FIELDS

# Order of ``struct Note`` in voice.cu.
NOTE_FIELDS = ("clip", "bus", "timbre", "zone", "start", "gate", "total", "hertz", "amplitude", "decay", "glide",
               "vibrato_depth", "brightness", "phase", "noise_offset", "vowel_from", "vowel_to", "spare")
BUSES = ("drums", "bass", "comp", "texture", "lead", "backing")
DRUMS, BASS, COMP, TEXTURE, LEAD, BACKING = range(6)
NOISE_LENGTH = 65536
MOST_NOTES = 5200


class NoteSheet:
    """Collects notes in seconds; pitches are MIDI numbers before tuning."""

    def __init__(self, dice, clip_seconds, tuning_semitones, soundfont=None):
        self.dice, self.clip_seconds, self.tuning = dice, clip_seconds, tuning_semitones
        self.soundfont = soundfont
        self.rows, self.timbres, self.harmonics = [], [], []
        self.heard = []     # (start, audible end, pitch, bus, instrument) of pitched notes
        self.strokes = []   # (time, drum class)

    def enlist(self, instrument):
        """Registers an instrument and returns it with its row number set."""
        instrument.row = len(self.timbres)
        self.timbres.append(instrument.timbre_row())
        self.harmonics.append(instrument.harmonics)
        return instrument

    def note(self, bus, start, duration, pitch, velocity, instrument, glide=0.0, vibrato=None, vowels=(-1, -1), heard=True):
        """Plays a note; ``glide`` is the relative pitch offset it starts with, ``vibrato`` a relative depth."""
        if start >= self.clip_seconds or len(self.rows) >= MOST_NOTES or not 12 <= pitch <= 115:
            return
        timbre = instrument.timbre
        hertz = 440.0 * 2 ** ((pitch - 69 + self.tuning) / 12)
        decay = instrument.decay
        if instrument.pitch_decay:
            decay *= min(4.0, max(0.15, 220.0 / hertz)) ** instrument.pitch_decay
        total = duration + min(4.5 * timbre.release, 1.5)
        if timbre.sustain < 0.02:
            total = min(total, timbre.attack + decay * 5.5)
        if start + total <= 0:
            return
        zone = -1
        if instrument.preset is not None:
            played = self.soundfont.zone(instrument.preset, int(round(pitch)))
            zone = played.row
            if not played.looped:
                total = min(total, played.seconds * played.root_hertz / hertz)
        dice = self.dice
        self.rows.append((0, bus, instrument.row, zone, int(start * SAMPLE_RATE_HZ), int(duration * SAMPLE_RATE_HZ),
                          int(total * SAMPLE_RATE_HZ), hertz, velocity, decay, glide,
                          instrument.vibrato_depth if vibrato is None else vibrato, 0.5 + velocity, dice.uniform(0, 1),
                          dice.below(NOISE_LENGTH), vowels[0], vowels[1], 0))
        if heard:
            audible = min(duration, total) if timbre.sustain > 0.05 else min(duration, decay * 2.5, total)
            self.heard.append((start, start + max(audible, 0.03), pitch, bus, instrument.row))
        return self.rows[-1]

    def stroke(self, start, velocity, drum, drum_class=None, bus=DRUMS):
        """Plays a drum instrument; ``drum_class`` is 0 kick, 1 snare, 2 cymbal or None for other percussion."""
        if start >= self.clip_seconds or start < -1.5 or len(self.rows) >= MOST_NOTES:
            return
        length = drum.decay * 6
        zone, hertz = -1, drum.hertz
        if drum.zone is not None:
            zone, hertz = drum.zone.row, drum.zone.root_hertz * drum.speed
            length = min(length, drum.zone.seconds / drum.speed)
        samples = int(length * SAMPLE_RATE_HZ)
        self.rows.append((0, bus, drum.row, zone, int(start * SAMPLE_RATE_HZ), samples, samples, hertz, velocity, drum.decay,
                          drum.glide, 0, 1, 0, self.dice.below(NOISE_LENGTH), -1, -1, 0))
        if drum_class is not None:
            self.strokes.append((start, drum_class))

    def arrays(self):
        """(notes [N, NOTE_FIELDS], timbres [I, TIMBRE_FIELDS], harmonics [I, 128]), all float32."""
        notes = np.array(self.rows, np.float32).reshape(-1, len(NOTE_FIELDS))
        timbres = np.array(self.timbres, np.float32).reshape(-1, len(TIMBRE_FIELDS))
        return notes, timbres, np.stack(self.harmonics) if self.harmonics else np.zeros((0, 128), np.float32)


def pitch_offsets(times, note, timbre):
    """Semitones by which glide, vibrato and drift move a note, ``times`` in seconds after its start."""
    _, _, _, _, _, _, _, _, _, _, glide, vibrato, _, phase, *_ = note
    ratio = 1 + glide * np.exp(-times / timbre.glide_seconds)
    ratio += (1 - np.exp(-times / timbre.vibrato_delay)) * vibrato * np.sin(2 * math.pi * timbre.vibrato_hertz * times)
    ratio += timbre.drift_depth * np.sin(2 * math.pi * (timbre.drift_hertz * times + phase))
    return 12 * np.log2(np.maximum(ratio, 0.1))
