"""Strengths on the shelf are such as gear of that kind, fibre and size can have.

What is judged is the strength that the rig is credited with, whichever key it came from: a breaking strength, or a
rated load times the factor of its standard. Sizes have a rule of their own, `gear/size`.
"""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    Case,
    Fault,
    Input,
    Item,
    Limit,
    Plausible,
    Quantity,
    Signal,
    Source,
    Strength,
    beyond_label,
    each_item,
    faulty,
    first_up,
    in_kn,
    open_,
    rule,
    sound,
)

LEAST_FACTOR = Limit(
    "least_factor", "2", None, "higher", "No maker rates gear above half its breaking strength.", PRACTICE
)
MOST_FACTOR = Limit(
    "most_factor",
    "12",
    None,
    "lower",
    "Lifting gear is rated at a quarter to a tenth of its breaking strength.",
    PRACTICE,
)
OFF_SIZE = Limit(
    "off_size",
    "2.5 %",
    "strain_or_ratio",
    "lower",
    "A rated load in kilonewtons is a shackle size in tonnes, rounded. A figure further off is a "
    "breaking strength.",
    Source("own proposal: what rounding of a label can make", "own"),
)
LEAST_ACROSS = Limit(
    "least_across",
    "0.1",
    None,
    "higher",
    "Connectors hold a quarter to a half of their strength across, and the standard asks for 7 kN or more.",
    Source("EN 12275: 7 to 10 kN across, of 20 to 25 kN along", "standard", ("en_12275",)),
)
# Rated loads of shackles to EN 13889, t. A label in tonnes may follow another series.
SIZES_T = (0.33, 0.5, 0.75, 1.0, 1.5, 2.0, 3.25, 4.75, 6.5, 8.5, 9.5, 12.0, 13.5, 17.0, 25.0)
SIZES = Source("EN 13889, table of working load limits", "memory", ("en_13889",))
TONNE_N = 9806.65
LIFTING = "EN 13889"
MASS_UNITS = frozenset({"t", "kg"})
FORCE_UNITS = frozenset({"kN", "N", "daN", "MN"})
ITEMS = "shelf[0].items"
W, RS, SH, QL = (f"{ITEMS}.{name}" for name in ("W-1", "RS-1", "SH-1", "QL-1"))
# Item; just outside and just inside below; just inside and just outside above.
PAIRS = (
    ("W-1", "6.9 kN", "7.0 kN", "50.4 kN", "50.5 kN"),  # 58 g/m of polyester, 120 to 870 N for each
    ("SE-1", "4.9 kN", "5.1 kN", "59.9 kN", "60.1 kN"),  # 25 mm of polyester, 200 to 2400 N for each
    ("PL-1", "11.9 kN", "12.1 kN", "199 kN", "201 kN"),
    ("RP-1", "7.9 kN", "8.1 kN", "39.9 kN", "40.1 kN"),  # 10 mm of rope, 80 to 400 N for each mm²
    ("BR-1", "5.9 kN", "6.1 kN", "59.9 kN", "60.1 kN"),
)


def _shackle(**keys: object) -> dict[str, object]:
    """Describe a shackle of the low line; a value of REMOVE takes a key away."""
    return {f"{SH}.{key}": value for key, value in keys.items()}


@rule(
    title="A strength in the gear list looks wrong",
    each=each_item(),
    signal=Signal.WARNING,
    raised={"life": Signal.DANGER},
    why="A rated load read as breaking strength, or tonnes read as kilonewtons, makes weak gear look strong.",
    formula=(
        "strength credited within the bands of its kind, fibre and size; least factor ≤ breaking strength/rated load ≤ "
        "most factor; a shackle's rated load near a size of its standard"
    ),
    limits=(LEAST_FACTOR, MOST_FACTOR, OFF_SIZE, LEAST_ACROSS),
    sources=(
        Source(
            "Directive 2006/42/EC annex I 4.1.2.5: working coefficients 4 to 7",
            "standard",
            ("directive_2006_42",),
        ),
        SIZES,
    ),
    prevents=("units_mixed", "strength_unknown"),
    examples=(
        sound("long_haul"),
        sound("low"),
        sound("highline"),
        *(
            faulty("long_haul", {f"{ITEMS}.{item}.mbs": low}, at=f"{ITEMS}.{item}.mbs")
            for item, low, *_ in PAIRS
        ),
        *(sound("long_haul", {f"{ITEMS}.{item}.mbs": low}) for item, _, low, *_ in PAIRS),
        *(sound("long_haul", {f"{ITEMS}.{item}.mbs": high}) for item, *_, high, _ in PAIRS),
        *(
            faulty("long_haul", {f"{ITEMS}.{item}.mbs": high}, at=f"{ITEMS}.{item}.mbs")
            for item, *_, high in PAIRS
        ),
        faulty("long_haul", {f"{W}.mbs": "42 t"}, at=f"{W}.mbs", signal=Signal.WARNING, shows="units_mixed"),
        faulty("long_haul", {f"{W}.mbs": "42 t", "plan.consequence": "life"}, signal=Signal.DANGER),
        # By width where no mass is known, by any fibre where none is named.
        sound("long_haul", {f"{W}.width": "250 mm"}),  # a wrong width: gear/size tells it
        sound("long_haul", {f"{W}.mbs": "59.9 kN", f"{W}.mass_per_metre": REMOVE}),
        faulty("long_haul", {f"{W}.mbs": "60.1 kN", f"{W}.mass_per_metre": REMOVE}, at=f"{W}.mbs"),
        sound("long_haul", {f"{W}.mbs": "100 kN", f"{W}.material": "uhmwpe"}),
        sound("long_haul", {f"{W}.mbs": "100 kN", f"{W}.material": REMOVE}),
        # Rated loads are judged by the strength that they are credited with.
        faulty("long_haul", {f"{RS}.wll": "20 t"}, at=f"{RS}.wll", signal=Signal.WARNING),
        faulty("long_haul", {f"{RS}.wll": "0.2 t"}, at=f"{RS}.wll", signal=Signal.WARNING),
        sound("long_haul", {f"{RS}.wll": "3 t"}),
        faulty("long_haul", _shackle(wll="325 t"), at=f"{SH}.wll"),
        faulty("long_haul", _shackle(wll="28 t"), at=f"{SH}.wll", signal=Signal.WARNING),
        sound("long_haul", _shackle(wll="8.5 t")),
        # A shackle of 16 mm: 38 to 333 kN; a jaw of 27 mm much the same.
        sound("long_haul", _shackle(diameter="16 mm")),
        faulty("long_haul", _shackle(diameter="10 mm"), at=f"{SH}.wll"),
        faulty("long_haul", _shackle(jaw="16 mm"), at=f"{SH}.wll"),
        faulty("long_haul", _shackle(diameter="16 mm", material="aluminium"), at=f"{SH}.wll"),
        # A breaking strength typed as rated load.
        faulty("long_haul", _shackle(wll="22 kN", standard=REMOVE), at=f"{SH}.wll", signal=Signal.WARNING),
        sound("long_haul", _shackle(wll="31.9 kN")),
        sound("long_haul", _shackle(wll="20 kN")),
        sound("long_haul", _shackle(wll="32.66 kN")),
        faulty("long_haul", _shackle(wll="32.69 kN"), at=f"{SH}.wll"),
        *(
            open_(
                "long_haul",
                {f"{ITEMS}.{name}.mbs": REMOVE, f"{ITEMS}.{name}.wll": "10 kN"},
                at=f"{ITEMS}.{name}.wll",
            )
            for name in ("W-1", "WA-1")
        ),
        sound("long_haul", {f"{W}.mbs": REMOVE}),  # what is not on file is asked for where it is needed
        # Both on one label.
        sound("long_haul", _shackle(mbs="63.8 kN")),
        faulty("long_haul", _shackle(mbs="63.7 kN"), at=f"{SH}.wll"),
        sound("long_haul", _shackle(mbs="382 kN")),
        faulty("long_haul", _shackle(mbs="383 kN"), at=f"{SH}.wll"),
        # A rated load typed as breaking strength: a size in tonnes, or one of a lifting shackle in kilonewtons.
        faulty("long_haul", _shackle(wll=REMOVE, mbs="3.25 t"), at=f"{SH}.mbs", signal=Signal.WARNING),
        faulty("long_haul", _shackle(wll=REMOVE, mbs="32.66 kN"), at=f"{SH}.mbs"),
        sound("long_haul", _shackle(wll=REMOVE, mbs="32.69 kN")),
        sound("long_haul", _shackle(wll=REMOVE, mbs="32 kN", standard=REMOVE)),
        faulty("long_haul", _shackle(wll=REMOVE, mbs="3.25 t", standard=REMOVE), at=f"{SH}.mbs"),
        sound("long_haul", _shackle(wll=REMOVE, mbs="3.25 t", diameter="12 mm")),
        sound("long_haul", _shackle(wll=REMOVE, mbs="19.5 t")),
        # Across: never above the strength along, nor a tenth of it.
        sound("long_haul", {f"{QL}.mbs": "40 kN", f"{QL}.mbs_minor": "4.1 kN"}),
        faulty("long_haul", {f"{QL}.mbs": "40 kN", f"{QL}.mbs_minor": "3.9 kN"}, at=f"{QL}.mbs_minor"),
        sound("long_haul", {f"{QL}.mbs": "40 kN", f"{QL}.mbs_minor": "40 kN"}),
        faulty("long_haul", {f"{QL}.mbs": "40 kN", f"{QL}.mbs_minor": "40.1 kN"}, at=f"{QL}.mbs_minor"),
        faulty("long_haul", {f"{ITEMS}.PL-1.wll": "50 kN"}, at=f"{ITEMS}.PL-1.wll", shows="strength_unknown"),
    ),
)
def rating(case: Case, item: Item) -> Iterator[Fault]:
    gear = item.gear
    if gear.mbs is None and gear.wll is None:
        return
    credited = case.loads.strengths.credited(item)
    yield from _across(case, item)
    bands = beyond_label(gear, credited.breaking_n, case.loads.values)
    if bands:
        yield _beyond(case, item, credited, min(bands, key=lambda band: band.most_n))
    elif gear.mbs is None and gear.wll is not None:
        yield from _between_sizes(case, item, gear.wll, credited)
    elif gear.mbs is not None and gear.wll is None:
        yield from _a_size(case, item, gear.mbs)
    elif gear.mbs is not None and gear.wll is not None:
        yield from _factor(case, item, gear.mbs, gear.wll)


def _beyond(case: Case, item: Item, credited: Strength, band: Plausible) -> Fault:
    force, strong = credited.breaking_n, credited.breaking_n > band.most_n
    by_label = credited.breaking_from == "label"
    how = f"Its label gives {item.id}" if by_label else f"{item.id} is credited with"
    from_where = "" if by_label else f" ({credited.breaking_from})"
    size = (
        (case.given(band.key.replace("_", " "), "size", band.size, case.on_item(item, band.key)),)
        if band.key is not None and band.size is not None
        else ()
    )
    return Fault(
        case.on_item(item, str(credited.at.key[-1])),
        f"{how} {in_kn(force)}{from_where}. {first_up(band.words)} breaks at {in_kn(band.least_n, 'up')} to "
        f"{in_kn(band.most_n, 'down')}.",
        f"Read the label of {item.id} again. Is it kN, t, kg or lbf? Is it the rated load or the "
        "breaking strength? Is the size right?",
        value=force / 1e3,
        limit=(band.most_n if strong else band.least_n) / 1e3,
        unit="kN",
        inputs=(Input("strength credited", "S", force / 1e3, "kN", credited.at.reference), *size),
        source=band.source,
    )


def _across(case: Case, item: Item) -> Iterator[Fault]:
    """Tell a strength across that is above the one along, or a small share of it."""
    along, across = item.gear.mbs, item.gear.mbs_minor
    if along is None or across is None:
        return
    least = case.limit(LEAST_ACROSS) * along.si
    if least <= across.si <= along.si:
        return
    yield Fault(
        case.on_item(item, "mbs_minor"),
        f"{item.id} breaks at {along.text} along and at {across.text} across. "
        f"{in_kn(least, 'up')} to {in_kn(along.si, 'down')} across is possible.",
        f"Read {item.id} again: which figure is along (↔), which is across (↕), and in which unit?",
        value=across.si / 1e3,
        limit=(along.si if across.si > along.si else least) / 1e3,
        unit="kN",
        source=LEAST_ACROSS.source,
    )


def _between_sizes(case: Case, item: Item, wll: Quantity, credited: Strength) -> Iterator[Fault]:
    """Tell a shackle whose rated load, written as a force, is no rounded size in tonnes."""
    if item.gear.kind != "shackle" or wll.text.split()[-1] not in FORCE_UNITS:
        return
    tonnes = wll.si / TONNE_N
    nearest = min(SIZES_T, key=lambda size: abs(tonnes / size - 1.0))
    off = abs(tonnes / nearest - 1.0)
    if off <= case.limit(OFF_SIZE):
        return
    yield Fault(
        case.on_item(item, "wll"),
        f"No shackle has a rated load of {wll.text}. The nearest size is {nearest:g} t, "
        f"{nearest * TONNE_N / 1e3:.3g} kN. As a rated load it credits {item.id} with "
        f"{in_kn(credited.breaking_n)}.",
        f"Read {item.id} again. If it breaks at {wll.text}, enter that as mbs. A rated load is "
        "stamped in tonnes.",
        value=off,
        limit=case.limit(OFF_SIZE),
        unit="1",
        inputs=(case.given("rated load", "WLL", wll, case.on_item(item, "wll")),),
        source=SIZES,
    )


def _a_size(case: Case, item: Item, mbs: Quantity) -> Iterator[Fault]:
    """Tell a shackle whose breaking strength is a size of the table of rated loads, and whose bar nobody measured."""
    gear = item.gear
    # A breaking strength that is just a rated load of the table is one, entered under the wrong key.
    by_weight = mbs.text.split()[-1] in MASS_UNITS or str(gear.standard).startswith(LIFTING)
    if gear.kind != "shackle" or gear.diameter or gear.jaw or not by_weight:
        return
    tonnes = mbs.si / TONNE_N
    nearest = min(SIZES_T, key=lambda size: abs(tonnes / size - 1.0))
    off = abs(tonnes / nearest - 1.0)
    if off > case.limit(OFF_SIZE):
        return
    yield Fault(
        case.on_item(item, "mbs"),
        f"{item.id} breaks at {mbs.text} on file. That is a rated load: {nearest:g} t is a size of shackle, and the "
        "size is what is stamped on it.",
        f"Read {item.id} again. Enter a rated load as wll. If it does break at {mbs.text}, enter its diameter too.",
        value=tonnes,
        limit=nearest,
        unit="t",
        source=SIZES,
    )


def _factor(case: Case, item: Item, mbs: Quantity, wll: Quantity) -> Iterator[Fault]:
    least, most = case.limit(LEAST_FACTOR), case.limit(MOST_FACTOR)
    factor = mbs.si / wll.si if wll.si else float("inf")
    if not least * (1 - 1e-9) <= factor <= most * (1 + 1e-9):
        yield Fault(
            case.on_item(item, "wll"),
            f"{item.id} is rated at {wll.text} and breaks at {mbs.text}, {factor:.3g} × that. "
            f"{least:g} to {most:g} × is usual.",
            f"Read the label of {item.id} again: which figure is which load, and in which unit?",
            value=factor,
            limit=least if factor < least else most,
            unit="1",
            inputs=(
                case.given("breaking strength", "MBS", mbs, case.on_item(item, "mbs")),
                case.given("rated load", "WLL", wll, case.on_item(item, "wll")),
            ),
            source=LEAST_FACTOR.source,
        )
