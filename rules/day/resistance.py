"""A boulder, a ground anchor or a structure resists all lines of a day together."""

from collections.abc import Iterator

from riglint.rulekit import (
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
    in_kn,
    known,
    need,
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
    because="The ground under a boulder or round a stake may be a third weaker than it looks.",
    source=Source("own proposal, as for every part", "own"),
)

GATE = "spot.anchors.gate"
SECOND: dict[str, object] = {"title": "Second line"}
BARE = {GATE: {"kind": "boulder", "mass": "9 t"}}


def _rock(mass: str) -> dict[str, object]:
    return {GATE: {"kind": "boulder", "mass": mass, "friction": 0.5}}


def _stakes(tested: str) -> dict[str, object]:
    return {GATE: {"kind": "ground", "tested_force": tested, "tested": "2026-04-20"}}


def _guy(tension: str) -> dict[str, object]:
    """Return the edit for a rock that a guy from the barn pulls at besides the line."""
    return _rock("3.6 t") | {"spot.guys": [{"between": ["gate", "barn"], "tension": tension}]}


@rule(
    title="Several lines together are too much for a boulder, stake or structure",
    each=shared_anchors("boulder", "ground", "structure"),
    signal=Signal.WARNING,
    raised={"life": Signal.DANGER},
    worst=Signal.DANGER,
    why="What holds one line can slide or tear out under two, and then both let go.",
    formula="resistance, under the uplift of all lines ÷ |Σ T| of any of them ≥ required ratio",
    limits=(LEAST,),
    sources=(Source("statics: resultant of pulls in plan; without a plan the sum of their sizes", "own"),),
    prevents=("lines_share_an_anchor",),
    examples=(
        sound("low"),
        sound("low", _rock("6.94 t"), beside=(_rock("6.94 t") | SECOND,)),
        faulty(
            "low", _rock("6.92 t"), beside=(_rock("6.92 t") | SECOND,), at="chain[0]", signal=Signal.WARNING
        ),
        sound("low", _rock("6.92 t"), beside=(_rock("6.92 t") | SECOND | {"stage": "lowered"},)),
        faulty(
            "low", _rock("5.3 t"), beside=(_rock("5.3 t") | SECOND,), at="anchors.gate", signal=Signal.WARNING
        ),
        faulty(
            "low", _rock("5.1 t"), beside=(_rock("5.1 t") | SECOND,), at="anchors.gate", signal=Signal.DANGER
        ),
        faulty("low", _stakes("20 kN"), beside=(_stakes("20 kN") | SECOND,), at="chain[0]"),
        sound("low", _stakes("40 kN"), beside=(_stakes("40 kN") | SECOND,)),
        sound("low", _guy("0.1 kN")),
        faulty("low", _guy("2 kN"), at="chain[0]"),
        open_("low", _rock("9 t") | {"spot.guys": [{"between": ["gate", "barn"]}]}, at="guys[0].tension"),
        open_("low", BARE, beside=(BARE | SECOND,), at="anchors.gate.friction"),
    ),
)
def resistance(library: LibraryCase, day: AnchorOfDay) -> Iterator[Fault]:
    anchor = day.anchor
    row = "boulder" if anchor.structure.kind == "boulder" else "ground_anchor"
    required, together = day.required(row), anchor.force()
    resists = need(anchor.resistance_n(), anchor.on_structure())
    ratio = resists / together.size if together.size else float("inf")
    if required is None or ratio >= required:
        return
    fault = Fault(
        anchor.on_structure(),
        f"{len(anchor.pulls)} lines pull at '{anchor.name}' together{day.when}: {day.in_words(together)}. That makes "
        f"{in_kn(together.size)}; it resists {in_kn(resists, 'down')}, {rounded(ratio, 'down')} times that. "
        f"{required:g} is required.",
        f"Bring the pulls at '{anchor.name}' down to {in_kn(resists / required, 'down')} together, move a line to "
        "another anchor, or rig them on other days.",
        value=ratio,
        limit=required,
        unit="1",
        inputs=(
            Input("resistance", "R", resists / 1e3, "kN"),
            *(Input(f"pull of {one.name}", "T", one.tension_n / 1e3, "kN") for one in together.members),
        ),
        state="together",
        signal=Signal.DANGER if ratio < library.limit(LEAST) else None,
    )

    def fine_alone(case: Case) -> bool:
        for end in case.loads.ends():
            if end.name == anchor.name and end.carries:
                pull, asked = end.pull(), case.required("backup" if end.backup else row)
                alone = known(lambda end=end, pull=pull: end.resistance_n(pull.uplift_n))  # type: ignore[misc]
                if alone is None or asked is None or alone < asked * pull.tension_n:
                    return False
        return True

    yield from in_each_file(day, fault, fine_alone)
