"""The hole of a plate that the anchor hangs in bears the whole line.

Judged where the shelf gives the strength of one hole; few labels do, and without it this rule says nothing.
"""

from collections.abc import Iterator

from riglint.rulekit import (
    REMOVE,
    Case,
    Fault,
    Input,
    PartLoad,
    Signal,
    Source,
    each_load,
    faulty,
    first_up,
    in_kn,
    open_,
    rounded,
    rule,
    sound,
    when,
)

HOLE = "shelf[0].items.PL-1.hole"


@rule(
    title="One hole of the plate takes too much",
    each=each_load,
    signal=Signal.WARNING,
    raised={"life": Signal.DANGER},
    why=(
        "A plate is stronger than its holes. The hole toward the anchor tears first, with all "
        "that hangs in the others."
    ),
    formula="strength of one hole ÷ F ≥ the ratio required of metal, F the worst peak of the whole line",
    sources=(Source("a plate's figure is for several holes together", "practice"),),
    prevents=("plate_loaded_askew",),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("long_haul", {HOLE: "20.8 kN"}),
        faulty("long_haul", {HOLE: "20.3 kN"}, at=HOLE, signal=Signal.WARNING),
        faulty("long_haul", {HOLE: "23 kN", "plan.consequence": "life"}, signal=Signal.DANGER),
        open_("long_haul", {HOLE: "24.3 kN", "plan.users": REMOVE}, at="plan.users"),
    ),
)
def plate_hole(case: Case, load: PartLoad) -> Iterator[Fault]:
    item = case.items.get(load.gear or "") if load.part == "plate" else None
    if item is None or item.gear.hole is None:
        return
    required = load.required_at(case.consequence)
    forces = [(force, state.name) for state in case.loads.peaks() if (force := load.force_n(state))]
    if required is None or not forces:
        return
    force, state = max(forces)
    hole, at = item.gear.hole, case.on_item(item, "hole", part=load.id)
    if hole.si >= required * force:
        return
    yield Fault(
        at,
        f"{first_up(when(state))}, the plate's hole toward the anchor takes "
        f"{in_kn(force)}. It holds {hole.text}, {rounded(hole.si / force, 'down')} × that; you "
        f"need {required:g} ×.",
        f"Use a plate whose holes hold {in_kn(required * force, 'up')} each, or join it to the "
        "anchor by two holes.",
        value=hole.si / force,
        limit=required,
        unit="1",
        inputs=(
            case.given("strength of one hole", "S", hole, at),
            Input("force on it", "F", force / 1e3, "kN"),
        ),
        state=state,
        source=load.required.source,
    )
