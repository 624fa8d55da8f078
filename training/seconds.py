"""Fits what is sung with the lead: weights of the evidence and costs of the way along the lead's notes.

    java ... undersong.bench.decode.SecondVoiceRows CACHE SOUNDFONT rows.csv tune pulse-tune space-tune stage-tune rock-tune
    python3 training/seconds.py rows.csv

A row: song, worn (1) or clean (0), note of the lead, semitones above the lead, note of the true second voice (-1: none), then the
evidence of ``Candidates`` in its order. A copy begins with note -1, the number of true notes and the seconds it lasts. Every song is
decoded with weights fitted without it and its copies (ten folds), as ``SecondPath`` does it, at several costs. What is weighed against
each other: notes F (onset and pitch) of songs with a second voice, and notes a minute in songs without one, twenty of them as bad as an
F of 0. Prints the best costs, what they give, and the weights over all songs. The bench songs must not be used for this.
"""

import itertools
import sys

import numpy as np

from restrikes import newton

FOLDS = 10
WIDEST_CHANGE = 4
FEWEST_NOTES = 3
BAD_A_MINUTE = 20
PRESENT, CHANGE, INTERVAL, MISSED = (1, 1.5, 2, 2.5), (2, 3, 4), (0.15, 0.3, 0.4), (1, 2)


class Copy:
    """One copy of a song: its candidates, note of the lead by note of the lead."""

    def __init__(self, rows):
        self.song, self.worn, (self.true_notes, self.seconds) = rows[0, 0], rows[0, 1], rows[0, 3:5]
        rows = rows[1:]
        self.lead, self.above, self.true, self.evidence = rows[:, 2], rows[:, 3], rows[:, 4], rows[:, 5:]
        # A note without candidates still is one that the voice passes over.
        notes = np.arange(self.lead.max() + 1) if len(rows) else []
        self.beside = [np.flatnonzero(self.lead == note) for note in notes]

    def decode(self, log_odds, present, change, interval, missed):
        """Rows of the candidates that are sung: ``SecondPath.find``."""
        sings, above, score = np.array([False]), np.array([np.nan]), np.array([0.0])
        back = []
        for beside in self.beside:
            next_sings = np.array([False, True] + [True] * len(beside))
            next_above = np.concatenate([[np.nan, np.nan], self.above[beside]])
            gain = np.concatenate([[0, -missed], log_odds[beside] + present])
            apart = np.minimum(WIDEST_CHANGE, np.abs(next_above[:, None] - above[None]))
            costs = change * (next_sings[:, None] != sings[None]) + interval * np.nan_to_num(apart)
            ways = score[None] - costs
            before = ways.argmax(1)
            back.append(before)
            sings, above, score = next_sings, next_above, ways.max(1) + gain
        at, sung = int(score.argmax()), []
        for beside, before in zip(reversed(self.beside), reversed(back)):
            if at >= 2:
                sung.append(beside[at - 2])
            at = before[at]
        return sung if len(sung) >= FEWEST_NOTES else []

    def worth(self, sung):
        """(notes F, None) with a second voice, (None, notes a minute) without."""
        if not self.true_notes:
            return None, 60 * len(sung) / self.seconds
        right = len({self.true[i] for i in sung} - {-1})
        return 2 * right / (len(sung) + self.true_notes), None


def main():
    rows = np.loadtxt(sys.argv[1], delimiter=",")
    starts = np.flatnonzero(rows[:, 2] < 0)
    copies = [Copy(rows[a:b]) for a, b in zip(starts, [*starts[1:], len(rows)])]
    songs = list(dict.fromkeys(c.song for c in copies))

    def fit(chosen):
        weight = np.concatenate([np.full(len(c.true), 1 / max(1, len(c.true))) for c in chosen])
        return newton(np.concatenate([c.evidence for c in chosen]), np.concatenate([c.true >= 0 for c in chosen]), weight)

    log_odds = {}
    for fold in range(FOLDS):
        weights = fit([c for c in copies if songs.index(c.song) % FOLDS != fold])
        for copy in copies:
            if songs.index(copy.song) % FOLDS == fold:
                log_odds[copy] = copy.evidence @ weights[:-1] + weights[-1]

    best = None
    for costs in itertools.product(PRESENT, CHANGE, INTERVAL, MISSED):
        worths = {copy: copy.worth(copy.decode(log_odds[copy], *costs)) for copy in copies}
        value = np.mean([max(0, 1 - m / BAD_A_MINUTE) if f is None else f for f, m in worths.values()])
        with_voice = {kind: np.mean([f for c, (f, _) in worths.items() if f is not None and c.worn == kind]) for kind in (0, 1)}
        alarms = np.mean([m for _, m in worths.values() if m is not None])
        line = f"present, change, interval, missed {costs}: worth {value:.4f}, notes F {with_voice[0]:.3f} clean, {with_voice[1]:.3f} worn, {alarms:.1f} notes a minute without a second voice"
        if best is None or value > best[0]:
            best = (value, line)
            print(line)
    print("best:", best[1])
    weights = fit(copies)
    print("weights", ", ".join(f"{w:.2f}" for w in weights[:-1]), "bias", f"{weights[-1]:.2f}")


if __name__ == "__main__":
    main()
