"""A tie-back catches the line when a puller that stays in it lets go."""

from collections.abc import Iterator

from riglint.rulekit import (
    REMOVE,
    Case,
    Fault,
    Placed,
    Signal,
    Source,
    faulty,
    insert_before,
    open_,
    parts,
    rule,
    sound,
)

ITEM = "shelf[0].items.PU-1"
RATCHET = {"kind": "puller", "form": "ratchet", "mbs": "50 kN", "inspected": "2026-04-02"}


def _low(**keys: object) -> dict[str, object]:
    """Tension the low line with a ratchet in place of its pulley."""
    return {"chain[8]": {"part": "puller", "gear": "PU-1"} | keys, ITEM: RATCHET}


TIED = {"gear": "TB-1", "slack": "0.1 m", "to": "barn"}


# No more than CAUTION but on a highline: a kit with a ratchet is made to stand alone, near the ground.
@rule(
    title="No tie-back across the puller",
    each=parts("puller"),
    signal=Signal.CAUTION,
    worst=Signal.DANGER,
    why="When the pawl, the band or the hook of a puller goes, the metal flies along the line at whoever is on it.",
    formula="a tie-back from the line to the puller's anchor",
    sources=(Source("Swiss federation, principle 9: metal parts are tied back", "published"),),
    prevents=("pulley_alone_holds",),
    examples=(
        sound("low"),
        sound("low", _low(tie_back=TIED)),
        faulty("low", _low(), at="chain[8].tie_back", signal=Signal.CAUTION),
        faulty("low", _low() | {"plan.public": True}, at="chain[8].tie_back", signal=Signal.CAUTION),
        faulty("low", _low() | {"plan.consequence": "life"}, at="chain[8].tie_back", signal=Signal.CAUTION),
        faulty(
            "highline",
            {"chain[6]": insert_before({"part": "puller", "gear": "PU-1"}), ITEM: RATCHET},
            at="chain[6].tie_back",
            signal=Signal.DANGER,
        ),
        open_("low", _low() | {"plan.consequence": "fall", "use": REMOVE}, at="use"),
    ),
)
def puller_tie_back(case: Case, placed: Placed) -> Iterator[Fault]:
    if placed.part.tie_back is None:
        yield Fault(
            case.on_part(placed, "tie_back"),
            f"Nothing catches the line when {placed.words} goes: there is no tie-back.",
            "Tie the webbing side back to a sling of its own at that anchor, 0.3 m of slack at most.",
            signal=Signal.DANGER if case.highline else None,
        )
