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
    review,
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
# EN 959 tests in concrete: rock as hard as that may be credited with the strength on the bolt.
HARD = frozenset(
    {
        "granite",
        "gneiss",
        "limestone",
        "dolomite",
        "basalt",
        "quartzite",
        "porphyry",
        "diorite",
        "gabbro",
        "andesite",
    }
    | {
        "rhyolite",
        "marble",
        "concrete",
        "hornfels",
        "syenite",
        "phonolite",
        "dolerite",
        "granodiorite",
        "hard",
    }
)
BROKEN = frozenset({"rotten", "loose", "cracked", "weathered", "crumbly", "fractured", "brittle", "hollow"})
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
        review("highline", UNTESTED | {f"{BOLT}.placed": "2016-06"}, at=f"{BOLT}.tested"),
        review("highline", {f"{BOLT}.placed": REMOVE}, at=f"{BOLT}.placed", signal=Signal.CAUTION),
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
        # A rock that no list has counts as soft; broken rock asks for a look even after a test.
        faulty("highline", UNTESTED | {f"{WEST}.rock": "choss"}, at=f"{WEST}.rock", signal=Signal.WARNING),
        sound("highline", {f"{WEST}.rock": "schist"}),
        review("highline", UNTESTED | {f"{WEST}.rock": "grey gneiss"}, at=f"{BOLT}.tested"),
        faulty("highline", {f"{WEST}.rock": "rotten granite"}, at=f"{WEST}.rock", signal=Signal.CAUTION),
        faulty(
            "highline",
            UNTESTED | {f"{WEST}.rock": "rotten granite"},
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
    told: set[str] = set()
    for name in dict.fromkeys(names):
        point = structure.points.get(name)
        if point is None:
            continue  # anchor/bolts asks for it
        if point.pull_from_radial is not None and point.pull_from_radial.si > case.limit(ALONG):
            yield _along(case, end, name, point.pull_from_radial.si)
        # A test says as much of bolt and hole as the day it was set: the later of the two counts.
        newest = max((day for day in (point.placed, point.tested) if day is not None), default=None)
        if newest is not None and months_after(newest, round(12 * case.limit(YEARS))) < case.on:
            yield _old(case, end, name, newest)
            told.add(name)
        # Where a life hangs on it, a bolt of unknown age is as doubtful as an old one.
        elif newest is None and case.consequence == "life":
            missing.append((None, end.on_structure("points", name, "placed")))
    untested = [name for name in names if name in structure.points and structure.points[name].tested is None]
    # A test pull shows what soft rock holds. The strength on the bolt is that of a block of concrete.
    if structure.rock is not None and untested and not _hard(structure.rock):
        yield _in_soft_rock(end, structure.rock, untested)
        told.update(untested)
    elif structure.rock is not None and BROKEN & _words(structure.rock):
        yield _in_broken_rock(end, structure.rock)
    if case.consequence != "ground":
        yield from _no_day(
            end, [name for name in dict.fromkeys(names) if name in structure.points and name not in told]
        )
    if case.consequence == "life":
        missing.append((structure.rock, end.on_structure("rock")))
    need_all(*missing)


def _words(rock: str) -> set[str]:
    return set(rock.lower().replace(",", " ").split())


def _hard(rock: str) -> bool:
    """Return whether a rock is known to be hard; one that nobody knows counts as soft."""
    words = _words(rock)
    return bool(HARD & words) and not (SOFT | BROKEN) & words


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
        f"'{end.name}' is {rock}. "
        + (
            "Bolt standards test in concrete, and nobody knows whether this rock holds as much."
            if not SOFT & _words(rock)
            else "Bolt standards test in concrete, and a bolt in soft rock holds less."
        ),
        f"Have {which} tested in this rock and enter the date under `tested`.",
        value=rock,
        limit="tested",
        source=BLOCK,
    )


def _in_broken_rock(end: End, rock: str) -> Fault:
    return Fault(
        end.on_structure("rock"),
        f"'{end.name}' is of {rock}. A test of the bolt says nothing of the block that it sits in.",
        "Have somebody who knows rock look at it, tap it, and place the bolts in rock that rings.",
        value=rock,
        limit="sound rock",
        signal=Signal.CAUTION,
        source=PRACTICE,
    )


def _no_day(end: End, names: list[str]) -> Iterator[Fault]:
    """Name in one line the bolts of an end whose one day is on file without the other."""
    points = end.structure.points
    for key, other, do in (
        ("placed", "tested", "Ask who set them, and enter the day under `placed`."),
        (
            "tested",
            "placed",
            "Have them tested by somebody who knows bolts, and enter the day under `tested`.",
        ),
    ):
        lacking = [
            n for n in names if getattr(points[n], key) is None and getattr(points[n], other) is not None
        ]
        if lacking:
            yield Fault(
                end.on_structure("points", lacking[0], key),
                f"No day is on file on which these bolts at '{end.name}' were {key}: {', '.join(lacking)}.",
                do,
                kind="review",
                signal=Signal.CAUTION,
                source=YEARS.source,
            )
