"""The rope runs in every pulley: not too thick for the sheave, not bent too sharply."""

from collections.abc import Iterator

from riglint.rulekit import (
    REMOVE,
    At,
    Case,
    Fault,
    Item,
    Limit,
    MissingInput,
    Placed,
    Quantity,
    Signal,
    Source,
    faulty,
    need,
    open_,
    rule,
    sound,
    the_haul,
)

BEND = Limit(
    name="least_bend",
    text="4",
    dimension=None,
    tighter="higher",
    because=(
        "A rope keeps its full strength on a sheave four times its own thickness, and loses some "
        "on a smaller one."
    ),
    source=Source("rope rescue texts: sharp is a bend under four rope diameters", "unnamed"),
)


@rule(
    title="The rope doesn't fit a pulley",
    each=the_haul,
    signal=Signal.WARNING,
    why=(
        "A rope that runs on the cheeks of a pulley jams or is cut there. The line then hangs on what is left."
    ),
    formula="rope diameter d ≤ thickest rope of the pulley; sheave diameter D ≥ 4·d",
    limits=(BEND,),
    prevents=("rope_wider_than_sheave", "rope_bent_sharply"),
    examples=(
        sound("long_haul"),
        sound("long_haul", {"shelf[0].items.RP-1.diameter": "11 mm"}),
        faulty(
            "long_haul",
            {"shelf[0].items.RP-1.diameter": "11.1 mm"},
            signal=Signal.WARNING,
            shows="rope_wider_than_sheave",
        ),
        faulty("long_haul", {"shelf[0].items.SP-1.rope_max": "9.9 mm"}, at="chain[8].multiplier.pulley"),
        sound("long_haul", {"shelf[0].items.DB-2.sheave_diameter": "40 mm"}),
        faulty(
            "long_haul",
            {"shelf[0].items.DB-2.sheave_diameter": "39.5 mm"},
            at="chain[8].fixed_block",
            signal=Signal.CAUTION,
            shows="rope_bent_sharply",
        ),
        open_("long_haul", {"shelf[0].items.RP-1.diameter": REMOVE}, at="shelf[0].items.RP-1.diameter"),
        open_("long_haul", {"shelf[0].items.DB-1.rope_max": REMOVE}, at="shelf[0].items.DB-1.rope_max"),
        open_("long_haul", {"shelf[0].items.DB-1.sheave_diameter": REMOVE}),
        open_("long_haul", {"chain[8].moving_block": REMOVE}, at="chain[8].moving_block"),
        open_("long_haul", {"chain[8].rope.gear": REMOVE}, at="chain[8].rope.gear"),
        faulty(
            "long_haul",
            {
                "chain[8].pull": {"redirect": {"gear": "SP-9"}},
                "shelf[0].items.SP-9": {"kind": "pulley", "rope_max": "9.9 mm", "sheave_diameter": "45 mm"},
            },
            at="chain[8].pull.redirect.gear",
        ),
    ),
)
def sheaves(case: Case, placed: Placed) -> Iterator[Fault]:
    part = placed.part
    rope = case.haul.gear(part.rope.gear if part.rope else None, "rope", "gear")
    diameter = need(rope.gear.diameter, case.on_item(rope, "diameter", part=placed.id))
    named: list[tuple[At, str | None]] = [
        (case.on_part(placed, "moving_block"), part.moving_block),
        (case.on_part(placed, "fixed_block"), part.fixed_block),
    ]
    if part.multiplier is not None and part.multiplier.pulley is not None:
        named.append((case.on_part(placed, "multiplier", "pulley"), part.multiplier.pulley))
    if part.pull is not None and part.pull.redirect is not None:
        named.append((case.on_part(placed, "pull", "redirect", "gear"), part.pull.redirect.gear))
    missing: list[At] = []
    for at, name in named:
        item = case.items.get(name or "")
        if item is None:
            missing.append(at)
        elif item.gear.kind == "pulley":  # rope over a bare connector has no sheave to judge
            keys = [key for key in ("rope_max", "sheave_diameter") if getattr(item.gear, key) is None]
            missing += [case.on_item(item, key, part=placed.id) for key in keys]
            yield from _too_thick(case, at, item, diameter)
    if missing:
        raise MissingInput(*missing)


def _too_thick(case: Case, at: At, item: Item, diameter: Quantity) -> Iterator[Fault]:
    thickest, sheave, bend = item.gear.rope_max, item.gear.sheave_diameter, case.limit(BEND)
    inputs = (case.given("rope diameter", "d", diameter, at),)
    if thickest is not None and diameter.si > thickest.si:
        yield Fault(
            at,
            f"The rope is {diameter.text} thick. Pulley {item.id} takes at most {thickest.text}.",
            f"Use a rope of at most {thickest.text}, or a wider pulley.",
            value=diameter.si * 1e3,
            limit=thickest.si * 1e3,
            unit="mm",
            inputs=inputs,
        )
    if sheave is not None and sheave.si < bend * diameter.si:
        yield Fault(
            at,
            f"The sheave of pulley {item.id}, {sheave.text}, is {sheave.si / diameter.si:.3g} × "
            f"as thick as the rope. {bend:g} × keeps the rope's full strength.",
            f"Use sheaves of at least {bend * diameter.si * 1e3:.3g} mm, or a thinner rope that still holds.",
            value=sheave.si / diameter.si,
            limit=bend,
            unit="1",
            inputs=inputs,
            signal=Signal.CAUTION,
        )
