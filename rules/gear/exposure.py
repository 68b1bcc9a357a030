"""Webbing over a deadly drop is of a class for it, and not past the days that its class is good for.

A day counts when the webbing is rigged, walked on or not. The days that the plan keeps it up are added.
"""

from collections.abc import Iterator

from riglint.rulekit import (
    REMOVE,
    Case,
    Fault,
    Item,
    Limit,
    Placed,
    Signal,
    Source,
    everywhere,
    faulty,
    need,
    need_all,
    open_,
    review,
    rule,
    sound,
)

NOTICE = Source(
    "federation notice of 2022 on webbing lifetime: classes C, B, A, A+ by strength",
    "published",
    ("isa_webbing_2022",),
)
ACCOUNT = Source(
    "account of 2024: after six months up both lines of bare UHMWPE broke; what was left tested at 10-11 kN",
    "unnamed",
)


def _strength(name: str, text: str, because: str) -> Limit:
    return Limit(name, text, "force", "higher", because, NOTICE)


def _days(name: str, text: str, because: str, source: Source = NOTICE) -> Limit:
    return Limit(name, text, None, "lower", because, source)


CLASS_C = _strength("class_c", "22 kN", "Weaker webbing isn't in any class for highlines.")
CLASS_B = _strength("class_b", "26 kN", "Class C does not cover single webbing of polyester.")
CLASS_A = _strength("class_a", "30 kN", "Stronger webbing can lose more before it is worn out.")
DAYS_C = _days("days_c", "180", "Class C in nylon lasts half a year of rigged days.")
DAYS_B = _days("days_b", "360", "Class B lasts a year of rigged days.")
DAYS_A = _days("days_a", "720", "Class A in nylon lasts two years of rigged days.")
LOOK = _days(
    "look_after",
    "720",
    "Class A in polyester has no limit in days. After two years of rigged days look at it and feel it.",
    Source("own proposal beside the notice, which asks for inspection by sight and feel", "own"),
)
DAYS_OTHER = _days(
    "days_other", "180", "Other fibres have no class. Two such lines broke after six months up.", ACCOUNT
)
DAYS_UP = _days(
    "days_up", "180", "A line that stays up for half a year loses about half its strength.", ACCOUNT
)
MAIN = "shelf[0].items.W-1"


def _main(material: str, mbs: str, days: int = 40) -> dict[str, object]:
    """Change the main webbing; the plan keeps it up for 2 more days."""
    return {f"{MAIN}.material": material, f"{MAIN}.mbs": mbs, f"{MAIN}.days_used": days}


@rule(
    title="The webbing is in no highline class, or past its days",
    each=everywhere("webbing"),
    signal=Signal.DANGER,
    why="Sun and wear take half the strength out of webbing before anyone sees it.",
    formula="breaking strength ≥ its class; days used + days up ≤ days of its class and fibre",
    limits=(CLASS_C, CLASS_B, CLASS_A, DAYS_C, DAYS_B, DAYS_A, LOOK, DAYS_OTHER, DAYS_UP),
    prevents=("day_gear_left_up", "webbing_below_its_use", "log_not_kept"),
    examples=(
        sound("highline"),
        sound("low", _main("polyester", "20 kN", 900)),
        sound("highline", _main("polyamide", "22.2 kN")),
        faulty(
            "highline",
            _main("polyamide", "21.8 kN"),
            at=f"{MAIN}.mbs",
            signal=Signal.DANGER,
            shows="webbing_below_its_use",
        ),
        sound("highline", _main("polyester", "26.2 kN")),
        faulty("highline", _main("polyester", "25.8 kN"), at=f"{MAIN}.mbs", signal=Signal.DANGER),
        sound("highline", _main("polyamide", "30.2 kN", 400)),
        faulty("highline", _main("polyamide", "29.8 kN", 400), at=f"{MAIN}.days_used"),
        sound("highline", _main("polyamide", "24 kN", 178)),
        faulty("highline", _main("polyamide", "24 kN", 179), at=f"{MAIN}.days_used", signal=Signal.DANGER),
        sound("highline", _main("polyester", "28 kN", 358)),
        faulty("highline", _main("polyester", "28 kN", 359), at=f"{MAIN}.days_used"),
        sound("highline", _main("polyamide", "40 kN", 718)),
        faulty("highline", _main("polyamide", "40 kN", 719), at=f"{MAIN}.days_used"),
        sound("highline", _main("polyester", "42 kN", 718)),
        review("highline", _main("polyester", "42 kN", 719), at=f"{MAIN}.days_used", signal=Signal.CAUTION),
        sound("highline", _main("uhmwpe", "60 kN", 178)),
        faulty("highline", _main("uhmwpe", "60 kN", 179), at=f"{MAIN}.days_used"),
        sound("highline", {"plan.days_up": 180}),
        faulty(
            "highline",
            {"plan.days_up": 181},
            at="plan.days_up",
            signal=Signal.DANGER,
            shows="day_gear_left_up",
        ),
        *(open_("highline", {f"{MAIN}.{key}": REMOVE}, at=f"{MAIN}.{key}") for key in ("mbs", "material")),
        open_("highline", {f"{MAIN}.days_used": REMOVE}, at=f"{MAIN}.days_used", shows="log_not_kept"),
        open_("highline", {"plan.days_up": REMOVE}, at="plan.days_up"),
        open_("highline", {"chain[4].gear": REMOVE}, at="chain[4].gear"),
        faulty("highline", {"plan.days_up": 181, "backups": []}, at="plan.days_up", shows="day_gear_left_up"),
        sound("highline", {**_main("polyamide", "24 kN", 180), "plan.days_up": 0}),
    ),
)
def exposure(case: Case, placed: Placed) -> Iterator[Fault]:
    if case.consequence != "life":
        return
    item, up = case.item(placed), case.plan.days_up if case.plan else None
    if (placed,) == case.path.webbings[:1] and up is not None and up > case.limit(DAYS_UP):
        yield Fault(
            case.at("plan", "days_up"),
            f"The line stays up for {up} days. At most {case.limit(DAYS_UP):.0f} without new webbing.",
            f"Take both lines down after {case.limit(DAYS_UP):.0f} days, or plan them as a permanent line.",
            value=up,
            limit=case.limit(DAYS_UP),
            unit="days",
            source=ACCOUNT,
        )
    at = {key: case.on_item(item, key, part=placed.id) for key in ("mbs", "material", "days_used")}
    need_all((item.gear.mbs, at["mbs"]), (item.gear.material, at["material"]))
    weak = _too_weak(case, item)
    if weak is not None:
        mbs = need(item.gear.mbs, at["mbs"])
        yield Fault(
            at["mbs"],
            f"{item.id}, {item.gear.material}, breaks at {mbs.text}. Over a deadly drop, at least "
            f"{case.limit(weak) / 1e3:.0f} kN.",
            f"Use webbing of at least {case.limit(weak) / 1e3:.0f} kN instead of {item.id}.",
            value=mbs.si / 1e3,
            limit=case.limit(weak) / 1e3,
            unit="kN",
        )
    need_all((item.gear.days_used, at["days_used"]), (up, case.at("plan", "days_up")))
    if weak is None:
        yield from _days_used(case, placed, item, need(item.gear.days_used, at["days_used"]), up or 0)


def _too_weak(case: Case, item: Item) -> Limit | None:
    """Return the class that webbing of its fibre must reach, where it does not."""
    least = CLASS_B if item.gear.material == "polyester" else CLASS_C
    return least if item.gear.mbs is not None and item.gear.mbs.si < case.limit(least) else None


def _days_used(case: Case, placed: Placed, item: Item, used: int, up: int) -> Iterator[Fault]:
    limit = _limit_of(case, item)
    most = case.limit(limit)
    if used + up <= most:
        return
    look = limit is LOOK
    yield Fault(
        case.on_item(item, "days_used", part=placed.id),
        f"{item.id}, {item.gear.material}, will have been rigged for {used + up} days, {up} of them here. "
        f"{f'After {most:.0f} somebody must look it over' if look else f'At most {most:.0f} for its class'}.",
        f"Have someone look at {item.id} and feel it over its whole length."
        if look
        else f"Retire {item.id} from highlines.",
        value=used + up,
        limit=most,
        unit="days",
        kind="review" if look else "fail",
        signal=Signal.CAUTION if look else None,
        source=limit.source,
    )


def _limit_of(case: Case, item: Item) -> Limit:
    """Return the days that webbing of this strength and fibre is good for."""
    strength = item.gear.mbs.si if item.gear.mbs else 0.0
    if item.gear.material not in {"polyamide", "polyester"}:
        return DAYS_OTHER
    if strength >= case.limit(CLASS_A):
        return LOOK if item.gear.material == "polyester" else DAYS_A
    return DAYS_B if strength >= case.limit(CLASS_B) else DAYS_C
