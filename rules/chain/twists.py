"""The webbing runs without a twist from end to end."""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    Case,
    Fault,
    Placed,
    Signal,
    Source,
    due,
    everywhere,
    faulty,
    open_,
    review,
    rule,
    sound,
)


@rule(
    title="There is a twist in the webbing",
    each=everywhere("webbing"),
    signal=Signal.CAUTION,
    raised={"life": Signal.WARNING},
    why="A twist travels to one end and into the webbing anchor, where it cuts the strands one by one.",
    formula="twists = 0",
    sources=(
        Source(
            "federation article on webbing slippage, 2016: a twist drawn in broke the main line",
            "published",
            ("us_slippage_2016",),
        ),
        PRACTICE,
    ),
    prevents=("twist_in_the_line", "slip_and_twist_grow"),
    examples=(
        sound("highline"),
        review("low", at="chain[5].twists", signal=Signal.NOTICE),
        sound("low", {"chain[5].twists": 0, "stage": "built"}),
        faulty(
            "low",
            {"chain[5].twists": 1},
            at="chain[5].twists",
            signal=Signal.CAUTION,
            shows="twist_in_the_line",
        ),
        faulty("highline", {"chain[4].twists": 2}, at="chain[4].twists", signal=Signal.WARNING),
        faulty(
            "highline",
            {"backups[0].chain[4].twists": 1},
            at="backups[0].chain[4].twists",
            shows="slip_and_twist_grow",
        ),
        open_("low", {"stage": "built"}, at="chain[5].twists"),
    ),
)
def twists(case: Case, placed: Placed) -> Iterator[Fault]:
    at, count = case.on_part(placed, "twists"), placed.part.twists
    if count is None:
        yield from due(case, at, f"Lay {placed.words} out flat, and count its twists once it is hand-tight.")
    elif count > 0:
        yield Fault(
            at,
            f"{count} {'twist' if count == 1 else 'twists'} left in {placed.words}.",
            f"Lower the line to hand-tight, take {count} {'turn' if count == 1 else 'turns'} out "
            "at one end, and look along it again.",
            value=count,
            limit=0,
            unit="twists",
        )
