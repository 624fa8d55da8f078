"""Fits what is told of a voice that goes its own way: weights of the evidence and costs of the way from note to note.

    java ... undersong.bench.decode.FreeVoiceRows CACHE SOUNDFONT rows.csv voice-tune tune pulse-tune space-tune stage-tune rock-tune
    python3 training/free.py rows.csv

A row: song, worn (1) or clean (0), start and end in seconds, MIDI pitch, how it stands to the lead (``FreeCandidates.Standing``), note of the true
second voice (-1: none), then the evidence of ``FreeCandidates`` in its order. A copy begins with a row whose start is -1, with the number of true
notes in place of the note and the seconds it lasts. Each standing has weights of its own, fitted together. Every song is decoded with weights fitted without it and its copies (ten folds), as ``FreePath`` does it, at several costs. What is
weighed against each other: notes F of songs with a second voice, and notes a minute in songs without one, twenty of them as bad as an F
of 0. The bench songs must not be used for this.
"""

import itertools
import sys

import numpy as np

from restrikes import newton

FOLDS, STANDINGS = 10, 3
LEAST_ODDS = -4
SHORTEST_SECONDS, PHRASE_SECONDS, WIDEST_LEAP, FEWEST_NOTES = 0.06, 1.0, 12, 3
BAD_A_MINUTE, AFTER_SECONDS = 20, 0.05
PRESENT, PHRASE, LEAP, LEAST = (0, 0.5, 1), (1, 2), (0.1, 0.2), (0, 10, 20)


class Copy:
    """One copy of a song: its candidates in order of onset."""

    def __init__(self, rows):
        self.song, self.worn, self.true_notes, self.seconds = rows[0, 0], rows[0, 1], rows[0, 6], rows[0, 7]
        rows = rows[1:]
        self.along, rows = rows[rows[:, 5] == STANDINGS], rows[rows[:, 5] < STANDINGS]
        self.start, self.end, self.pitch, standing, self.true = rows[:, 2:7].T
        each = np.hstack([rows[:, 7:], np.ones((len(rows), 1))])
        self.evidence = np.hstack([each * (standing == s)[:, None] for s in range(STANDINGS)])

    def decode(self, log_odds, present, phrase, leap):
        """Rows of the candidates that are sung: ``FreePath.find``."""
        kept = np.flatnonzero(log_odds + present > LEAST_ODDS)
        start, end, pitch, gain = self.start[kept], self.end[kept], self.pitch[kept], log_odds[kept] + present
        score, before = np.zeros(len(kept)), np.full(len(kept), -1)
        best, best_at, first = 0.0, -1, 0
        done = 0
        for i in range(len(kept)):
            while done < i and start[done] <= start[i] - SHORTEST_SECONDS:
                if score[done] > best:
                    best, best_at = score[done], done
                done += 1
            most, at = best - phrase, best_at
            if done:
                near = np.arange(max(0, done - 80), done)
                near = near[start[i] - end[near] <= PHRASE_SECONDS]
                if len(near):
                    ways = score[near] - leap * np.minimum(WIDEST_LEAP, np.abs(pitch[i] - pitch[near]))
                    k = int(ways.argmax())
                    if ways[k] > most:
                        most, at = ways[k], near[k]
            score[i], before[i] = most + gain[i], at
        if not len(kept) or score.max() <= 0:
            return []
        at, sung = int(score.argmax()), []
        while at >= 0:
            sung.append(kept[at])
            at = before[at]
        return sung[::-1] if len(sung) >= FEWEST_NOTES else []

    def worth(self, sung, log_odds, present, least):
        """(notes F, None) with a second voice, (None, notes a minute) without; with what moves with the lead, as ``HeardVoices`` joins them."""
        taken = self.along[:, 2:4]
        sung = [i for i in sung if not ((taken[:, 0] - AFTER_SECONDS < self.start[i]) & (self.start[i] < taken[:, 1] - AFTER_SECONDS)).any()]
        if len(sung) < FEWEST_NOTES or (log_odds[sung] + present + 1).sum() < least:
            sung = []
        told = len(sung) + len(self.along)
        if not self.true_notes:
            return None, 60 * told / self.seconds
        right = len(({self.true[i] for i in sung} | set(self.along[:, 6])) - {-1})
        return 2 * right / (told + self.true_notes), None


def read(file):
    rows = np.loadtxt(file, delimiter=",")
    starts = np.flatnonzero(rows[:, 2] < 0)
    return [Copy(rows[a:b]) for a, b in zip(starts, [*starts[1:], len(rows)])]


def fit(chosen):
    weight = np.concatenate([np.full(len(c.true), 1 / max(1, len(c.true))) for c in chosen])
    return newton(np.concatenate([c.evidence for c in chosen]), np.concatenate([c.true >= 0 for c in chosen]), weight)


def judged_apart(copies):
    """Log-odds of every candidate by weights fitted without its song."""
    songs, log_odds = list(dict.fromkeys(c.song for c in copies)), {}
    for fold in range(FOLDS):
        weights = fit([c for c in copies if songs.index(c.song) % FOLDS != fold])
        for copy in copies:
            if songs.index(copy.song) % FOLDS == fold:
                log_odds[copy] = copy.evidence @ weights[:-1] + weights[-1]
    return log_odds


def main():
    copies = read(sys.argv[1])
    log_odds = judged_apart(copies)
    best = None
    for present, phrase, leap in itertools.product(PRESENT, PHRASE, LEAP):
        sung = {copy: copy.decode(log_odds[copy], present, phrase, leap) for copy in copies}
        for least in LEAST:
            costs = (present, phrase, leap, least)
            worths = {copy: copy.worth(sung[copy], log_odds[copy], present, least) for copy in copies}
            value = np.mean([max(0, 1 - m / BAD_A_MINUTE) if f is None else f for f, m in worths.values()])
            with_voice = {kind: np.mean([f for c, (f, _) in worths.items() if f is not None and c.worn == kind]) for kind in (0, 1)}
            alarms = np.mean([m for _, m in worths.values() if m is not None])
            line = f"present, phrase, leap, least {costs}: worth {value:.4f}, notes F {with_voice[0]:.3f} clean, {with_voice[1]:.3f} worn, {alarms:.1f} notes a minute without a second voice"
            if best is None or value > best[0]:
                best = (value, line)
                print(line)
    print("best:", best[1])
    weights = fit(copies)
    for each in weights[:-1].reshape(STANDINGS, -1):
        print("bias", f"{each[-1] + weights[-1]:.2f}", "weights", ", ".join(f"{w:.2f}" for w in each[:-1]))


if __name__ == "__main__":
    main()
