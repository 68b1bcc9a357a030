"""A tie-back catches the line when a puller that stays in it lets go."""

from collections.abc import Iterator
from dataclasses import replace

from riglint.rulekit import (
    REMOVE,
    Case,
    Fault,
    Limit,
    Placed,
    Signal,
    Source,
    faulty,
    insert_before,
    loose_or_askew,
    on_webbing_side,
    open_,
    own_sling,
    parts,
    review,
    rule,
    sound,
)

SLACK = Limit(
    name="most_slack",
    text="0.3 m",
    dimension="length",
    tighter="lower",
    because="The line gathers speed over the slack. The tensioner flies just as far before anything holds it.",
    source=Source("common practice, no source; T + √(T² + 2·k·T·s) shows how the catch grows", "practice"),
)
ITEM = "shelf[0].items.PU-1"
RATCHET = {"kind": "puller", "form": "ratchet", "mbs": "50 kN", "inspected": "2026-04-02"}


def _low(**keys: object) -> dict[str, object]:
    """Tension the low line with a ratchet in place of its pulley."""
    return {"chain[8]": {"part": "puller", "gear": "PU-1"} | keys, ITEM: RATCHET}


def _tied(**keys: object) -> dict[str, object]:
    """Tie that ratchet back as it should be, but for these keys."""
    tie = {"gear": "TB-1", "slack": "0.1 m", "from": "chain[7]", "to": "barn", "sling": "RS-3"}
    return _low(tie_back=tie | keys)


def _high(**tie: object) -> dict[str, object]:
    """Put a ratchet into the east end of the highline."""
    part = {"part": "puller", "gear": "PU-1"} | ({"tie_back": tie} if tie else {})
    return {"chain[6]": insert_before(part), ITEM: RATCHET}


HIGH = {"gear": "RS-11", "slack": "0.1 m", "from": "chain[5]", "to": "e4", "sling": "RS-12"}


# No more than CAUTION but on a highline: a kit with a ratchet is made to stand alone, near the ground.
@rule(
    title="No tie-back across the tensioner",
    each=parts("puller"),
    signal=Signal.CAUTION,
    worst=Signal.DANGER,
    why=(
        "When the pawl, the band or the hook of a tensioner fails, its metal flies along the "
        "line at people on it."
    ),
    formula="a tie-back from the webbing side of the tensioner to its anchor, with no more slack than the limit",
    limits=(SLACK,),
    sources=(
        Source(
            "Swiss federation, principle 9: metal parts are tied back", "published", ("swiss_ten_principles",)
        ),
    ),
    prevents=("pulley_alone_holds", "tie_back_weak_or_slack"),
    examples=(
        sound("low"),
        sound("low", _tied()),
        faulty("low", _low(), at="chain[8].tie_back", signal=Signal.CAUTION, shows="pulley_alone_holds"),
        faulty("low", _low() | {"plan.public": True}, at="chain[8].tie_back", signal=Signal.CAUTION),
        faulty("low", _low() | {"plan.consequence": "life"}, at="chain[8].tie_back", signal=Signal.CAUTION),
        faulty("highline", _high(), at="chain[6].tie_back", signal=Signal.DANGER),
        sound("highline", _high(**HIGH)),
        faulty("highline", _high(**HIGH | {"slack": "3 m"}), signal=Signal.DANGER),
        sound("low", _tied(slack="0.29 m")),
        faulty(
            "low",
            _tied(slack="0.31 m"),
            at="chain[8].tie_back.slack",
            signal=Signal.CAUTION,
            shows="tie_back_weak_or_slack",
        ),
        sound("low", _tied(**{"from": "chain[5]"})),
        faulty("low", _tied(**{"from": "chain[9]"}), at="chain[8].tie_back.from", signal=Signal.CAUTION),
        faulty("low", _tied(**{"from": "chain[3]"}), at="chain[8].tie_back.from"),
        faulty("low", _tied(to="gate"), at="chain[8].tie_back.to", signal=Signal.CAUTION),
        faulty("low", _tied(to="nowhere"), at="chain[8].tie_back.to"),
        review("low", _tied(sling=None), at="chain[8].tie_back.sling", signal=Signal.CAUTION),
        review("highline", _high(**HIGH | {"sling": None}), signal=Signal.CAUTION),
        open_("low", _tied(slack=None), at="chain[8].tie_back.slack"),
        open_("low", _tied(**{"from": None}), at="chain[8].tie_back.from"),
        open_("low", _tied(to=None), at="chain[8].tie_back.to"),
        open_("low", _tied() | {"spot": REMOVE}, at="spot"),
        open_("low", _low() | {"plan.consequence": "fall", "use": REMOVE}, at="use"),
    ),
)
def puller_tie_back(case: Case, placed: Placed) -> Iterator[Fault]:
    for fault in _judged(case, placed):
        high = fault.kind == "fail" and case.highline
        yield replace(fault, signal=Signal.DANGER) if high else fault


def _judged(case: Case, placed: Placed) -> Iterator[Fault]:
    tie = placed.part.tie_back
    if tie is None:
        yield Fault(
            case.on_part(placed, "tie_back"),
            f"There is no tie-back. Nothing catches the line when {placed.words} fails.",
            f"Tie {on_webbing_side(case, placed)} back to a sling of its own at that anchor, with "
            f"at most {case.limit(SLACK):g} m of slack.",
        )
    elif tie.sling is None:
        yield own_sling(case, placed)
    yield from loose_or_askew(case, placed, SLACK)
