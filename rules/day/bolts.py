"""A bolt that several lines of a day are tied to has strength for all of them, also when another bolt goes."""

from collections.abc import Iterator
from typing import NamedTuple

from riglint.rulekit import (
    REMOVE,
    AnchorOfDay,
    Case,
    Fault,
    Input,
    LibraryCase,
    Limit,
    SharedBolt,
    Signal,
    Source,
    faulty,
    in_each_file,
    in_kn,
    listed,
    open_,
    rounded,
    rule,
    shared_anchors,
    sound,
)

LEAST = Limit(
    name="least_ratio",
    text="1.5",
    dimension=None,
    tighter="higher",
    because="Rock, age and an unseen pull out of line can together take a third off any bolt.",
    source=Source("own proposal, for every part and every consequence", "own"),
)

POINTS = "spot.anchors.west.points"
SECOND: dict[str, object] = {"title": "Second line"}


def _west(radial: str, **more: object) -> dict[str, object]:
    """Return the edit for bolts of such a strength in the west, and very strong ones in the east."""
    strong = {
        f"spot.anchors.east.points.e{n}.{key}": "200 kN" for n in range(1, 7) for key in ("radial", "axial")
    }
    bolts = {f"{POINTS}.w{n}.{key}": radial for n in range(1, 7) for key in ("radial", "axial")}
    return strong | bolts | more


def _one(radial: str) -> dict[str, object]:
    """Return the edit for low lines that are tied to one bolt."""
    bolt = {"radial": radial, "axial": "15 kN", "standard": "EN 959", "pull_from_radial": "0 deg"}
    return {"spot.anchors.gate": {"kind": "bolts", "points": {"g1": bolt}}}


NOT_SAID = _west("60 kN") | {f"{POINTS}.w1.radial": REMOVE}


@rule(
    title="Several lines together are too much for a bolt",
    each=shared_anchors("bolts"),
    signal=Signal.WARNING,
    raised={"life": Signal.DANGER},
    worst=Signal.DANGER,
    why="A bolt shared by two lines bears both. The plan of each line shows only its own share.",
    formula="1 ÷ Σ(1/ratio of each line) ≥ required ratio; again with any one other bolt gone",
    limits=(LEAST,),
    sources=(Source("shares of strength in use add up; directions are not credited", "own"),),
    prevents=("lines_share_an_anchor",),
    examples=(
        sound("highline"),
        sound("highline", _west("44.8 kN"), beside=(_west("44.8 kN") | SECOND,)),
        faulty(
            "highline",
            _west("44.6 kN"),
            beside=(_west("44.6 kN") | SECOND,),
            at="chain[0]",
            signal=Signal.DANGER,
        ),
        faulty("highline", _west("19 kN"), beside=(_west("19 kN") | SECOND,), at="anchors.west.points.w1"),
        sound("low", _one("42.6 kN"), beside=(_one("42.6 kN") | SECOND,)),
        faulty("low", _one("42.3 kN"), beside=(_one("42.3 kN") | SECOND,), signal=Signal.WARNING),
        faulty("low", _one("25.6 kN"), beside=(_one("25.6 kN") | SECOND,), signal=Signal.WARNING),
        faulty("low", _one("25.4 kN"), beside=(_one("25.4 kN") | SECOND,), signal=Signal.DANGER),
        sound("highline", _west("44.6 kN"), beside=(_west("44.6 kN") | SECOND | {"stage": "lowered"},)),
        open_(
            "highline",
            NOT_SAID,
            beside=(NOT_SAID | SECOND,),
            at="anchors.west.points.w1.radial",
        ),
    ),
)
def bolts(library: LibraryCase, day: AnchorOfDay) -> Iterator[Fault]:
    all_hold, one_lost = day.required("anchor_point"), day.required("anchor_point_one_lost")
    missed = []
    for bolt in day.anchor.bolts():
        lost = bolt.ratio_one_lost
        if all_hold is not None and bolt.ratio < all_hold:
            missed.append(_MissedByAnchor(bolt, bolt.ratio, all_hold, ""))
        elif one_lost is not None and lost is not None and lost < one_lost:
            missed.append(_MissedByAnchor(bolt, lost, one_lost, " once another bolt has gone"))
    if missed:  # one finding for an anchor, at the bolt that keeps least
        worst = min(missed, key=lambda one: one.ratio / one.required)
        yield from _faults(
            day, worst, [one.bolt.name for one in missed if one is not worst], library.limit(LEAST)
        )


class _MissedByAnchor(NamedTuple):
    """A ratio that a bolt of several lines does not reach."""

    bolt: SharedBolt
    ratio: float
    required: float
    when: str


def _faults(day: AnchorOfDay, missed: _MissedByAnchor, others: list[str], least: float) -> Iterator[Fault]:
    bolt, ratio, required, when = missed
    anchor = day.anchor
    pulls = listed(f"{name} {in_kn(point.force_n)}" for name, point in bolt.uses)
    also = f" The same goes for {listed(others)}." if others else ""
    fault = Fault(
        anchor.on_structure("points", bolt.name),
        f"Bolt '{bolt.name}' at '{anchor.name}' is in {len(bolt.uses)} lines{day.when}: {pulls}. Together it holds "
        f"{rounded(ratio, 'down')} times that{when}; {required:g} is required.{also}",
        f"Tie each line to bolts of its own at '{anchor.name}', or rig them on other days.",
        value=ratio,
        limit=required,
        unit="1",
        inputs=tuple(Input(f"share of {name}", "F", point.force_n / 1e3, "kN") for name, point in bolt.uses),
        state="together",
        signal=Signal.DANGER if not when and ratio < least else None,
    )
    alone = {name: point.ratio_one_lost if when else point.ratio for name, point in bolt.uses}

    def fine_alone(case: Case) -> bool:
        held = alone.get(case.rig.title)
        return held is not None and held >= required

    yield from in_each_file(day, fault, fine_alone)
