"""The order of a song's sections: a few kinds of whole lengths that return, and the stretch of them a clip shows."""

from dataclasses import dataclass

# Section lengths in bars; common practice, no source.
BARS = {4: 24, 8: 48, 16: 18, 6: 3, 12: 4, 10: 1, 7: 1, 9: 1}
SHORTEST_SECONDS, LONGEST_SECONDS = 4.5, 34.0
# What may follow a kind: 0 the most usual, 2 the odd one out, 3 played only (an opening, a break, a solo).
PLAYED = 3
FOLLOWING = {0: {1: 58, 0: 22, 2: 11, PLAYED: 9}, 1: {0: 46, 1: 15, 2: 22, PLAYED: 17}, 2: {1: 54, 0: 30, 2: 4, PLAYED: 12},
             PLAYED: {0: 68, 1: 24, 2: 8}}
PLAYED_BARS = {2: 14, 4: 46, 8: 34, 16: 3, 3: 1, 6: 2}


@dataclass(frozen=True)
class Place:
    """One section of the order, in bars from the start of the timeline."""

    kind: int
    start_bar: int
    end_bar: int
    into_bars: int      # bars of its kind that have passed before it begins
    again: bool         # its kind has been heard before
    lifts: bool         # the key rises here and stays


def draw_kinds(dice, bar_seconds):
    """{kind: length in bars} of two or three kinds of section that are neither a moment nor endless, and often one that is only played."""
    kinds = {kind: dice.weighted(_fitting(BARS, bar_seconds)) for kind in range(2 + dice.below(2))}
    if dice.chance(0.5):
        kinds[PLAYED] = dice.weighted(_fitting(PLAYED_BARS, bar_seconds))
    return kinds


def _fitting(bars, bar_seconds):
    return {n: w for n, w in bars.items() if SHORTEST_SECONDS <= n * bar_seconds <= LONGEST_SECONDS} or {4: 1}


def draw_order(dice, kinds, total_bars):
    """The places from bar 0 on; the first has begun some bars before."""
    kind = dice.pick(sorted(kinds))
    at, into, heard, places = 0, dice.below(kinds[kind]), set(), []
    may_lift = dice.chance(0.4)
    while at < total_bars:
        end = at + kinds[kind] - into
        lifts = may_lift and kind in heard and dice.chance(0.4)
        may_lift = may_lift and not lifts
        places.append(Place(kind, at, end, into, kind in heard, lifts))
        heard.add(kind)
        at, into = end, 0
        kind = dice.weighted({k: w for k, w in FOLLOWING[kind].items() if k in kinds})
    return places
