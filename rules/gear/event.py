"""What happened to a piece of gear counts until somebody competent has cleared it.

A yearly look clears a hard catch. It does not clear acid, heat, a cut or an overload of fibres, which hide inside:
those end with a release that names them, or with the bin.
"""

from collections.abc import Iterator
from datetime import date

from riglint.rulekit import (
    Case,
    Fault,
    Item,
    Signal,
    Source,
    asks_for_release,
    cleared,
    each_item,
    faulty,
    is_textile,
    need,
    open_,
    review,
    rule,
    sound,
)

# What ends a piece for good; what may weaken it where nobody sees; what shows when it is looked at.
FOR_GOOD = {"retired", "recalled"}
STOPS = {"hard_catch", "overload", "cut", "burn", "chemical", "stitching"}
LOOK = {"abrasion", "dropped"}
WORDS = {"hard_catch": "a hard catch", "cut": "a cut", "burn": "a burn", "overload": "an overload"}
WORDS |= {"chemical": "contact with chemicals", "stitching": "damaged stitching", "dropped": "a drop"}
ITEM = "shelf[0].items.W-1"  # last checked on 2026-04-02
SHACKLE = "shelf[0].items.SH-1"  # last checked on the same day
NAMED = ("burn", "chemical", "cut", "overload")


def _after(*events: tuple[str, str], item: str = ITEM) -> dict[str, object]:
    return {f"{item}.events": [{"date": day, "what": what} for day, what in events]}


def _released(of: str | None, day: str = "2026-04-25", after: str = "chemical") -> dict[str, object]:
    """Let webbing back into use after an event of 2026-04-20."""
    release = {"date": day, "what": "released"} | ({"releases": of, "by": "maker's service"} if of else {})
    return {f"{ITEM}.events": [{"date": "2026-04-20", "what": after}, release]}


@rule(
    title="Something happened to this gear, and nobody has cleared it",
    each=each_item(),
    signal=Signal.DANGER,
    why="Gear that was overloaded, cut, burnt or recalled breaks at a fraction of its label.",
    formula=(
        "a check after the last event that needs one; fibres after chemicals, heat, a cut or an "
        "overload need a release that names it; retired or recalled gear never comes back"
    ),
    sources=(
        Source(
            "29 CFR 1926.251(e), WAC 296-155-55820: out of service at once after acid, melting, cuts, worn stitches",
            "standard",
            ("osha_1926_251", "wac_296_155_55820"),
        ),
    ),
    prevents=("bad_event_forgotten", "heat_or_chemicals"),
    examples=(
        sound("long_haul"),
        *(
            faulty("long_haul", _after(("2026-04-20", what)), at=f"{ITEM}.events[0]")
            for what in sorted(STOPS)
        ),
        *(
            faulty("long_haul", _after(("2020-04-20", what)), signal=Signal.DANGER)
            for what in sorted(FOR_GOOD)
        ),
        *(review("long_haul", _after(("2026-04-20", what)), signal=Signal.CAUTION) for what in sorted(LOOK)),
        faulty("long_haul", _after(("2026-04-02", "cut")), signal=Signal.DANGER, shows="bad_event_forgotten"),
        faulty("long_haul", _after(("2026-04-21", "chemical")), shows="heat_or_chemicals"),
        # The check of 2026-04-02 came later, and clears no fibres of these; metal it does.
        *(
            faulty("long_haul", _after(("2026-04-01", what)), at=f"{ITEM}.events[0]", signal=Signal.DANGER)
            for what in NAMED
        ),
        *(sound("long_haul", _after(("2026-04-01", what), item=SHACKLE)) for what in NAMED),
        faulty("long_haul", _after(("2026-04-20", "burn"), ("2026-04-21", "repaired")), signal=Signal.DANGER),
        sound("long_haul", _after(("2026-04-01", "hard_catch"))),
        *(sound("long_haul", _released(what, after=what)) for what in NAMED),
        faulty("long_haul", _released("cut"), at=f"{ITEM}.events[0]", signal=Signal.DANGER),
        faulty("long_haul", _released("chemical", day="2026-04-19"), at=f"{ITEM}.events[0]"),
        faulty("long_haul", _released("chemical", day="2026-05-03"), at=f"{ITEM}.events[0]"),
        open_("long_haul", _released(None, after="dropped"), at=f"{ITEM}.events[1].releases"),
        sound("long_haul", _after(("2026-04-01", "dropped"))),
        sound("long_haul", _after(("2026-04-20", "hard_catch"), ("2026-04-21", "inspected"))),
        # What is sewn or spliced anew carries again once somebody has looked at it.
        review(
            "long_haul",
            _after(("2026-04-20", "stitching"), ("2026-04-20", "repaired")),
            signal=Signal.CAUTION,
        ),
        review(
            "long_haul", _after(("2026-04-20", "repaired")), at=f"{ITEM}.events[0]", signal=Signal.CAUTION
        ),
        sound("long_haul", _after(("2026-04-20", "repaired"), ("2026-04-21", "inspected"))),
        sound("long_haul", _after(("2026-04-20", "repaired"), ("2026-04-20", "inspected"))),
        review(
            "long_haul",
            _after(("2026-04-20", "repaired")) | {f"{ITEM}.inspected": "2026-04-20"},
            at=f"{ITEM}.events[0]",
        ),
        sound("long_haul", _after(("2026-04-20", "repaired"), item=SHACKLE)),
        faulty("long_haul", _after(("2026-04-20", "inspected"), ("2026-04-20", "hard_catch"))),
        faulty("long_haul", _after(("2026-04-20", "hard_catch"), ("2026-05-03", "inspected"))),
        faulty("long_haul", _after(("2026-04-20", "retired"), ("2026-04-21", "inspected"))),
        # A day that is still to come is a slip of the pen, or a warning that somebody wrote down early.
        faulty("long_haul", _after(("2026-05-03", "cut")), at=f"{ITEM}.events[0]", signal=Signal.DANGER),
        faulty("long_haul", _after(("2026-05-03", "recalled")), signal=Signal.DANGER),
        review("long_haul", _after(("2026-05-03", "dropped")), signal=Signal.CAUTION),
        faulty("long_haul", _after(("2026-05-02", "cut")), signal=Signal.DANGER),
        # A check on the day itself counts.
        sound("long_haul", _after(("2026-04-20", "hard_catch"), ("2026-05-02", "inspected"))),
        sound("long_haul", {**_after(("2026-04-20", "hard_catch")), f"{ITEM}.inspected": "2026-05-02"}),
    ),
)
def event(case: Case, item: Item) -> Iterator[Fault]:
    for n, one in enumerate(item.gear.events):
        # A wrong date does not undo what happened: it counts all the same.
        ahead = f", dated after this audit ({case.on})" if one.date > case.on else ""
        if one.what in FOR_GOOD:
            yield _for_good(case, item, n, ahead)
        elif one.what in STOPS | LOOK and not cleared(item, n, case.on):
            yield _not_cleared(case, item, n, ahead)
        elif one.what == "repaired" and is_textile(item) and not _seen_since(item, n, case.on):
            yield _mended(case, item, n)
    for n, one in enumerate(item.gear.events):
        if one.what == "released":
            need(one.releases, case.on_item(item, "events", n, "releases"))


def _for_good(case: Case, item: Item, n: int, ahead: str) -> Fault:
    one = item.gear.events[n]
    return Fault(
        case.on_item(item, "events", n),
        f"{item.id}: {one.what} on {one.date}{ahead}. We count it all the same."
        if ahead
        else f"{item.id} was {one.what} on {one.date}, and the rig still uses it.",
        f"{_first(ahead)}Take {item.id} out of the rig and out of the gear list.",
    )


def _not_cleared(case: Case, item: Item, n: int, ahead: str) -> Fault:
    one, stops = item.gear.events[n], item.gear.events[n].what in STOPS
    named = asks_for_release(item, n)
    then = "nobody has checked it since" if stops else "look at it before you rig it"
    do = f"Leave {item.id} out until a competent person has checked it, and enter the date."
    if named:
        then = "a routine check does not clear that in fibres"
        do = (
            f"Retire {item.id}. If its maker or a competent person releases it, enter that under "
            f"its events: date, what: released, releases: {one.what}, by."
        )
    then = "we count it all the same" if ahead else then
    return Fault(
        case.on_item(item, "events", n),
        f"{item.id}: {WORDS.get(one.what, one.what)} on {one.date}{ahead}; {then}.",
        f"{_first(ahead)}{do}",
        kind="fail" if stops else "review",
        signal=None if stops else Signal.CAUTION,
    )


def _first(ahead: str) -> str:
    return "Correct the date in the gear list. " if ahead else ""


def _seen_since(item: Item, n: int, on: date) -> bool:
    """Return whether a competent person looked at a piece after its repair.

    The day of the repair itself counts only as an event that follows it: of a bare date nobody knows which came first.
    """
    repaired, stated = item.gear.events[n].date, item.gear.inspected
    looks = [
        (one.date, k > n) for k, one in enumerate(item.gear.events) if one.what in {"inspected", "released"}
    ]
    looks += [(stated, False)] if stated else []
    return any(repaired < day <= on or (day == repaired and follows) for day, follows in looks)


def _mended(case: Case, item: Item, n: int) -> Fault:
    return Fault(
        case.on_item(item, "events", n),
        f"{item.id} was repaired on {item.gear.events[n].date}, and nobody has checked it since.",
        f"Ask who sewed or spliced {item.id} and by whose instructions, and have it checked before you rig it.",
        kind="review",
        signal=Signal.CAUTION,
    )
