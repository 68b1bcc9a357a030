"""All lines of a day together bend a tree's stem less than green wood is credited with."""

from collections.abc import Iterator
from math import floor

from riglint.rulekit import (
    OWN,
    REMOVE,
    AnchorOfDay,
    Case,
    Fault,
    Input,
    LibraryCase,
    Limit,
    Signal,
    Source,
    faulty,
    in_each_file,
    known,
    open_,
    rounded,
    rule,
    shared_anchors,
    sound,
)

LEAST = Limit(
    name="least_ratio",
    text="1.0",
    dimension=None,
    tighter="higher",
    because="The allowable stress already includes a factor of 1.5 and the quality factor of a standing tree.",
    source=Source(
        "tree statics practice asks 1.5 and judges compression first; quality factor own choice",
        "published",
        ("sag_baumstatik",),
    ),
)
GATE, BARN, ASH = "spot.anchors.gate", "spot.anchors.barn", "spot.anchors.ash"
SATURDAY: dict[str, object] = {"plan.first_day": "2026-05-09"}
SECOND: dict[str, object] = {"title": "Second line"}
TREE = {"kind": "tree", "girth": "2.5 m", "bark": "rough", "health": "sound", "fork": "none"}
TO_ASH: dict[str, object] = SECOND | {"chain[12].at": "ash", "chain[8].tie_back.to": "ash"}


def _same(girth: str) -> dict[str, object]:
    """Return the edit for two low lines between the same trees."""
    return SATURDAY | {f"{BARN}.girth": "2.5 m", f"{GATE}.girth": girth}


def _apart(girth: str, x: str, y: str) -> dict[str, object]:
    """Return the edit for a spot where the second line runs from the gate to an ash, with a plan of all three."""
    ground = {"profile_from": "gate", "profile": [["0 m", "0 m"], ["16 m", "0 m"]]}
    plans = {f"{GATE}.plan": ["0 m", "0 m"], f"{BARN}.plan": ["16.43 m", "0 m"], ASH: TREE | {"plan": [x, y]}}
    spans = [{"between": ["gate", "ash"], "span": "16 m", "ground": ground}]
    return _same(girth) | plans | {"spot.spans": spans}


def _guy(**more: object) -> dict[str, object]:
    """Return the edit for a guy from the gate to the barn, 4 m up, beside the line."""
    return _same("1.19 m") | {"spot.guys": [{"between": ["gate", "barn"], **more}]}


UP = ["4 m", "0.5 m"]
SQUARE, AGAINST = ("0 m", "16.43 m"), ("-16.43 m", "0 m")


@rule(
    title="Several lines together are too much for a tree's stem",
    each=shared_anchors("tree"),
    signal=Signal.WARNING,
    raised={"life": Signal.DANGER},
    worst=Signal.DANGER,
    why="Each line alone is fine on this tree. All of them together can break its stem.",
    formula="σ = 32·M/(π·d³), M = |Σ T·h| of any of the lines ≤ green compression strength/(1.5·quality)",
    limits=(LEAST,),
    sources=(
        Source("statics: resultant of pulls in plan; without a plan the sum of their sizes", "own"),
        OWN,
    ),
    prevents=("lines_share_an_anchor",),
    examples=(
        sound("low"),
        # One line alone keeps 1.0 from 0.983 m of girth on.
        sound("low", _same("1.19 m"), beside=(SECOND | _same("1.19 m"),)),
        faulty(
            "low", _same("1.18 m"), beside=(SECOND | _same("1.18 m"),), at="chain[0]", signal=Signal.WARNING
        ),
        faulty("low", _same("1.18 m"), beside=(SECOND | _same("1.18 m"),), at="anchors.gate"),
        sound("low", _same("1.18 m"), beside=(SECOND | _same("1.18 m") | {"plan.first_day": "2026-05-10"},)),
        sound("low", _same("1.18 m"), beside=(SECOND | _same("1.18 m") | {"stage": "lowered"},)),
        # A rig without a day counts for every day.
        faulty("low", _same("1.18 m"), beside=(SECOND | _same("1.18 m") | {"plan.first_day": REMOVE},)),
        # At right angles √2 of the moment comes together; from opposite sides each is alone once the other is down.
        sound("low", _apart("1.09 m", *SQUARE), beside=(_apart("1.09 m", *SQUARE) | TO_ASH,)),
        faulty("low", _apart("1.07 m", *SQUARE), beside=(_apart("1.07 m", *SQUARE) | TO_ASH,), at="chain[0]"),
        sound("low", _apart("0.99 m", *AGAINST), beside=(_apart("0.99 m", *AGAINST) | TO_ASH,)),
        faulty("low", _apart("0.97 m", *AGAINST), beside=(_apart("0.97 m", *AGAINST) | TO_ASH,)),
        sound("low", _guy(tension="2.5 kN", heights=UP)),
        faulty("low", _guy(tension="2.9 kN", heights=UP), at="chain[0]"),
        open_("low", _guy(tension="2 kN"), at="guys[0].heights"),
        open_("low", {f"{GATE}.girth": REMOVE}, beside=(SECOND | {f"{GATE}.girth": REMOVE},)),
        open_("low", beside=(SECOND | {"chain[0].height": REMOVE},), at="chain[0].height"),
        open_("low", beside=(SECOND | {"plan.users": REMOVE},), at="plan.users"),
    ),
)
def tree_stem(library: LibraryCase, day: AnchorOfDay) -> Iterator[Fault]:
    anchor, least = day.anchor, library.limit(LEAST)
    if anchor.structure.health in {"doubtful", "dead"}:
        return  # told of each line
    stem, moment = anchor.stem(), anchor.moment()
    if stem.ratio >= least:
        return
    height = floor(stem.greatest_height_m(least) * 100.0) / 100.0
    fault = Fault(
        anchor.on_structure(),
        f"{len(anchor.pulls)} lines pull at '{anchor.name}' together{day.when}: {day.in_words(moment)}. They bend "
        f"the stem to {stem.stress_pa * 1e-6:.3g} MPa. We allow "
        f"{stem.allowable_pa / least * 1e-6:.3g} MPa, {rounded(stem.ratio, 'down')} times that.",
        f"Move a line to another tree, sling all of them at {height:.2f} m or lower, or rig them on other days.",
        value=stem.ratio,
        limit=least,
        unit="1",
        inputs=(
            Input("moment of the lines together", "M", moment.size / 1e3, "kNm"),
            Input("diameter inside the bark", "d", stem.diameter_m, "m"),
            Input(stem.wood_words, "σc", stem.wood.compression_pa * 1e-6, "MPa"),
            *(Input(f"pull of {one.name}", "T", one.tension_n / 1e3, "kN") for one in moment.members),
        ),
        state="together",
    )

    def fine_alone(case: Case) -> bool:
        ends = [end for end in case.loads.ends() if end.name == anchor.name and end.carries]
        stems = [known(end.stem) for end in ends]
        return all(one is not None and one.ratio >= least for one in stems)

    yield from in_each_file(day, fault, fine_alone)
