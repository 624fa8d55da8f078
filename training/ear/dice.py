"""Random choices that come out equal on every machine for an equal seed.

Only ``random.Random.random`` is used underneath: its stream is fixed across Python versions, which the
convenience methods of ``random`` and of numpy do not promise.
"""

import math
import random


class Dice:
    """A seeded source of musical decisions."""

    def __init__(self, seed):
        self._random = random.Random(seed).random

    def chance(self, probability):
        return self._random() < probability

    def uniform(self, low, high):
        return low + (high - low) * self._random()

    def log_uniform(self, low, high):
        """Uniform in the logarithm: every octave between the bounds is as likely as every other."""
        return low * (high / low) ** self._random()

    def below(self, count):
        """A whole number from 0 to ``count - 1``."""
        return int(self._random() * count)

    def pick(self, options):
        return options[int(self._random() * len(options))]

    def weighted(self, weights):
        """A key of the dictionary ``weights``, with probability proportional to its value."""
        left = self._random() * sum(weights.values())
        for option, weight in weights.items():
            left -= weight
            if left < 0:
                return option
        return option

    def gauss(self, mean, deviation):
        radius = math.sqrt(-2 * math.log(1 - self._random()))
        return mean + deviation * radius * math.cos(2 * math.pi * self._random())

    def shuffled(self, options):
        left = list(options)
        return [left.pop(self.below(len(left))) for _ in range(len(left))]
