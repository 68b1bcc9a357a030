"""A tie-back catches the webbing side when the haul lets go."""

from collections.abc import Iterator

from riglint.rulekit import (
    REMOVE,
    Case,
    Fault,
    Limit,
    Placed,
    Signal,
    Source,
    faulty,
    loose_or_askew,
    on_webbing_side,
    open_,
    rule,
    sound,
    the_haul_that_stays,
)

SLACK = Limit(
    name="most_slack",
    text="0.3 m",
    dimension="length",
    tighter="lower",
    because=(
        "The line gathers speed over the slack. At 0.3 m a stiff tie-back already catches several times T."
    ),
    source=Source("common practice, no source; T + √(T² + 2·k·T·s) shows how the catch grows", "practice"),
)


@rule(
    title="No tie-back across the pulley system",
    each=the_haul_that_stays,
    signal=Signal.CAUTION,
    raised={"fall": Signal.WARNING, "life": Signal.DANGER},
    why=(
        "When a block, the rope or the brake fails and nothing holds the line, it whips off with "
        "the blocks on its end."
    ),
    formula=(
        "a tie-back from the webbing side of the pulley system to its anchor, with no more slack than the limit"
    ),
    limits=(SLACK,),
    prevents=("pulley_alone_holds", "tie_back_weak_or_slack"),
    examples=(
        sound("low"),
        sound("long_haul"),
        faulty(
            "low",
            {"chain[8].tie_back": REMOVE},
            at="chain[8].tie_back",
            signal=Signal.CAUTION,
            shows="pulley_alone_holds",
        ),
        faulty("low", {"chain[8].tie_back": None}, at="chain[8].tie_back", signal=Signal.CAUTION),
        faulty("long_haul", {"chain[8].tie_back": REMOVE}, at="chain[8].tie_back", signal=Signal.WARNING),
        faulty("long_haul", {"chain[8].tie_back": REMOVE, "plan.consequence": "life"}, signal=Signal.DANGER),
        sound("long_haul", {"chain[8].tie_back.slack": "0.29 m"}),
        faulty(
            "long_haul",
            {"chain[8].tie_back.slack": "0.31 m"},
            at="chain[8].tie_back.slack",
            shows="tie_back_weak_or_slack",
        ),
        sound("long_haul", {"chain[8].tie_back.from": "chain[6]"}),
        sound("long_haul", {"chain[8].tie_back.from": "SH-2"}),
        sound("long_haul", {"chain[7].id": "west shackle", "chain[8].tie_back.from": "west shackle"}),
        faulty("long_haul", {"chain[8].tie_back.from": "SH-3"}, at="chain[8].tie_back.from"),
        faulty("long_haul", {"chain[8].tie_back.from": "chain[70]"}, at="chain[8].tie_back.from"),
        faulty("long_haul", {"chain[8].tie_back.from": "chain[9]"}, at="chain[8].tie_back.from"),
        faulty("long_haul", {"chain[8].tie_back.from": "chain[3]"}, at="chain[8].tie_back.from"),
        faulty("long_haul", {"chain[8].tie_back.to": "north"}, at="chain[8].tie_back.to"),
        faulty("long_haul", {"chain[8].tie_back.to": "nowhere"}, at="chain[8].tie_back.to"),
        open_("long_haul", {"chain[8].tie_back.slack": REMOVE}, at="chain[8].tie_back.slack"),
        open_("long_haul", {"chain[8].tie_back.from": REMOVE}, at="chain[8].tie_back.from"),
        open_("long_haul", {"chain[8].tie_back.to": REMOVE}, at="chain[8].tie_back.to"),
        open_("long_haul", {"spot": REMOVE}, at="spot"),
    ),
)
def tie_back(case: Case, placed: Placed) -> Iterator[Fault]:
    if placed.part.tie_back is None:
        yield Fault(
            case.on_part(placed, "tie_back"),
            "There is no tie-back. Nothing catches the line when a part of the pulley system fails.",
            f"Tie {on_webbing_side(case, placed)} back to a sling of its own at the anchor of the "
            "pulley system, with little slack.",
        )
    yield from loose_or_askew(case, placed, SLACK)
