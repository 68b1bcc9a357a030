"""Figures of the plan are such as people and ropes can have: no lost decimals, no wrong units."""

from collections.abc import Iterator
from typing import NamedTuple

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    At,
    Case,
    Fault,
    Limit,
    Signal,
    Source,
    faulty,
    rule,
    sound,
    the_rig,
)

PULL = Limit(
    "most_pull_each",
    "1.2 kN",
    "force",
    "lower",
    "Nobody pulls more than their own weight steadily on a rope.",
    Source("rescue articles: 0.3 to 0.5 kN with a good grip, up to 1.0 kN in a short heave", "practice"),
)
HAULERS = Limit("most_haulers", "20", None, "lower", "One rope has no room for more hands.", PRACTICE)
TURNS = Limit(
    "most_turns",
    "4",
    None,
    "lower",
    "Four turns round a trunk hold without a hand, and the rope no longer runs.",
    PRACTICE,
)
RATIO = Limit("most_multiplier", "9", None, "lower", "A multiplier on the lead is a 2:1 to 5:1.", PRACTICE)
AT_ONCE = Limit("most_at_once", "20", None, "lower", "One line has no room for more people.", PRACTICE)
EACH, CREW, WRAPS = "plan.crew.pull_each", "plan.crew.haulers", "plan.tail_wraps"
MULTIPLIER = "chain[8].multiplier.ratio"


class Figure(NamedTuple):
    """One figure of the plan, with the most that it can be."""

    value: float | None
    text: str
    at: At
    words: str
    limit: Limit
    unit: str


@rule(
    title="A figure of the plan looks wrong",
    each=the_rig,
    signal=Signal.WARNING,
    why="A slipped decimal in a pull, a crew or a turn makes the plan work only on paper.",
    formula="each figure no more than people, ropes and trunks can have",
    limits=(PULL, HAULERS, TURNS, RATIO, AT_ONCE),
    prevents=("units_mixed",),
    examples=(
        sound("low"),
        sound("highline"),
        sound("low", {EACH: "1.19 kN"}),
        faulty("low", {EACH: "1.21 kN"}, at=EACH, signal=Signal.WARNING),
        faulty("low", {EACH: "3.5 kN"}, at=EACH),
        sound("low", {EACH: REMOVE}),
        sound("low", {CREW: 20}),
        faulty("low", {CREW: 21}, at=CREW),
        sound("low", {WRAPS: 4}),
        faulty("low", {WRAPS: 5}, at=WRAPS),
        sound("low", {MULTIPLIER: 9}),
        faulty("low", {MULTIPLIER: 10}, at=MULTIPLIER),
        sound("low", {"plan.at_once": 20}),
        faulty("low", {"plan.at_once": 21}, at="plan.at_once"),
        sound("low", {"plan": REMOVE}),
    ),
)
def plan_figures(case: Case, _rig: None) -> Iterator[Fault]:
    for one in _figures(case):
        most = case.limit(one.limit)
        if one.value is None or one.value <= most * (1 + 1e-9):
            continue
        shown = f"{most / 1e3:g} kN" if one.limit.dimension == "force" else f"{most:g}"
        yield Fault(
            one.at,
            f"{one.words} can't be {one.text}. At most {shown} is possible.",
            "Check the decimal point and the unit, and enter what people on site really do.",
            value=one.value / 1e3 if one.limit.dimension == "force" else one.value,
            limit=most / 1e3 if one.limit.dimension == "force" else most,
            unit=one.unit,
            source=one.limit.source,
        )


def _figures(case: Case) -> Iterator[Figure]:
    plan, haul = case.plan, case.path.haul
    if plan is not None:
        crew = plan.crew
        each, haulers = (crew.pull_each, crew.haulers) if crew else (None, None)
        yield Figure(
            each.si if each else None,
            each.text if each else "",
            case.at("plan", "crew", "pull_each"),
            "The pull of each person",
            PULL,
            "kN",
        )
        yield Figure(
            haulers, f"{haulers}", case.at("plan", "crew", "haulers"), "The number of haulers", HAULERS, "1"
        )
        yield Figure(
            plan.tail_wraps,
            f"{plan.tail_wraps}",
            case.at("plan", "tail_wraps"),
            "The turns of the tail round the trunk",
            TURNS,
            "1",
        )
        yield Figure(
            plan.at_once,
            f"{plan.at_once}",
            case.at("plan", "at_once"),
            "The people at one time",
            AT_ONCE,
            "1",
        )
    if haul is not None and haul.part.multiplier is not None:
        ratio = haul.part.multiplier.ratio
        yield Figure(
            ratio, f"{ratio}", case.on_part(haul, "multiplier", "ratio"), "The multiplier's ratio", RATIO, "1"
        )
