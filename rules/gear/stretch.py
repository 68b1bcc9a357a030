"""A stretch table is such as its fibre and strength can have: no foreign curve, no lost decimal."""

from collections.abc import Iterator

from riglint.rulekit import (
    REMOVE,
    Case,
    Fault,
    Input,
    Item,
    Signal,
    Source,
    beyond_label,
    each_item,
    faulty,
    in_kn,
    known,
    rounded,
    rule,
    sound,
    stretch_points,
)

W, RP = "shelf[0].items.W-1", "shelf[0].items.RP-1"  # 42 kN of polyester; 27 kN of polyamide rope


def _curve(*points: str, item: str = W, **keys: object) -> dict[str, object]:
    """Write a stretch table of points such as `10 kN: 4.1 %`, and other keys of the same piece."""
    table = dict(point.split(": ") for point in points)
    return {f"{item}.stretch": table} | {f"{item}.{key}": value for key, value in keys.items()}


@rule(
    title="A stretch table looks wrong",
    each=each_item("webbing", "rope"),
    signal=Signal.WARNING,
    why="This curve decides the sag, the peaks, the travel of the pulley system and the catch of a backup.",
    formula="(T ÷ MBS) ÷ stretch within the band of its fibre, at each point of the table",
    sources=(
        Source(
            "nylon 19 % and polyester 14 % at break, aramid 3.7 %: a knot handbook",
            "published",
            ("bigon_knots",),
        ),
        Source("the bands round these are model values (`model.label.stiffness`)", "own"),
    ),
    prevents=("stretch_of_another_fibre", "units_mixed"),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("highline"),
        # (10 ÷ 42) ÷ 1.6 is 14.9 %; (10 ÷ 42) ÷ 14 is 1.70 %.
        sound("long_haul", _curve("10 kN: 14.8 %")),
        faulty("long_haul", _curve("10 kN: 15 %"), at=f"{W}.stretch", signal=Signal.WARNING),
        sound("long_haul", _curve("10 kN: 1.71 %")),
        faulty("long_haul", _curve("10 kN: 1.69 %"), at=f"{W}.stretch", signal=Signal.WARNING),
        faulty("long_haul", _curve("10 kN: 41 %"), at=f"{W}.stretch", shows="units_mixed"),
        faulty("long_haul", _curve("1 kN: 0.07 %", "5 kN: 2.4 %", "10 kN: 4.1 %"), at=f"{W}.stretch"),
        # While the weave straightens twice as much passes.
        sound("long_haul", _curve("1 kN: 2.9 %", "10 kN: 4.1 %")),
        faulty("long_haul", _curve("1 kN: 3.1 %", "10 kN: 4.1 %"), at=f"{W}.stretch"),
        faulty(
            "long_haul",
            _curve("10 kN: 4.1 %", material="polyamide"),
            at=f"{W}.stretch",
            shows="stretch_of_another_fibre",
        ),
        sound("long_haul", _curve("10 kN: 18 %", material="polyamide")),
        sound("long_haul", _curve("10 kN: 1.5 %", material="uhmwpe")),
        faulty("long_haul", _curve("10 kN: 18 %", material="uhmwpe"), at=f"{W}.stretch"),
        sound("long_haul", _curve("10 kN: 18 %", material=REMOVE)),
        faulty("long_haul", _curve("10 kN: 60 %", material=REMOVE), at=f"{W}.stretch"),
        sound("long_haul", {f"{W}.mbs": REMOVE}),  # asked for where strength is judged
        sound("long_haul", {f"{W}.stretch": REMOVE}),
        faulty("long_haul", _curve("1.5 kN: 0.4 %", item=RP), at=f"{RP}.stretch"),
        faulty("long_haul", _curve("1.5 kN: 40 %", item=RP), at=f"{RP}.stretch"),
        sound("long_haul", _curve("1.5 kN: 10 %", item=RP, type="dynamic")),
        sound("long_haul", _curve("1.5 kN: 0.5 %", item=RP, type="hmpe")),
    ),
)
def stretch(case: Case, item: Item) -> Iterator[Fault]:
    credited = known(lambda: case.loads.strengths.credited(item))
    if credited is None or not item.gear.stretch:
        return
    if beyond_label(item.gear, credited.breaking_n, case.loads.values):
        return  # the strength itself is wrong: gear/rating tells it
    points = stretch_points(item.gear, credited.breaking_n, case.loads.values)
    worst = max(points, key=lambda point: point.off)
    if worst.off <= 1.0:
        return
    at = case.on_item(item, "stretch")
    least, most = rounded(worst.least * 100, "up"), rounded(worst.most * 100, "down")
    yield Fault(
        at,
        f"By its table {item.id} stretches {worst.strain * 100:.3g} % at "
        f"{in_kn(worst.tension_n)}. {worst.words} that breaks at {in_kn(credited.breaking_n)} "
        f"stretches {least} to {most} %.",
        f"Look up the maker's curve of {item.id} again. Check the material, the decimal point, "
        "and that it is %, not mm or kN.",
        value=worst.strain * 100,
        limit=(worst.least if worst.strain < worst.least else worst.most) * 100,
        unit="%",
        inputs=(
            Input("tension", "T", worst.tension_n / 1e3, "kN"),
            Input("stretch", "ε", worst.strain * 100, "%", at.reference),
            Input("breaking strength", "MBS", credited.breaking_n / 1e3, "kN", credited.at.reference),
        ),
        source=worst.source,
    )
