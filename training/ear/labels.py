"""Class vocabularies shared by generator, network, evaluator and the exported description.

Everything here is fixed by FEATURES.md; changing an order changes the meaning of a trained model.
"""

SAMPLE_RATE_HZ = 22050
HOP_SAMPLES = 441
FRAMES_PER_SECOND = 50
LOWEST_PITCH = 21
PITCHES = 88
LEAD_BINS = 264

METERS = ("2/4", "3/4", "4/4", "5/4", "7/4", "6/8", "12/8")
QUALITIES = (
    "N", "1", "5", "maj", "min", "dim", "aug", "sus2", "sus4", "maj6", "min6",
    "7", "maj7", "min7", "minmaj7", "hdim7", "dim7", "7sus4",
)
NO_THIRD = ("1", "5", "sus2", "sus4", "7sus4")
MODES = (
    "major", "natural minor", "harmonic minor", "melodic minor",
    "dorian", "phrygian", "lydian", "mixolydian",
)
NO_PITCH_CLASS = 12
KEYS = 12 * len(MODES)

SLOWEST_BPM = 40.0
TEMPO_CLASSES = 63
TEMPO_CLASSES_PER_OCTAVE = 24

BASS_LOWEST = 23
BASS_PITCHES = 45
NO_BASS = BASS_PITCHES

# Lags of a delay that are told apart, in frames; the class after them means that no copy is heard.
LAG_FRAMES = tuple(range(4, 76))
NO_ECHO = len(LAG_FRAMES)

# The bands in which a room has decay times of its own.
ROOM_BANDS_HERTZ = ((80, 250), (250, 800), (800, 2500), (2500, 8000))

# What a stage of its own hears: notes of voices beside the lead, of lines of the accompaniment, and of anybody. Trained apart.
PLAYERS = ("voice_onset", "voice_sustain", "line_onset", "line_sustain", "any_onset", "any_sustain")

DRUMS = ("kick", "snare", "cymbal")
VOICING = ("lead", "sung", "second")

# Output name -> (number of classes, how a row becomes probabilities), in the order of the exported model.
OUTPUTS = {
    "beat": (2, "sigmoid"),
    "meter": (len(METERS), "softmax"),
    "tempo": (TEMPO_CLASSES, "softmax"),
    "chord_root": (13, "softmax"),
    "chord_bass": (13, "softmax"),
    "chord_quality": (len(QUALITIES), "softmax"),
    "pitch_classes": (12, "sigmoid"),
    "key": (KEYS, "softmax"),
    "voicing": (len(VOICING), "sigmoid"),
    "lead": (LEAD_BINS, "softmax"),
    "second": (PITCHES, "softmax"),
    "note_onset": (PITCHES, "sigmoid"),
    "note_sustain": (PITCHES, "sigmoid"),
    "bass_pitch": (BASS_PITCHES + 1, "softmax"),
    "bass_onset": (1, "sigmoid"),
    "drums": (len(DRUMS), "sigmoid"),
    "boundary": (1, "sigmoid"),
    "echo": (len(LAG_FRAMES) + 1, "softmax"),
}
