"""The crew pulls from aside, out of the line's axis."""

from collections.abc import Iterator
from math import degrees

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    Case,
    Fault,
    Limit,
    Placed,
    Signal,
    faulty,
    need,
    open_,
    rule,
    sound,
    the_haul,
)

ASIDE = Limit(
    name="least_turn",
    text="15 deg",
    dimension="angle",
    tighter="higher",
    because="Within 15° of the axis the crew still stands where blocks and line fly.",
    source=PRACTICE,
)
BEHIND = {"chain[8].pull.stand": "behind"}


@rule(
    title="The crew is in the line of fire",
    each=the_haul,
    signal=Signal.WARNING,
    raised={"fall": Signal.WARNING, "life": Signal.DANGER},
    why=(
        "When a part fails under tension, blocks and shackles fly along the line, through anyone pulling there."
    ),
    formula="pull from aside, or through a redirect that turns the rope out of the axis",
    limits=(ASIDE,),
    prevents=("people_in_line_of_fire",),
    examples=(
        sound("long_haul"),
        faulty("long_haul", BEHIND, at="chain[8].pull.stand", signal=Signal.WARNING),
        faulty("long_haul", {**BEHIND, "plan.consequence": "life"}, signal=Signal.DANGER),
        sound("long_haul", {**BEHIND, "chain[8].pull.redirect": {"turn": "15.3 deg"}}),
        faulty(
            "long_haul",
            {**BEHIND, "chain[8].pull.redirect": {"turn": "14.7 deg"}},
            at="chain[8].pull.redirect.turn",
        ),
        open_("long_haul", {**BEHIND, "chain[8].pull.redirect": {}}, at="chain[8].pull.redirect.turn"),
        open_("long_haul", {"chain[8].pull.stand": REMOVE}, at="chain[8].pull.stand"),
        open_("long_haul", {"chain[8].pull": REMOVE}, at="chain[8].pull.stand"),
    ),
)
def stand_aside(case: Case, placed: Placed) -> Iterator[Fault]:
    pull = placed.part.pull
    at = case.on_part(placed, "pull", "stand")
    if need(pull.stand if pull else None, at) == "aside":
        return
    do = "Pull from the side, or turn the rope out of line with a pulley at the anchor, by 90° if there is room."
    redirect = pull.redirect if pull else None
    if redirect is None:
        yield Fault(
            at,
            "The crew pulls behind the anchor, in line with the tension.",
            do,
            value="behind",
            limit="aside",
        )
        return
    turn_at, least = case.on_part(placed, "pull", "redirect", "turn"), case.limit(ASIDE)
    turn = need(redirect.turn, turn_at)
    if turn.si < least:
        yield Fault(
            turn_at,
            f"The redirect turns the rope by only {turn.text}, so the crew still stands in line "
            "with the tension.",
            do,
            value=degrees(turn.si),
            limit=degrees(least),
            unit="deg",
            inputs=(case.given("turn", "α", turn, turn_at),),
        )
