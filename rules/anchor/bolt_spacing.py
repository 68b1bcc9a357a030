"""Bolts stand apart from each other and from the edge, so that no two break out of one cone of rock."""

from collections.abc import Iterator

from riglint.rulekit import (
    REMOVE,
    Case,
    End,
    Fault,
    Limit,
    Signal,
    Source,
    ends,
    faulty,
    need,
    need_all,
    open_,
    rule,
    sound,
)

SPACING = Limit(
    name="least_spacing",
    text="150 mm",
    dimension="length",
    tighter="higher",
    because="Two 12 mm bolts closer than this load the same cone of rock.",
    source=Source("rope access manual: 12 mm bolts in pairs, 150 mm apart or more", "unnamed"),
)
EDGE = Limit(
    name="least_edge",
    text="150 mm",
    dimension="length",
    tighter="higher",
    because="Near an edge the rock breaks out sideways. 1.5 × an embedment of 100 mm keeps the cone whole.",
    source=Source("1.5 to 2 times the embedment, which isn't in the file", "practice"),
)
FIELDS = {"spacing": SPACING, "edge": EDGE}
POINTS = "spot.anchors.west.points"
LOW = {
    "spot.anchors.gate": {"kind": "bolts", "points": {"g1": {"spacing": "0.3 m", "edge": "0.1 m"}}},
}


@rule(
    title="Bolts too close to each other or to the edge",
    each=ends("bolts"),
    signal=Signal.WARNING,
    raised={"life": Signal.DANGER},
    why="One cone of rock can come out with two bolts in it. Then you lose both points at once.",
    formula="distance to the nearest bolt ≥ least spacing; distance to the edge ≥ least edge",
    limits=(SPACING, EDGE),
    prevents=("bolts_share_a_cone",),
    examples=(
        sound("highline"),
        sound("low"),
        sound("highline", {f"{POINTS}.w1.spacing": "152 mm", f"{POINTS}.w2.edge": "152 mm"}),
        faulty(
            "highline", {f"{POINTS}.w1.spacing": "148 mm"}, at=f"{POINTS}.w1.spacing", signal=Signal.DANGER
        ),
        faulty("highline", {f"{POINTS}.w2.edge": "148 mm"}, at=f"{POINTS}.w2.edge", signal=Signal.DANGER),
        faulty("highline", {f"{POINTS}.w5.edge": "148 mm"}, at=f"{POINTS}.w5.edge"),
        faulty("low", LOW, at="spot.anchors.gate.points.g1.edge", signal=Signal.WARNING),
        sound("highline", {f"{POINTS}.w6.edge": "50 mm"}),  # nothing hangs on it
        *(open_("highline", {f"{POINTS}.w1.{key}": REMOVE}, at=f"{POINTS}.w1.{key}") for key in FIELDS),
        open_("highline", {POINTS: REMOVE}, at=f"{POINTS}.w1"),
        open_("highline", {"chain[1]": REMOVE}, at="chain[0].legs"),
        open_("highline", {"chain[1].legs[0].to": REMOVE}, at="chain[1].legs[0].to"),
    ),
)
def bolt_spacing(case: Case, end: End) -> Iterator[Fault]:
    missing = []
    for name in end.point_names():
        point = need(end.structure.points.get(name), end.on_structure("points", name))
        for key, limit in FIELDS.items():
            at, given = end.on_structure("points", name, key), getattr(point, key)
            missing.append((given, at))
            if given is None or given.si >= case.limit(limit):
                continue
            what = "from its neighbour" if key == "spacing" else "from the edge of the rock"
            least = case.limit(limit) * 1e3
            yield Fault(
                at,
                f"Bolt '{name}' at '{end.name}' is {given.si * 1e3:.0f} mm {what}. At least {least:.0f} mm.",
                f"Use a bolt that is at least {least:.0f} mm {what} instead of '{name}'.",
                value=given.si * 1e3,
                limit=least,
                unit="mm",
                inputs=(case.given(key, "s" if key == "spacing" else "c", given, at),),
                source=limit.source,
            )
    need_all(*missing)
