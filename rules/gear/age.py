"""Textile gear has an age after which nobody vouches for it."""

from collections.abc import Iterator
from datetime import date

from riglint.rulekit import (
    FIBRES,
    REMOVE,
    Case,
    Fault,
    Item,
    Limit,
    Signal,
    Source,
    each_item,
    faulty,
    in_prose,
    is_textile,
    months_after,
    need,
    open_,
    rule,
    sound,
)

LONGEST = Limit(
    name="longest_years",
    text="10",
    dimension=None,
    tighter="lower",
    because="Ten years after it was made, even unused textile is past its makers' limits.",
    source=Source("makers' and trade limits for textile protective equipment, rescue body note", "unnamed"),
)
WEBBING = "shelf[0].items.W-1"
EARLY = {f"{WEBBING}.events": [{"date": "2024-02-01", "what": "repaired"}]}


@rule(
    title="Textile gear is too old",
    each=each_item(),
    signal=Signal.WARNING,
    raised={"life": Signal.DANGER},
    why="Old textile looks whole but breaks far below its label, in the first hard bounce.",
    formula="day of the audit ≤ made + longest age",
    limits=(LONGEST,),
    due="years of age",
    prevents=("gear_too_old",),
    examples=(
        sound("long_haul"),
        sound("long_haul", {f"{WEBBING}.made": "2016-05-02"}),
        faulty("long_haul", {f"{WEBBING}.made": "2016-05-01"}, at=f"{WEBBING}.made", signal=Signal.WARNING),
        faulty("long_haul", {f"{WEBBING}.made": "2014-03", "plan.consequence": "life"}, signal=Signal.DANGER),
        faulty("long_haul", {f"{WEBBING}.made": REMOVE, f"{WEBBING}.first_used": "2015-06"}),
        faulty("long_haul", {f"{WEBBING}.first_used": "2023-12"}, at=f"{WEBBING}.first_used"),
        sound("long_haul", {f"{WEBBING}.first_used": "2024-03"}),
        faulty("long_haul", {f"{WEBBING}.made": "2026-05-03"}, at=f"{WEBBING}.made"),
        sound("long_haul", {f"{WEBBING}.made": "2026-05-02", f"{WEBBING}.inspected": "2026-05-02"}),
        faulty("long_haul", {f"{WEBBING}.first_used": "2026-06"}, at=f"{WEBBING}.first_used"),
        faulty(
            "long_haul", {"shelf[0].items.SH-1.material": "uhmwpe", "shelf[0].items.SH-1.made": "2014-01"}
        ),
        sound("long_haul", {"shelf[0].items.SH-1.made": "1999-01"}),
        faulty(
            "long_haul",
            {f"{WEBBING}.inspected": "2024-02-29"},
            at=f"{WEBBING}.inspected",
            signal=Signal.WARNING,
        ),
        sound("long_haul", {f"{WEBBING}.inspected": "2024-03-01"}),
        faulty("long_haul", EARLY, at=f"{WEBBING}.events[0].date", signal=Signal.WARNING),
        faulty(
            "long_haul",
            {"shelf[0].items.SH-1.made": "2026-04-03"},
            at="shelf[0].items.SH-1.inspected",
            signal=Signal.WARNING,
        ),
        open_("long_haul", {f"{WEBBING}.made": REMOVE}, at=f"{WEBBING}.made"),
        open_("long_haul", {"shelf[0].items.RP-1.made": REMOVE}, at="shelf[0].items.RP-1.made"),
    ),
)
def age(case: Case, item: Item) -> Iterator[Fault]:
    gear = item.gear
    yield from _wrong_dates(case, item)
    steel = (
        gear.kind == "puller" and gear.material not in FIBRES
    )  # of a ratchet the frame is asked for nothing
    if gear.kind == "protector" or steel or not is_textile(item):
        return
    # Fibres age on a shelf too, so the day of making goes before the day of first use.
    made, longest = gear.made or gear.first_used, case.limit(LONGEST)
    at = case.on_item(item, "made" if gear.made else "first_used")
    if made is not None and case.on > (last := months_after(made, round(longest * 12))):
        known = "made" if gear.made else "in use since"
        yield Fault(
            at,
            f"{item.id} was {known} {made}. Its {longest:g} years ended on {last}.",
            f"Retire {item.id} and use a newer {in_prose(gear.kind)} instead.",
            value=round((case.on - made).days / 365.25, 1),
            limit=longest,
            unit="years",
        )
    else:
        # First used lately, it may still have been made long ago.
        need(gear.made, case.on_item(item, "made"))


def _wrong_dates(case: Case, item: Item) -> Iterator[Fault]:
    made, first = item.gear.made, item.gear.first_used
    for key, day in (("made", made), ("first_used", first)):
        if day is not None and day > case.on:
            yield Fault(
                case.on_item(item, key),
                f"The {key.replace('_', ' ')} date of {item.id}, {day}, is after this audit ({case.on}).",
                f"Correct {key} of {item.id} in the gear list. Until then we don't know its age.",
                signal=Signal.WARNING,
            )
    yield from _before_it_was_made(case, item)
    if made is not None and first is not None and first < made:
        yield Fault(
            case.on_item(item, "first_used"),
            f"{item.id} was first used on {first}, before it was made on {made}.",
            f"Correct the dates of {item.id} in the gear list. Until then we don't know its age.",
            signal=Signal.WARNING,
        )


def _before_it_was_made(case: Case, item: Item) -> Iterator[Fault]:
    """Tell checks and events that are older than the piece itself."""
    made, checked = item.gear.made, item.gear.inspected
    if made is None:
        return
    days: list[tuple[tuple[str | int, ...], date, str]] = []
    if checked is not None:
        days.append((("inspected",), checked, "checked"))
    days += [
        (("events", n, "date"), one.date, one.what.replace("_", " "))
        for n, one in enumerate(item.gear.events)
    ]
    for key, day, what in days:
        if day < made:
            yield Fault(
                case.on_item(item, *key),
                f"{item.id} has an entry of {day} ({what}), before it was made on {made}.",
                f"Correct the dates of {item.id} in the gear list. Until then we don't know its age and checks.",
                signal=Signal.WARNING,
            )
