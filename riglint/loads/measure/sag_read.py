"""The standing tension of the line that sags by a depth under somebody."""

from __future__ import annotations

from itertools import pairwise
from math import inf, isfinite

from riglint.loads.inputs import NotComputable
from riglint.loads.states.standing import rest_of
from riglint.mechanics.roots import crossing
from riglint.mechanics.span.line import Line, NoResult, hang
from riglint.mechanics.span.standing import length_for_sag

# Of the planned line's own sag, tried one after the other: closer together near 1, where plan and reading should agree.
SHARES = (0.05, 0.1, 0.2, 0.4, 0.7, 0.9, 1.1, 1.4, 2.0, 4.0, 8.0, 16.0)


def tension_for_sag(
    line: Line, load_n: float, at_m: float, depth_m: float, *, from_chord: bool, end: str
) -> float:
    """Return the standing tension of the line that sags by a depth under a load at a place.

    Below its own still line a taut and a slack line may sag alike; the one nearer to the planned line is meant.
    """
    fraction = min(
        max(
            (at_m - line.reach_a.length_m) / (line.span_m - line.reach_a.length_m - line.reach_b.length_m),
            0.0,
        ),
        1.0,
    )
    if from_chord:
        found: Line | NoResult | None = length_for_sag(line, load_n, fraction, depth_m)
    else:
        found = _below_its_still_line(line, load_n, fraction, depth_m)
    if not isinstance(found, Line):
        raise NotComputable("no line of this span and webbing sags like that")
    rest = rest_of(hang(found))
    if rest.horizontal_n < found.weight_n / found.unstressed_m * found.span_m:
        raise NotComputable("a line with this much sag hangs slack with nobody on it, and shows no tension")
    return rest.tension_a_n if end == "a" else rest.tension_b_n


def _below_its_still_line(line: Line, load_n: float, fraction: float, depth_m: float) -> Line | None:
    """Return the line that sags by a depth below its own still line: of two, the one that hangs more like this one."""

    def sagging(still_m: float) -> Line | None:
        found = length_for_sag(line, load_n, fraction, depth_m + still_m)
        return found if isinstance(found, Line) else None

    def off_m(still_m: float) -> float:
        """How much deeper that line hangs by itself than was taken; no such line hangs deeper than any."""
        found = sagging(still_m)
        return inf if found is None else rest_of(hang(found, 0.0, fraction)).sag_m - still_m

    planned_m = rest_of(hang(line, 0.0, fraction)).sag_m
    tried = [(still_m, off_m(still_m)) for still_m in (0.0, *(share * planned_m for share in SHARES))]
    pairs = [
        pair
        for pair in pairwise(tried)
        if pair[0][1] * pair[1][1] <= 0.0 and isfinite(pair[0][1] - pair[1][1])
    ]
    if not pairs:
        return None
    low, high = min(pairs, key=lambda pair: abs(pair[0][0] + pair[1][0] - 2.0 * planned_m))
    return sagging(crossing(off_m, low, high, 1e-6))
