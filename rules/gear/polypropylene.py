"""Polypropylene does not stay in the sun."""

from collections.abc import Iterator

from riglint.rulekit import (
    REMOVE,
    Case,
    Fault,
    Item,
    Limit,
    Signal,
    Source,
    each_item,
    faulty,
    need_all,
    open_,
    review,
    rule,
    sound,
)

GUIDE = Source(
    "Holtzman, The Field Guide to Knots, p. 71: degrades quickly in sunlight, melts at a low temperature",
    "published",
    ("holtzman_knots",),
)
MOST = Limit(
    name="most_days",
    text="30",
    dimension=None,
    tighter="lower",
    because="A month of sun already shows in polypropylene. The number of days is common practice.",
    source=GUIDE,
)
RS, UP = "shelf[0].items.RS-1", "plan.days_up"


def _days(used: object, up: object = 1) -> dict[str, object]:
    return {f"{RS}.material": "polypropylene", f"{RS}.days_used": used, UP: up}


@rule(
    title="Polypropylene in the sun",
    each=each_item(),
    signal=Signal.CAUTION,
    raised={"fall": Signal.WARNING, "life": Signal.DANGER},
    why="The sun destroys polypropylene within a season. A sling then breaks at a load that it held in spring.",
    formula="days used + days up ≤ most",
    limits=(MOST,),
    prevents=("day_gear_left_up",),
    examples=(
        sound("low"),
        sound("highline"),
        review("low", _days(29), at=f"{RS}.material", signal=Signal.NOTICE),
        faulty("low", _days(30), at=f"{RS}.days_used", signal=Signal.CAUTION),
        review("low", _days(0, 30), at=f"{RS}.material", signal=Signal.NOTICE),
        faulty("low", _days(0, 31), at=f"{RS}.days_used", signal=Signal.CAUTION),
        faulty("low", _days(60) | {"plan.consequence": "life"}, signal=Signal.DANGER),
        open_("low", _days(REMOVE), at=f"{RS}.days_used"),
        open_("low", _days(5, REMOVE), at=UP),
    ),
)
def polypropylene(case: Case, item: Item) -> Iterator[Fault]:
    if item.gear.material != "polypropylene" or item.gear.kind == "protector":
        return
    up, used = case.plan.days_up if case.plan else None, item.gear.days_used
    need_all((used, case.on_item(item, "days_used")), (up, case.at("plan", "days_up")))
    days, most = (used or 0) + (up or 0), case.limit(MOST)
    if days > most:
        yield Fault(
            case.on_item(item, "days_used"),
            f"{item.id} is polypropylene and will have been outdoors for {days} days. At most {most:g}.",
            f"Use polyester or polyamide instead of {item.id}.",
            value=days,
            limit=most,
            unit="days",
            source=GUIDE,
        )
    else:
        yield Fault(
            case.on_item(item, "material"),
            f"{item.id} is polypropylene. Sun and friction damage it sooner than other fibres.",
            f"Keep {item.id} in the shade, look for chalky or brittle fibres, and plan to replace "
            "it with polyester.",
            kind="review",
            signal=Signal.NOTICE,
            source=GUIDE,
        )
