"""Sampled instruments from several sources in one sample bank and one zone table, as the voice kernel wants them."""

from pathlib import Path

import numpy as np

from ear.patches import Patches
from ear.soundfont import SoundFont


class Instruments:
    """``fonts``: one for every path, a SoundFont 2 file or a folder of patches; every clip is played by one of them."""

    def __init__(self, paths):
        self.fonts, rows, samples = [], 0, 0
        for path in paths:
            font = (Patches if Path(path).is_dir() else SoundFont)(path, rows, samples)
            rows, samples = rows + len(font.zones), samples + len(font.bank)
            self.fonts.append(font)
        self.bank = np.concatenate([font.bank for font in self.fonts])
        self.zones = np.concatenate([font.zones for font in self.fonts])
