"""A shackle is pulled in the plane of its bow."""

from collections.abc import Iterator
from math import degrees

from riglint.rulekit import (
    Case,
    Fault,
    Limit,
    Placed,
    Signal,
    Source,
    everywhere,
    faulty,
    first_up,
    rule,
    sound,
)

BANDS = Source(
    "WAC 296-155-33905: bands of 0-5, 6-45, 46-90 deg; beyond 90 only with a qualified person",
    "standard",
    ("wac_296_155_33905",),
)
SOME = Limit(
    name="advised_side_load",
    text="20 deg",
    dimension="angle",
    tighter="lower",
    because="A shackle that stands askew shows that plate, sling or pin isn't where you planned it.",
    source=Source("own proposal within the middle band", "own"),
)
MOST = Limit(
    name="most_side_load",
    text="45 deg",
    dimension="angle",
    tighter="lower",
    because="Beyond it a shackle keeps half to two thirds of its rated load, and its pin bends.",
    source=BANDS,
)
LOAD = "chain[3].side_load"


@rule(
    title="A shackle is pulled sideways",
    each=everywhere("shackle"),
    signal=Signal.WARNING,
    raised={"life": Signal.DANGER},
    why="Pulled out of its plane, a shackle opens its bow and bends its pin at half its label.",
    formula="side load ≤ most; above `advised_side_load` it is told",
    limits=(MOST, SOME),
    sources=(BANDS,),
    prevents=("shackle_pulled_sideways",),
    examples=(
        sound("low"),
        sound("highline"),
        sound("low", {LOAD: "19.5 deg"}),
        faulty("low", {LOAD: "20.5 deg"}, at=LOAD, signal=Signal.CAUTION),
        faulty("low", {LOAD: "44 deg"}, at=LOAD, signal=Signal.CAUTION),
        faulty("low", {LOAD: "46 deg"}, at=LOAD, signal=Signal.WARNING),
        faulty("low", {LOAD: "85 deg", "plan.consequence": "life"}, at=LOAD, signal=Signal.DANGER),
        sound("low", {LOAD: "91 deg"}),  # no shackle is rated there: ratio/peak tells it
        faulty("highline", {"backups[0].chain[2].side_load": "50 deg"}, at="backups[0].chain[2].side_load"),
    ),
)
def side_load(case: Case, placed: Placed) -> Iterator[Fault]:
    load = placed.part.side_load
    if load is None or degrees(load.si) > 90.0:  # noqa: PLR2004 - no shackle is rated there
        return
    # 45 degrees written in a file must not fall outside of 45 degrees by rounding in radians.
    limit = MOST if load.si > case.limit(MOST) * (1 + 1e-12) else SOME
    most, at = case.limit(limit), case.on_part(placed, "side_load")
    if load.si <= most * (1 + 1e-12):
        return
    yield Fault(
        at,
        f"{first_up(placed.words)} ({placed.id}) is pulled {load.text} out of its plane. At most "
        f"{degrees(most):.3g}°.",
        "Turn plate, sling or pin until the load lies in the plane of its bow, or use a swivel.",
        value=degrees(load.si),
        limit=degrees(most),
        unit="deg",
        inputs=(case.given("side load", "β", load, at),),
        signal=None if limit is MOST else Signal.CAUTION,
        source=limit.source,
    )
