"""The leash is strong, doubled, long enough, gives, and is tied with knots that hold.

It is judged by its parts. The line's reaction in a leash fall is another force than the leash's own, so no
ratio is formed with it; the formula of a fall on a rope is shown for whoever wants to compare.
"""

import re
from collections.abc import Iterator

from riglint.rulekit import (
    KNOTS,
    PRACTICE,
    REMOVE,
    At,
    Case,
    Fault,
    Item,
    Leash,
    Limit,
    MissingInput,
    Signal,
    Source,
    either,
    faulty,
    in_kn,
    in_prose,
    need,
    one_value,
    open_,
    rule,
    sound,
    the_leash,
)

HANDBOOK = Source(
    "US highline handbook and German alpine club: dynamic, redundant, hanging about 2 m", "unnamed"
)
LEAST = Limit(
    name="least_strength",
    text="22 kN",
    dimension="force",
    tighter="higher",
    because="We ask of a leash without a rope standard what a type A rope or a lanyard holds.",
    source=Source("EN 1891 type A: 22 kN, read in three summaries", "standard", ("en_1891",)),
)
ROPE = Limit(
    name="least_rope_strength",
    text="15 kN",
    dimension="force",
    tighter="higher",
    because="A type A rope holds this with a figure-eight in its end. A rope leash must hold no less.",
    source=Source(
        "EN 1891 type A: 15 kN with figure-eight ends, read in three summaries", "standard", ("en_1891",)
    ),
)
DAYS = Limit(
    name="most_days",
    text="360",
    dimension=None,
    tighter="lower",
    because="A leash wears at its knots and rings on every day of use, whether or not anybody falls.",
    source=Source("own proposal, after the year of rigged days of a class B webbing", "own"),
)
DIAMETER = Limit(
    name="least_diameter",
    text="8.9 mm",
    dimension="length",
    tighter="higher",
    because=(
        "EN 892 covers half and twin ropes too. A rope thinner than a single rope is cut and "
        "worn through sooner."
    ),
    source=PRACTICE,
)
HANG = Limit(
    name="least_hang",
    text="2 m",
    dimension="length",
    tighter="higher",
    because="On a shorter leash the walker hits the line on the way down, and less leash stretches.",
    source=HANDBOOK,
)
DYNAMIC = re.compile(r"\bEN\s*892\b", re.IGNORECASE)
LOW_STRETCH = re.compile(r"\bEN\s*1891\b.*\bA\b", re.IGNORECASE)
HOLD = frozenset({"figure_eight", "figure_nine", "sewn"})
LE = "shelf[0].items.LE-1"
SEWN = {f"{LE}.standard": REMOVE, "leash.ring_knot": "sewn", "leash.harness_knot": "sewn"}


@rule(
    title="The leash isn't built to hold a fall",
    each=the_leash,
    signal=Signal.WARNING,
    worst=Signal.DANGER,
    why="Every fall ends on the leash. A short or stiff leash breaks bones; a single strand can be cut through.",
    formula=(
        "EN 892, EN 1891 type A, or sewn with ≥ 22 kN; two strands; hang ≥ 2 m; its own fall, not judged: "
        "F = m·g + √((m·g)² + 2·m·g·κ·f), f fall factor, κ rope modulus"
    ),
    limits=(LEAST, ROPE, DIAMETER, HANG, DAYS),
    sources=(HANDBOOK, PRACTICE),
    prevents=("leash_short_or_static", "leash_single_or_worn"),
    examples=(
        sound("highline"),
        sound("highline", {f"{LE}.days_used": 360}),
        faulty("highline", {f"{LE}.days_used": 361}, at=f"{LE}.days_used", signal=Signal.WARNING),
        sound("highline", SEWN),
        sound("highline", {"leash.hang": "2 m"}),
        sound("highline", {f"{LE}.type": REMOVE}),  # EN 892 is dynamic
        faulty(
            "highline",
            {"leash.hang": "1.98 m"},
            at="leash.hang",
            signal=Signal.WARNING,
            shows="leash_short_or_static",
        ),
        faulty("highline", {**SEWN, f"{LE}.mbs": "21.8 kN"}, at=f"{LE}.mbs", signal=Signal.DANGER),
        faulty(
            "highline",
            {f"{LE}.standard": "EN 1891 B", f"{LE}.mbs": "18 kN"},
            at=f"{LE}.mbs",
            signal=Signal.DANGER,
        ),
        faulty(
            "highline",
            {f"{LE}.doubled": False},
            at=f"{LE}.doubled",
            signal=Signal.WARNING,
            shows="leash_single_or_worn",
        ),
        faulty("highline", {**SEWN, f"{LE}.type": "low_stretch"}, at=f"{LE}.type", signal=Signal.WARNING),
        faulty(
            "highline",
            {f"{LE}.standard": "EN 1891 type A", f"{LE}.type": "low_stretch"},
            at=f"{LE}.type",
            signal=Signal.CAUTION,
        ),
        faulty("highline", {f"{LE}.type": "hmpe"}, at=f"{LE}.type", signal=Signal.WARNING),
        faulty("highline", {f"{LE}.material": "uhmwpe"}, at=f"{LE}.material", signal=Signal.WARNING),
        faulty("highline", {f"{LE}.material": "polyester"}, at=f"{LE}.material", signal=Signal.WARNING),
        # What it is counts, not the name of its standard.
        sound("highline", {f"{LE}.mbs": "15.2 kN"}),
        faulty("highline", {f"{LE}.mbs": "14.8 kN"}, at=f"{LE}.mbs", signal=Signal.DANGER),
        sound("highline", {f"{LE}.mbs": REMOVE}),  # ropes to EN 892 seldom say
        sound("highline", {f"{LE}.diameter": "8.9 mm"}),
        faulty("highline", {f"{LE}.diameter": "8.8 mm"}, at=f"{LE}.diameter", signal=Signal.WARNING),
        sound("highline", {f"{LE}.kind": "rope"}),
        open_("highline", {f"{LE}.diameter": REMOVE}, at=f"{LE}.diameter"),
        faulty("highline", {"leash.ring_knot": "bowline"}, at="leash.ring_knot", signal=Signal.WARNING),
        *(
            faulty("highline", {"leash.ring_knot": knot}, at="leash.ring_knot", signal=Signal.DANGER)
            for knot in ("clove_hitch", "overhand", "water_knot")
        ),
        faulty("highline", {"leash.harness_knot": "none"}, at="leash.harness_knot", signal=Signal.DANGER),
        open_("highline", {"leash.gear": REMOVE}, at="leash.gear"),
        open_("highline", {"leash.hang": REMOVE}, at="leash.hang"),
        open_("highline", {"leash.ring_knot": REMOVE}, at="leash.ring_knot"),
        open_("highline", {"leash.harness_knot": REMOVE}, at="leash.harness_knot"),
        open_("highline", {f"{LE}.doubled": REMOVE}, at=f"{LE}.doubled"),
        open_("highline", {**SEWN, f"{LE}.mbs": REMOVE}, at=f"{LE}.mbs"),
        open_("highline", {**SEWN, f"{LE}.type": REMOVE}, at=f"{LE}.type"),
        open_("highline", {f"{LE}.material": REMOVE}, at=f"{LE}.material"),
    ),
)
def build(case: Case, leash: Leash) -> Iterator[Fault]:
    missing: list[At] = []
    yield from _hang(case, leash, missing)
    for key, where in (("ring_knot", "rings"), ("harness_knot", "harness")):
        yield from _knot(case.at("leash", key, part="leash"), getattr(leash, key), where, missing)
    if leash.gear is None:
        missing.append(case.at("leash", "gear", part="leash"))
    else:
        item = need(case.items.get(leash.gear), case.at("leash", "gear", part="leash"))
        yield from _strength(case, item, missing)
        yield from _give(case, item, missing)
        yield from _worn(case, item)
    if missing:
        raise MissingInput(*missing)


def _hang(case: Case, leash: Leash, missing: list[At]) -> Iterator[Fault]:
    at, least = case.at("leash", "hang", part="leash"), case.limit(HANG)
    if leash.hang is None:
        missing.append(at)
    elif leash.hang.si < least:
        remedies = case.put_right(
            at, one_value(at.key, "lengthen the leash so that it hangs {}", "up", "m", 0.05)
        )
        yield Fault(
            at,
            f"The walker hangs only {leash.hang.text} below the rings. At least {least:g} m.",
            either(*remedies.or_else(f"lengthen the leash by at least {least - leash.hang.si:.2f} m")),
            value=leash.hang.si,
            limit=least,
            unit="m",
            source=HANG.source,
            remedies=remedies,
        )


def _knot(at: At, knot: str | None, where: str, missing: list[At]) -> Iterator[Fault]:
    if knot is None:
        missing.append(at)
    elif knot == "none":
        yield Fault(
            at,
            f"Nothing ties the leash to the {where}.",
            f"Tie it to the {where} with a figure-eight, dressed and set, with a tail of ten rope diameters.",
            signal=Signal.DANGER,
            source=PRACTICE,
        )
    elif knot not in HOLD:
        slips = KNOTS[knot].at_end in {"slips", "creeps", "rolls"}
        yield Fault(
            at,
            f"The leash is tied to the {where} with {knot.replace('_', ' ')}. It can "
            f"{'slip or roll off its end' if slips else 'work loose'}.",
            "Tie a figure-eight or figure-nine, dressed and set, with a tail of ten rope diameters.",
            value=knot,
            limit="figure_eight",
            signal=Signal.DANGER if slips else None,
            source=HANDBOOK,
        )


def _strength(case: Case, item: Item, missing: list[At]) -> Iterator[Fault]:
    gear, standard = item.gear, item.gear.standard or ""
    of_rope = bool(DYNAMIC.search(standard) or LOW_STRETCH.search(standard))
    yield from _breaks_low(case, item, missing, of_rope=of_rope)
    if of_rope or gear.kind == "rope":
        yield from _thin(case, item, missing)
    at = case.on_item(item, "doubled", part="leash")
    if gear.doubled is None:
        missing.append(at)
    elif not gear.doubled:
        yield Fault(
            at,
            f"Leash {item.id} is a single strand. One cut or one worn spot is enough to drop the walker.",
            "Use a leash of two strands, each strong enough by itself.",
            source=HANDBOOK,
        )


def _breaks_low(case: Case, item: Item, missing: list[At], *, of_rope: bool) -> Iterator[Fault]:
    """Judge what it breaks at: of a rope to a rope's standard only what its label says, if it says it."""
    gear, limit = item.gear, ROPE if of_rope else LEAST
    at, least = case.on_item(item, "mbs", part="leash"), case.limit(limit)
    if gear.mbs is None:
        # Standards of such rope ask for its strength, so its label need not; anything else has to.
        if not of_rope:
            missing.append(at)
    elif gear.mbs.si < least:
        what = "" if of_rope else " and isn't rope to EN 892 or EN 1891 type A"
        yield Fault(
            at,
            f"Leash {item.id} breaks at {in_kn(gear.mbs.si, 'down')}{what}. At least {in_kn(least)}.",
            f"Use a leash of rope to EN 892, or a sewn one of at least {in_kn(case.limit(LEAST))}.",
            value=gear.mbs.si / 1e3,
            limit=least / 1e3,
            unit="kN",
            signal=Signal.DANGER,
            source=limit.source,
        )


def _thin(case: Case, item: Item, missing: list[At]) -> Iterator[Fault]:
    """Judge how thick a rope is, whatever standard it names."""
    at, least, thick = case.on_item(item, "diameter", part="leash"), case.limit(DIAMETER), item.gear.diameter
    if thick is None:
        missing.append(at)
    elif thick.si < least:
        yield Fault(
            at,
            f"Leash {item.id} is {thick.text} thick. At least {least * 1e3:.3g} mm for a rope "
            "that holds a person.",
            f"Use single rope at least {least * 1e3:.3g} mm thick, doubled.",
            value=thick.si * 1e3,
            limit=least * 1e3,
            unit="mm",
            source=DIAMETER.source,
        )


def _give(case: Case, item: Item, missing: list[At]) -> Iterator[Fault]:
    """Judge whether the leash gives: what it is built as, else what its standard says, and its material."""
    gear, standard = item.gear, item.gear.standard or ""
    kind = gear.type or ("dynamic" if DYNAMIC.search(standard) else None)
    at = case.on_item(item, "type", part="leash")
    if kind is None:
        missing.append(at)
    elif kind != "dynamic":
        tested = kind == "low_stretch" and LOW_STRETCH.search(standard) is not None
        yield Fault(
            at,
            f"Leash {item.id} is {in_prose(kind)} rope, so it catches falls near an anchor hard.",
            "Use dynamic rope to EN 892, about 3.5 m as bought, doubled.",
            value=kind,
            limit="dynamic",
            signal=Signal.CAUTION if tested else None,
            source=HANDBOOK,
        )
    at = case.on_item(item, "material", part="leash")
    if gear.material is None:
        missing.append(at)
    elif gear.material != "polyamide":
        stiff = gear.material in {"uhmwpe", "aramid"}
        yield Fault(
            at,
            f"Leash {item.id} is of {gear.material}, "
            f"{'which hardly gives and suffers from knots' if stiff else 'of which no dynamic rope is made'}.",
            "Use polyamide: dynamic rope to EN 892, doubled.",
            value=gear.material,
            limit="polyamide",
            signal=None if stiff or kind == "dynamic" else Signal.CAUTION,
            source=PRACTICE,
        )


def _worn(case: Case, item: Item) -> Iterator[Fault]:
    days, most = item.gear.days_used, case.limit(DAYS)
    if days is not None and days > most:
        yield Fault(
            case.on_item(item, "days_used", part="leash"),
            f"The leash {item.id} was used on {days} days; {most:g} are the most.",
            f"Retire {item.id}, and tie a new leash.",
            value=days,
            limit=most,
            unit="days",
            signal=Signal.WARNING,
            source=DAYS.source,
        )
