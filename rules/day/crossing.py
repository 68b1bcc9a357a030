"""Where two lines cross, the upper one stays clear of the lower one, and nobody is walked above somebody else.

Lines between the same two anchors lie one over the other all along. Where walk zones lie beside each other,
`day/fall_zones` tells of it.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil

from riglint.rulekit import (
    PRACTICE,
    Case,
    Fault,
    Input,
    LibraryCase,
    Limit,
    Meeting,
    Signal,
    TwoLines,
    bare_m,
    each_two_lines,
    faulty,
    lowest_m,
    meetings,
    open_,
    rounded,
    rule,
    sound,
)

LINES = Limit(
    name="least_between_lines",
    text="0.5 m",
    dimension="length",
    tighter="higher",
    because="Webbing that runs over webbing under load melts through. Nobody knows sag to a hand's breadth.",
    source=PRACTICE,
)
PERSON = Limit(
    name="least_over_a_walker",
    text="2.2 m",
    dimension="length",
    tighter="higher",
    because="A person who stands on the lower line reaches this high.",
    source=PRACTICE,
)

GATE, BARN, ASH, ELM = (f"spot.anchors.{name}" for name in ("gate", "barn", "ash", "elm"))
TREE = {"kind": "tree", "girth": "1.5 m", "bark": "rough", "health": "sound", "fork": "none"}


def _across(x: str, **more: object) -> dict[str, object]:
    """Return the edit for a spot on which a second line crosses the first, so far from the gate."""
    ground = {"profile_from": "ash", "profile": [["0 m", "0 m"], ["16 m", "0 m"]]}
    return {
        ASH: TREE | {"plan": [x, "-8.4 m"]},
        ELM: TREE | {"plan": [x, "8.4 m"]},
        f"{GATE}.plan": ["0 m", "0 m"],
        f"{BARN}.plan": ["16.43 m", "0 m"],
        "spot.spans": [{"between": ["ash", "elm"], "span": "16 m", "ground": ground}],
    } | more


def _second(height: str) -> dict[str, object]:
    """Return the edit for the second line, both of its ends so high."""
    heights: dict[str, object] = {f"chain[{n}].height": height for n in (0, 12)}
    ends: dict[str, object] = {"chain[0].at": "ash", "chain[12].at": "elm", "chain[8].tie_back.to": "elm"}
    return ends | heights | {"title": "Second line"}


MIDDLE, END = _across("8.2 m"), _across("1.2 m")
ELSEWHERE: dict[str, object] = {"plan.walk_zone": ["2 m", "9 m"]}
NO_PLAN = MIDDLE | {ASH: TREE}


@rule(
    title="Two lines come too near, one above the other",
    each=each_two_lines,
    signal=Signal.WARNING,
    raised={"life": Signal.DANGER},
    worst=Signal.DANGER,
    why="A sagging line falls onto the one below, and saws at it. People who fall land on webbing or on a walker.",
    formula=(
        "upper line at its lowest (walker, bounce, gust, leash) − lower line with nobody on it ≥ least between; no "
        "walk zone above another"
    ),
    limits=(PERSON, LINES),
    prevents=("lines_meet",),
    examples=(
        sound("low"),
        # High enough, people still fall from one onto the other, unless one of the two is not walked there.
        sound("low", MIDDLE, beside=(MIDDLE | _second("5.21 m") | ELSEWHERE,)),
        faulty(
            "low", MIDDLE, beside=(MIDDLE | _second("5.21 m"),), at="plan.walk_zone", signal=Signal.WARNING
        ),
        faulty(
            "low", MIDDLE, beside=(MIDDLE | _second("5.18 m"),), at="chain[0].height", signal=Signal.DANGER
        ),
        # Between the gate and its walk zone only the lines themselves may touch.
        sound("low", END, beside=(END | _second("3.42 m"),)),
        faulty("low", END, beside=(END | _second("3.4 m"),), at="chain[0].height"),
        sound("low", MIDDLE, beside=(MIDDLE | _second("2 m") | {"stage": "lowered"},)),
        faulty(
            "low", beside=({"title": "Second line", "chain[0].height": "1.9 m", "chain[12].height": "1.9 m"},)
        ),
        open_("low", NO_PLAN, beside=(NO_PLAN | _second("5.3 m"),), at="anchors.ash.plan"),
    ),
)
def crossing(library: LibraryCase, two: TwoLines) -> Iterator[Fault]:
    found = [_one_over_the_other(two, place) for place in meetings(two.one.loads, two.other.loads)]
    if not found:
        return
    nearest = min(found, key=lambda one: round(one.gap_m, 6))  # of two alike, the first along the line
    least = library.limit(PERSON if nearest.lower_walked else LINES)
    if nearest.gap_m < least:
        yield _too_near(library, two, nearest, least)
    elif any(one.lower_walked and one.upper_walked for one in found):
        yield _walked_above(two, nearest)


@dataclass(frozen=True, slots=True)
class _Over:
    """Two lines at a place where one lies over the other."""

    lower: Case
    upper: Case
    upper_x_m: float
    above_m: float  # the upper one at its lowest, over the ground
    below_m: float  # the lower one with nobody on it
    lower_walked: bool
    upper_walked: bool

    @property
    def gap_m(self) -> float:
        return self.above_m - self.below_m


def _one_over_the_other(two: TwoLines, place: Meeting) -> _Over:
    spots = ((two.one, place.x_one_m), (two.other, place.x_other_m))
    (lower, low_x), (upper, up_x) = sorted(spots, key=lambda one: bare_m(one[0].loads, one[1]))
    above, below = lowest_m(upper.loads, up_x), bare_m(lower.loads, low_x)
    return _Over(lower, upper, up_x, above, below, _walked(lower, low_x), _walked(upper, up_x))


def _walked(case: Case, x_m: float) -> bool:
    first, last = case.loads.sweep.walked_m()
    return first <= x_m <= last


def _too_near(library: LibraryCase, two: TwoLines, near: _Over, least: float) -> Fault:
    lower, upper, gap = near.lower, near.upper, near.gap_m
    what = f"where people walk on '{lower.rig.title}'" if near.lower_walked else f"over '{lower.rig.title}'"
    return Fault(
        upper.at("chain", 0, "height"),
        f"'{upper.rig.title}' comes down to {_height(near.above_m)} {near.upper_x_m:.1f} m along, {what}. "
        f"That line hangs at {_height(near.below_m)}. At least {rounded(max(least, 0.0), 'up')} m between them.",
        f"Raise '{upper.rig.title}' by {ceil((least - gap) * 100 - 1e-6) / 100:.2f} m there, or let only one of the "
        "two be walked and let the other down.",
        value=gap,
        limit=least,
        unit="m",
        inputs=(
            Input("upper line at its lowest", "y1", near.above_m, "m"),
            Input("lower line with nobody on it", "y2", near.below_m, "m"),
        ),
        signal=Signal.DANGER if gap < library.limit(LINES) else None,
        rigs=two.paths,
    )


def _walked_above(two: TwoLines, near: _Over) -> Fault:
    """Say that whoever falls from the upper line lands on the lower one."""
    stumbles = {two.one.consequence, two.other.consequence} == {"ground"}
    return Fault(
        two.other.at("plan", "walk_zone"),
        f"People walk on '{near.upper.rig.title}' right above people on '{near.lower.rig.title}'.",
        "Let only one of the two be walked at a time there, make the walk zones shorter, or set one line aside.",
        signal=Signal.CAUTION if stumbles else Signal.WARNING,
        rigs=two.paths,
    )


def _height(height_m: float) -> str:
    """Return a height as it stands in a sentence, to a centimetre; no line goes below the ground."""
    return f"{height_m:.2f} m above the ground" if height_m > 0.0 else "the ground"
