"""What happened to a piece of gear counts until somebody competent has checked it."""

from collections.abc import Iterator

from riglint.rulekit import (
    Case,
    Fault,
    Item,
    Signal,
    Source,
    checked_since,
    each_item,
    faulty,
    review,
    rule,
    sound,
)

FOR_GOOD = {"retired", "recalled"}
STOPS = {"hard_catch", "overload", "cut", "burn", "chemical", "stitching"}
LOOK = {"abrasion", "dropped"}
WORDS = {"hard_catch": "a hard catch", "cut": "a cut", "burn": "a burn", "overload": "an overload"}
WORDS |= {"chemical": "contact with chemicals", "stitching": "damaged stitching", "dropped": "a drop"}
ITEM = "shelf[0].items.W-1"  # last checked on 2026-04-02


def _after(*events: tuple[str, str]) -> dict[str, object]:
    return {f"{ITEM}.events": [{"date": day, "what": what} for day, what in events]}


@rule(
    title="Something happened to this gear that nobody has checked",
    each=each_item(),
    signal=Signal.DANGER,
    why="Gear that was overloaded, cut, burnt or recalled breaks at a fraction of its label.",
    formula="a check after the last event that asks for one; no way back from retired or recalled",
    sources=(
        Source(
            "several safety texts: retire at once after hard fall, cut, burn, acid, damaged stitching",
            "published",
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
        sound("long_haul", _after(("2026-04-01", "cut"))),
        sound("long_haul", _after(("2026-04-01", "dropped"))),
        sound("long_haul", _after(("2026-04-20", "hard_catch"), ("2026-04-21", "inspected"))),
        sound("long_haul", _after(("2026-04-20", "stitching"), ("2026-04-20", "repaired"))),
        faulty("long_haul", _after(("2026-04-20", "inspected"), ("2026-04-20", "cut"))),
        faulty("long_haul", _after(("2026-04-20", "cut"), ("2026-05-03", "inspected"))),
        faulty("long_haul", _after(("2026-04-20", "retired"), ("2026-04-21", "inspected"))),
        # A day that is still to come is a slip of the pen, or a warning that somebody wrote down early.
        faulty("long_haul", _after(("2026-05-03", "cut")), at=f"{ITEM}.events[0]", signal=Signal.DANGER),
        faulty("long_haul", _after(("2026-05-03", "recalled")), signal=Signal.DANGER),
        review("long_haul", _after(("2026-05-03", "dropped")), signal=Signal.CAUTION),
        faulty("long_haul", _after(("2026-05-02", "cut")), signal=Signal.DANGER),
        # A check on the day itself counts.
        sound("long_haul", _after(("2026-04-20", "cut"), ("2026-05-02", "inspected"))),
        sound("long_haul", {**_after(("2026-04-20", "cut")), f"{ITEM}.inspected": "2026-05-02"}),
    ),
)
def event(case: Case, item: Item) -> Iterator[Fault]:
    for n, one in enumerate(item.gear.events):
        at = case.on_item(item, "events", n)
        ahead = f", dated after this audit ({case.on})" if one.date > case.on else ""
        first = "Put the day right in the gear book. " if ahead else ""
        if one.what in FOR_GOOD:
            yield Fault(
                at,
                f"{item.id}: {one.what} on {one.date}{ahead}; it counts all the same."
                if ahead
                else f"{item.id} was {one.what} on {one.date}, and still the rig uses it.",
                f"{first}Take {item.id} out of the rig and off the shelf.",
            )
        elif one.what in STOPS | LOOK and not checked_since(item, n, case.on):
            stops = one.what in STOPS
            then = "nobody has checked it since" if stops else "look at it before it is rigged"
            then = "it counts all the same" if ahead else then
            yield Fault(
                at,
                f"{item.id}: {WORDS.get(one.what, one.what)} on {one.date}{ahead}; {then}.",
                f"{first}Leave {item.id} out until somebody competent has checked it, and write the day down.",
                kind="fail" if stops else "review",
                signal=None if stops else Signal.CAUTION,
            )
