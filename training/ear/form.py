"""The order of a song's sections: a few kinds of whole lengths that return, and the stretch of them a clip shows."""

from dataclasses import dataclass

# Section lengths in bars; common practice, no source.
BARS = {4: 24, 8: 48, 16: 18, 6: 3, 12: 4, 10: 1, 7: 1, 9: 1}
SHORTEST_SECONDS, LONGEST_SECONDS = 4.5, 34.0
# What may follow a kind: 0 the most usual, 2 the odd one out.
FOLLOWING = {0: {1: 62, 0: 25, 2: 13}, 1: {0: 55, 1: 17, 2: 28}, 2: {1: 60, 0: 35, 2: 5}}


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
    """{kind: length in bars} of two or three kinds of section that are neither a moment nor endless."""
    fitting = {n: w for n, w in BARS.items() if SHORTEST_SECONDS <= n * bar_seconds <= LONGEST_SECONDS} or {4: 1}
    return {kind: dice.weighted(fitting) for kind in range(2 + dice.below(2))}


def draw_order(dice, kinds, total_bars):
    """The places from bar 0 on; the first has begun some bars before."""
    kind = dice.below(len(kinds))
    at, into, heard, places = 0, dice.below(kinds[kind]), set(), []
    may_lift = dice.chance(0.3)
    while at < total_bars:
        end = at + kinds[kind] - into
        lifts = may_lift and kind in heard and dice.chance(0.4)
        may_lift = may_lift and not lifts
        places.append(Place(kind, at, end, into, kind in heard, lifts))
        heard.add(kind)
        at, into = end, 0
        kind = dice.weighted({k: w for k, w in FOLLOWING[kind].items() if k in kinds})
    return places
