"""Rope is left beyond the stopper, it is tied off, and the file does not claim more than there is."""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    Case,
    Fault,
    Input,
    Limit,
    OnCard,
    Placed,
    Signal,
    due,
    faulty,
    one_value,
    open_,
    review,
    rounded,
    rule,
    sound,
    the_haul_that_stays,
    tick,
)

LEAST = Limit(
    name="least_beyond_stopper",
    text="1 m",
    dimension="length",
    tighter="higher",
    because="Your hands need a metre beyond the knot to hold the rope and to tie it off.",
    source=PRACTICE,
)
MISREAD = Limit(
    name="misread_by",
    text="0.5 m",
    dimension="length",
    tighter="lower",
    because="You know rope length, reeving and block distance together to about half a metre.",
    source=PRACTICE,
)
GONE = Limit(
    name="as_good_as_none",
    text="0.3 m",
    dimension="length",
    tighter="higher",
    because="Two hands on a rope take 0.3 m. With less nobody can hold it.",
    source=PRACTICE,
)
SEEN = [{"what": "tied_off", "date": "2026-05-02", "after_tension": "6 kN"}]


@rule(
    title="The rope tail is short, loose or misread",
    each=the_haul_that_stays,
    signal=Signal.CAUTION,
    raised={"fall": Signal.WARNING, "life": Signal.WARNING},
    worst=Signal.WARNING,
    why=("Without a tail that you can grip, only the stopper holds the line while you lower it."),
    formula="rope beyond the stopper ≥ least; tied off; stopper_at + left ≤ rope length − n·blocks − reeving + misread",
    limits=(LEAST, MISREAD, GONE),
    prevents=("rope_tail_short",),
    on_card=OnCard(phase="walk"),
    examples=(
        sound("low"),
        sound("long_haul", {"chain[8].tail.left": "1.01 m"}),
        faulty("long_haul", {"chain[8].tail.left": "0.99 m"}, at="chain[8].tail.left", signal=Signal.CAUTION),
        faulty("long_haul", {"chain[8].tail.left": "0.31 m"}, at="chain[8].tail.left", signal=Signal.CAUTION),
        faulty("long_haul", {"chain[8].tail.left": "0.29 m"}, at="chain[8].tail.left", signal=Signal.WARNING),
        faulty("low", {"chain[8].tail.left": "0.05 m"}, at="chain[8].tail.left", signal=Signal.CAUTION),
        faulty("low", {"chain[8].tail.tied_off": False}, at="chain[8].tail.tied_off", signal=Signal.CAUTION),
        faulty(
            "long_haul", {"chain[8].tail.tied_off": False}, at="chain[8].tail.tied_off", signal=Signal.WARNING
        ),
        # 60 m less 5 strands of 4.77 m less 1 m leave 35.16 m behind the brake; 0.3 m lie before the stopper.
        sound("long_haul", {"chain[8].tail.left": "35.35 m"}),
        faulty(
            "long_haul", {"chain[8].tail.left": "35.37 m"}, at="chain[8].tail.left", signal=Signal.WARNING
        ),
        review("long_haul", {"chain[8].tail.left": REMOVE}, at="chain[8].tail.left"),
        review("long_haul", {"chain[8].tail.tied_off": REMOVE}, at="chain[8].tail.tied_off"),
        review("long_haul", {"chain[8].tail": REMOVE}, at="chain[8].tail.tied_off"),
        sound("long_haul", {"stage": "built", "checks": SEEN}),
        open_("long_haul", {"stage": "built"}, at="checks"),
        open_("long_haul", {"chain[8].tail.left": REMOVE, "stage": "built"}, at="chain[8].tail.left"),
        open_("long_haul", {"chain[8].rope.length": REMOVE}, at="chain[8].rope.length"),
        open_("long_haul", {"chain[8].open": REMOVE}, at="chain[8].open"),
        open_("long_haul", {"chain[8].strands": REMOVE}, at="chain[8].strands"),
        sound("long_haul", {"chain[8].tail.left": "35.37 m", "chain[8].tail.stopper_at": REMOVE}),
        faulty("long_haul", {"chain[8].rope.length": "20 m"}, at="chain[8].tail.left"),
    ),
)
def rope(case: Case, placed: Placed) -> Iterator[Fault]:
    tail = placed.part.rope_tail
    at, least = case.on_part(placed, "tail", "left"), case.limit(LEAST)
    left = tail.left if tail else None
    if left is None:
        yield from due(case, at, "Measure the rope beyond the stopper knot and enter it.")
    elif left.si < least:
        remedies = case.put_right(
            at, one_value(at.key, "leave {} of rope beyond the stopper", "up", "m", 0.05)
        )
        yield Fault(
            at,
            f"Only {left.text} of rope is left beyond the stopper. At least {least:g} m.",
            f"Leave at least {least:g} m: use a rope {rounded(least - left.si, 'up')} m longer, "
            "or tie the stopper closer to the brake.",
            value=left.si,
            limit=least,
            unit="m",
            inputs=(case.given("rope beyond the stopper", "l", left, at),),
            signal=None if left.si < case.limit(GONE) else Signal.CAUTION,
            remedies=remedies,
        )
    else:
        yield from _more_than_there_is(case, placed, left.si)
    do = "Tie the rope tail off to the anchor sling or the trunk, with the free end in reach."
    tied = tail.tied_off if tail else None
    yield from tick(case, tied, case.on_part(placed, "tail", "tied_off"), "The rope tail is not tied off", do)


def _more_than_there_is(case: Case, placed: Placed, left: float) -> Iterator[Fault]:
    tail = placed.part.rope_tail
    claimed = left + (tail.stopper_at.si if tail and tail.stopper_at else 0.0)
    blocks = case.loads.standing.block_run.standing_m
    behind = max(case.haul.behind_brake_m(blocks), 0.0)
    if claimed > behind + case.limit(MISREAD):
        yield Fault(
            case.on_part(placed, "tail", "left"),
            f"The file says {claimed:.2f} m of rope behind the brake. From the rope's length, "
            f"{behind:.2f} m is left.",
            f"Measure again: rope length, tail, or the {blocks:.2f} m between the blocks at standing tension.",
            value=claimed,
            limit=behind,
            unit="m",
            inputs=(Input("between the blocks at standing tension", "b", blocks, "m"),),
            signal=Signal.WARNING,
        )
