"""A bolt is pulled across and not along, in rock that holds it, and it was not placed long ago without a test.

Whether it is strong enough for its pull is judged by `anchor/bolts`.
"""

from collections.abc import Iterator
from datetime import date
from math import degrees

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    At,
    Case,
    End,
    Fault,
    Limit,
    Signal,
    Source,
    ends,
    faulty,
    months_after,
    need_all,
    open_,
    rule,
    sound,
)

ALONG = Limit(
    name="most_along",
    text="45 deg",
    dimension="angle",
    tighter="lower",
    because="At a wider angle the load pulls the bolt out more than it bends it. No bolt test covers that.",
    source=Source(
        "EN 959:2018 tests bolts across and along their axis, nothing between", "standard", ("en_959",)
    ),
)
YEARS = Limit(
    name="most_years",
    text="10",
    dimension=None,
    tighter="lower",
    because="Rust, glue and frost work unseen in the hole. A bolt that was good then may be loose now.",
    source=PRACTICE,
)
SOFT = frozenset(
    {"sandstone", "chalk", "tuff", "conglomerate", "shale", "slate", "marl", "mudstone", "gypsum", "soft"}
)
BLOCK = Source(
    "EN 959:2018: strengths in a concrete test block; softer rock holds less", "standard", ("en_959",)
)
WEST = "spot.anchors.west"
BOLT = f"{WEST}.points.w1"
UNTESTED = {f"{BOLT}.tested": REMOVE}


@rule(
    title="A bolt is pulled outwards, is old, or sits in soft rock",
    each=ends("bolts"),
    signal=Signal.WARNING,
    why="A bolt pulled along its axis, or set in rotten rock, can come out whole.",
    formula="angle from the radial plane ≤ most along; tested in soft rock; placed or tested within most years",
    limits=(ALONG, YEARS),
    sources=(BLOCK,),
    prevents=("bolt_pulled_out", "rock_or_bolt_unknown"),
    examples=(
        sound("low"),
        sound("highline"),
        sound("highline", {f"{BOLT}.pull_from_radial": "44 deg"}),
        faulty(
            "highline",
            {f"{BOLT}.pull_from_radial": "46 deg"},
            at=f"{BOLT}.pull_from_radial",
            signal=Signal.DANGER,
            shows="bolt_pulled_out",
        ),
        faulty(
            "low", {"spot.anchors.gate": {"kind": "bolts", "points": {"g1": {"pull_from_radial": "85 deg"}}}}
        ),
        sound("highline", {f"{BOLT}.placed": "1998-05"}),  # tested in 2025
        sound("highline", UNTESTED | {f"{BOLT}.placed": "2016-06"}),
        faulty(
            "highline",
            UNTESTED | {f"{BOLT}.placed": "2016-04"},
            at=f"{BOLT}.placed",
            signal=Signal.WARNING,
            shows="rock_or_bolt_unknown",
        ),
        faulty("highline", {f"{BOLT}.placed": "1998-05", f"{BOLT}.tested": "2010-05"}, at=f"{BOLT}.tested"),
        faulty(
            "highline",
            UNTESTED | {"backups[0].chain[1].legs[0].to": "w1", f"{BOLT}.placed": "1998-05"},
            at=f"{BOLT}.placed",
        ),
        sound("highline", {f"{WEST}.rock": "red sandstone"}),
        faulty(
            "highline",
            UNTESTED | {f"{WEST}.rock": "red sandstone"},
            at=f"{WEST}.rock",
            signal=Signal.WARNING,
        ),
        open_("highline", {f"{WEST}.rock": REMOVE}, at=f"{WEST}.rock"),
        open_("highline", UNTESTED | {f"{BOLT}.placed": REMOVE}, at=f"{BOLT}.placed"),
        open_("highline", {"chain[1].legs[0].to": REMOVE}, at="chain[1].legs[0].to"),
    ),
)
def bolt_state(case: Case, end: End) -> Iterator[Fault]:
    names, structure = end.point_names(), end.structure
    missing: list[tuple[object, At]] = []
    for name in dict.fromkeys(names):
        point = structure.points.get(name)
        if point is None:
            continue  # anchor/bolts asks for it
        if point.pull_from_radial is not None and point.pull_from_radial.si > case.limit(ALONG):
            yield _along(case, end, name, point.pull_from_radial.si)
        newest = max((day for day in (point.placed, point.tested) if day is not None), default=None)
        if newest is not None and months_after(newest, round(12 * case.limit(YEARS))) < case.on:
            yield _old(case, end, name, newest)
        elif newest is None and case.consequence == "life":
            missing.append((None, end.on_structure("points", name, "placed")))
    untested = [name for name in names if name in structure.points and structure.points[name].tested is None]
    if untested and structure.rock is not None and _soft(structure.rock):
        yield _in_soft_rock(end, structure.rock, untested)
    if case.consequence == "life":
        missing.append((structure.rock, end.on_structure("rock")))
    need_all(*missing)


def _soft(rock: str) -> bool:
    return bool(SOFT & set(rock.lower().replace(",", " ").split()))


def _along(case: Case, end: End, name: str, angle: float) -> Fault:
    most = degrees(case.limit(ALONG))
    return Fault(
        end.on_structure("points", name, "pull_from_radial"),
        f"The line pulls bolt '{name}' at '{end.name}' outwards, {degrees(angle):.0f}° from "
        f"square to its axis. At most {most:.0f}°.",
        f"Use a bolt that the line pulls across its axis, or bring the pull on '{name}' within {most:.0f}°.",
        value=degrees(angle),
        limit=most,
        unit="deg",
        signal=Signal.DANGER if case.consequence == "life" else None,
    )


def _old(case: Case, end: End, name: str, newest: date) -> Fault:
    point = end.structure.points[name]
    key, years = ("tested" if point.tested == newest else "placed"), case.limit(YEARS)
    return Fault(
        end.on_structure("points", name, key),
        f"Bolt '{name}' at '{end.name}' was {key} on {newest} and has no test on file since. At "
        f"most {years:g} years.",
        f"Have '{name}' tested by someone who knows bolts and enter the date under `tested`, or "
        "use another bolt.",
        value=(case.on - newest).days / 365.25,
        limit=years,
        unit="years",
        source=YEARS.source,
    )


def _in_soft_rock(end: End, rock: str, untested: list[str]) -> Fault:
    which = ", ".join(f"'{name}'" for name in untested)
    return Fault(
        end.on_structure("rock"),
        f"'{end.name}' is {rock}. Bolt standards test in concrete, and a bolt in soft rock holds less.",
        f"Have {which} tested in this rock and enter the date under `tested`.",
        value=rock,
        limit="tested",
        source=BLOCK,
    )
