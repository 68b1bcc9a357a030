"""Every bolt keeps enough strength over the worst pull, and over what it bears when another bolt goes."""

from collections.abc import Iterator
from math import degrees
from typing import NamedTuple

from riglint.rulekit import (
    REMOVE,
    Case,
    End,
    Fault,
    Input,
    Limit,
    PointLoad,
    Signal,
    Source,
    either,
    ends,
    faulty,
    first_up,
    in_kn,
    lighter_user,
    lower_tension,
    need,
    open_,
    rounded,
    rule,
    sound,
    when,
)

LEAST = Limit(
    name="least_ratio",
    text="1.5",
    dimension=None,
    tighter="higher",
    because="Rock, age and an unseen outward pull can together take a third off any bolt.",
    source=Source("own proposal, for every part and every consequence", "own"),
)
POINTS = "spot.anchors.west.points"
BOLT = {"radial": "25 kN", "axial": "15 kN", "standard": "EN 959", "pull_from_radial": "0 deg"}
# What the peaks rest on, and the catch.
ASKED = (
    "backups[0].chain[4].gear",
    "backups[0].extra",
    "chain[4].gear",
    "leash.hang",
    "plan.standing_tension",
    "plan.users",
    "plan.users[0].mass",
    "shelf[0].items.W-1.mass_per_metre",
    "shelf[0].items.W-1.stretch",
    "shelf[0].items.W-2.stretch",
    "spot.span",
)


def _one(radial: str) -> dict[str, object]:
    """Tie the low line to one bolt."""
    return {"spot.anchors.gate": {"kind": "bolts", "points": {"g1": BOLT | {"radial": radial}}}}


def _spare(radial: str) -> dict[str, object]:
    """Tie it to one bolt with a spare behind it, which must hold when the first goes."""
    points = {"g1": BOLT, "g2": BOLT | {"radial": radial}}
    legs = [{"to": name, "chain": [{"part": "shackle", "gear": "SH-1"}]} for name in points]
    spread = {"part": "legs", "share": "slack_spare", "included_angle": "20 deg", "legs": legs}
    return {"spot.anchors.gate": {"kind": "bolts", "points": points}, "chain[2]": spread}


def _other(radial: str) -> dict[str, object]:
    """Share the low line's gate with a bolt somewhere else."""
    legs = [{"to": "gate"}, {"to": "crag"}]
    return {
        "chain[2]": {"part": "legs", "share": "fixed", "included_angle": "60 deg", "legs": legs},
        "spot.anchors.crag": {"kind": "bolts", "points": {"c1": BOLT | {"radial": radial}}},
    }


TO_OAK: dict[str, object] = {"spot.anchors.oak": {"kind": "tree"}, "chain[1].legs[2].to": "oak"}


@rule(
    title="A bolt is too weak for its load",
    each=ends("bolts"),
    signal=Signal.WARNING,
    raised={"life": Signal.DANGER},
    worst=Signal.DANGER,
    why="A bolt that comes out throws its share onto the next one, and the anchor can unzip within a second.",
    formula="1 ÷ (F·cos α/radial + F·sin α/axial) ≥ required ratio; again with any one other bolt gone",
    limits=(LEAST,),
    sources=(
        Source(
            "EN 959:2018: 25 kN across, 15 kN along the bolt; the sum of both shares is the cautious one",
            "standard",
            ("en_959",),
        ),
        Source(
            "two rope access notes: factor 2.5, bolts always in pairs; the ratios asked here are our own",
            "own",
        ),
    ),
    prevents=("bolt_pulled_out", "rock_or_bolt_unknown", "legs_share_badly"),
    examples=(
        sound("highline"),
        sound("low"),
        sound("low", _one("21.4 kN")),
        faulty("low", _one("21.0 kN"), at="spot.anchors.gate.points.g1", signal=Signal.WARNING),
        faulty("low", _one("12.9 kN"), signal=Signal.WARNING),
        faulty("low", _one("12.6 kN"), signal=Signal.DANGER),
        sound("low", _one("25.7 kN") | {"plan.consequence": "fall"}),
        faulty("low", _one("25.2 kN") | {"plan.consequence": "fall"}, signal=Signal.WARNING),
        sound("low", _spare("12.5 kN") | {"plan.consequence": "fall"}),
        faulty("low", _spare("12.0 kN") | {"plan.consequence": "fall"}, at="spot.anchors.gate.points.g2"),
        sound("highline", {f"{POINTS}.w1.radial": "20.5 kN"}),
        faulty("highline", {f"{POINTS}.w1.radial": "20.2 kN"}, at=f"{POINTS}.w1", signal=Signal.DANGER),
        sound("highline", {f"{POINTS}.w1.pull_from_radial": "19 deg"}),
        faulty(
            "highline",
            {f"{POINTS}.w1.pull_from_radial": "20 deg"},
            at=f"{POINTS}.w1",
            shows="bolt_pulled_out",
        ),
        faulty(
            "highline",
            {"chain[1].legs[2]": REMOVE, f"{POINTS}.w1.radial": "23 kN"},
            at=f"{POINTS}.w1",
            shows="legs_share_badly",
        ),
        # Half of the line goes to a bolt of another anchor, or to a tree: 4.69 kN of 8.13.
        sound("low", _other("11.9 kN")),
        faulty("low", _other("11.6 kN"), at="spot.anchors.crag.points.c1", signal=Signal.WARNING),
        sound("highline", TO_OAK),
        sound("highline", {f"{POINTS}.w4.radial": "12.2 kN"}),
        faulty("highline", {f"{POINTS}.w4.radial": "11.7 kN"}, at=f"{POINTS}.w4", signal=Signal.DANGER),
        sound("highline", {f"{POINTS}.w1.tested": REMOVE}),
        open_(
            "highline",
            {f"{POINTS}.w1.tested": REMOVE, f"{POINTS}.w1.standard": REMOVE},
            at=f"{POINTS}.w1.tested",
            shows="rock_or_bolt_unknown",
        ),
        *(
            open_("highline", {f"{POINTS}.w1.{key}": REMOVE}, at=f"{POINTS}.w1.{key}")
            for key in ("radial", "axial", "pull_from_radial")
        ),
        *(
            open_("highline", {f"chain[1].{key}": REMOVE}, at=f"chain[1].{key}")
            for key in ("share", "included_angle", "legs[0].to")
        ),
        open_("highline", {"chain[1]": REMOVE}, at="chain[0].legs"),
        open_(
            "highline",
            {"chain[1]": REMOVE, "spot.anchors.west.points": REMOVE},
            at="spot.anchors.west.points",
        ),
        *(open_("highline", {key: REMOVE}, at=key) for key in ASKED),
    ),
)
def bolts(case: Case, end: End) -> Iterator[Fault]:
    pull = end.pull()
    all_hold = case.required("backup" if end.backup else "anchor_point")
    one_lost = None if end.backup else case.required("anchor_point_one_lost")
    for point in end.points(pull.line_n):
        force, ratio = point.force_one_lost_n, point.ratio_one_lost
        if all_hold is not None and point.ratio < all_hold:
            signal = Signal.DANGER if point.ratio < case.limit(LEAST) else None
            yield _fault(case, end, point, _MissedByBolt(point.force_n, point.ratio, all_hold, "", signal))
        # Too weak with all bolts in place, it is too weak with one less: one finding is enough.
        elif one_lost is not None and ratio is not None and force is not None and ratio < one_lost:
            yield _fault(
                case, end, point, _MissedByBolt(force, ratio, one_lost, " once another bolt has failed")
            )


class _MissedByBolt(NamedTuple):
    """A ratio that a bolt does not reach."""

    force_n: float
    ratio: float
    required: float
    when: str
    signal: Signal | None = None  # None: the rule's own word


def _fault(case: Case, end: End, point: PointLoad, missed: _MissedByBolt) -> Fault:
    pull, bolt = end.pull(), need(end.structure.points.get(point.name), point.at)
    angle = degrees(bolt.pull_from_radial.si) if bolt.pull_from_radial else 0.0
    line = f"The catch of {end.backup}" if end.backup else f"{first_up(when(pull.state))}, the line"
    # When a backup catches, the main line and its tension are gone: only the person can be lighter.
    turnings = (lighter_user,) if end.backup else (lower_tension, lighter_user)
    remedies = case.put_right(point.at, *turnings)
    less = in_kn(pull.tension_n * missed.ratio / missed.required, "down")
    strengths = (("across", bolt.radial), ("along", bolt.axial))
    return Fault(
        point.at,
        f"{line} puts {in_kn(missed.force_n)} on bolt '{point.name}' at "
        f"'{end.name}'{missed.when}. It pulls {angle:.0f}° from square to the bolt's axis. The bolt holds "
        f"{rounded(missed.ratio, 'down')} × that; you need {missed.required:g} ×.",
        either(
            *remedies.or_else(f"bring the pull at '{end.name}' from {in_kn(pull.tension_n)} down to {less}"),
            f"use a bolt {rounded(missed.required / missed.ratio, 'up')} × as strong in this direction",
        ),
        value=missed.ratio,
        limit=missed.required,
        unit="1",
        inputs=(
            Input("pull at this end", "T", pull.tension_n / 1e3, "kN"),
            Input("force on the bolt", "F", missed.force_n / 1e3, "kN"),
            Input("angle from the radial plane", "α", angle, "deg"),
            *(
                Input(f"strength {name} the bolt", name, strength.si / 1e3, "kN", point.at.reference)
                for name, strength in strengths
                if strength is not None
            ),
        ),
        state=pull.state,
        signal=missed.signal,
        remedies=remedies,
    )
