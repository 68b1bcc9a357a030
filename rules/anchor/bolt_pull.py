"""The line pulls across its bolts, not along them."""

from collections.abc import Iterator
from math import degrees

from riglint.rulekit import (
    Case,
    End,
    Fault,
    Limit,
    Signal,
    Source,
    ends,
    faulty,
    known,
    rule,
    sound,
)

MOST = Limit(
    name="most_off_axis",
    text="45 deg",
    dimension="angle",
    tighter="lower",
    because="Beyond it the pull is rather along the bolt, for which most are not placed, whatever their figure says.",
    source=Source(
        "own proposal: half of a right angle, where the share along the bolt passes the one across", "own"
    ),
)
BOLT = "spot.anchors.west.points.w1"
STRONG = {f"{BOLT}.axial": "60 kN", f"{BOLT}.radial": "60 kN"}


def _off(angle: str) -> dict[str, object]:
    return {**STRONG, f"{BOLT}.pull_from_radial": angle}


@rule(
    title="A bolt is pulled along its axis",
    each=ends("bolts"),
    signal=Signal.WARNING,
    raised={"life": Signal.DANGER},
    why="A bolt pulled outward works loose with every bounce, and comes out of its hole without a sign.",
    formula="angle of the pull from the radial plane ≤ most",
    limits=(MOST,),
    prevents=("bolt_pulled_out",),
    examples=(
        sound("low"),
        sound("highline"),
        sound("highline", _off("44 deg")),
        faulty("highline", _off("46 deg"), at=f"{BOLT}.pull_from_radial", signal=Signal.DANGER),
        faulty("highline", _off("85 deg"), at=f"{BOLT}.pull_from_radial"),
        faulty(
            "low",
            {
                "spot.anchors.gate": {
                    "kind": "bolts",
                    "points": {"g1": {"radial": "60 kN", "axial": "60 kN", "pull_from_radial": "60 deg"}},
                }
            },
            at="spot.anchors.gate.points.g1.pull_from_radial",
            signal=Signal.WARNING,
        ),
    ),
)
def bolt_pull(case: Case, end: End) -> Iterator[Fault]:
    most = case.limit(MOST)
    for name in known(end.point_names) or list(end.structure.points):
        bolt = end.structure.points.get(name)
        if bolt is None or bolt.pull_from_radial is None or bolt.pull_from_radial.si <= most * (1 + 1e-12):
            continue
        at = end.on_structure("points", name, "pull_from_radial")
        yield Fault(
            at,
            f"The line pulls bolt '{name}' at '{end.name}' {bolt.pull_from_radial.text} off its radial plane; "
            f"{degrees(most):.3g}° is the most.",
            f"Take a bolt that is pulled across, or turn the pull until it is below {degrees(most):.3g}°.",
            value=degrees(bolt.pull_from_radial.si),
            limit=degrees(most),
            unit="deg",
            inputs=(case.given("angle from the radial plane", "α", bolt.pull_from_radial, at),),
        )
