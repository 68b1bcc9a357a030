"""No ratchet tensions a line that people hang below on a leash, and none stands in line with a pulley."""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    Case,
    Fault,
    Placed,
    Signal,
    Source,
    faulty,
    insert_before,
    need,
    open_,
    parts,
    rule,
    sound,
)

PULLER = insert_before({"part": "puller", "gear": "PU-1", "tie_back": {"gear": "RS-11", "slack": "0.1 m"}})
RATCHET = {"kind": "puller", "form": "ratchet", "mbs": "50 kN", "inspected": "2026-04-02"}
HOIST = RATCHET | {"form": "lever_hoist"}
FORMLESS = {key: value for key, value in RATCHET.items() if key != "form"}
ITEM = "shelf[0].items.PU-1"
BEHIND = {"chain[4]": {"part": "puller", "gear": "PU-1"}, ITEM: RATCHET}


@rule(
    title="A ratchet on a highline, or in line with a pulley system",
    each=parts("puller"),
    signal=Signal.DANGER,
    why="You can't release a ratchet gently. Its pawl isn't made for shocks, and its teeth cut webbing.",
    formula="no ratchet on a highline; no ratchet in a line that a pulley system tensions",
    sources=(Source("a highline club's list of highline errors: no ratchet", "unnamed"),),
    prevents=("low_line_kit_up_high", "pulled_past_its_ratio"),
    examples=(
        sound("highline"),
        sound("highline", {"chain[6]": PULLER, ITEM: HOIST}),
        faulty(
            "highline",
            {"chain[6]": PULLER, ITEM: RATCHET},
            at="chain[6].gear",
            signal=Signal.DANGER,
            shows="low_line_kit_up_high",
        ),
        sound("low", {"chain[8]": {"part": "puller", "gear": "PU-1"}, ITEM: RATCHET}),
        faulty("low", BEHIND, at="chain[4].gear", signal=Signal.WARNING, shows="pulled_past_its_ratio"),
        sound("low", BEHIND | {ITEM: HOIST}),
        open_("highline", {"chain[6]": PULLER, ITEM: FORMLESS}, at=f"{ITEM}.form"),
        open_("highline", {"chain[6]": insert_before({"part": "puller"})}, at="chain[6].gear"),
        open_(
            "long_haul",
            {"chain[8]": {"part": "puller", "gear": "PU-1"}, ITEM: RATCHET, "use": REMOVE},
            at="use",
        ),
    ),
)
def ratchet(case: Case, placed: Placed) -> Iterator[Fault]:
    if not case.highline and case.path.haul is None:
        return
    item = case.item(placed)
    if need(item.gear.form, case.on_item(item, "form", part=placed.id)) != "ratchet":
        return
    if case.highline:
        yield Fault(
            case.on_part(placed, "gear"),
            f"{item.id} is a ratchet, and people hang below this line on a leash.",
            f"Tension with a pulley system or a lever hoist and tie the line off. Take {item.id} out.",
            value="ratchet",
            limit="no ratchet",
        )
    else:
        yield Fault(
            case.on_part(placed, "gear"),
            f"{item.id} is a ratchet. A pulley system pulls on the same line, harder than a "
            "ratchet is made for.",
            f"Tension with the pulley system alone. Take {item.id} out, and end the webbing in a "
            "webbing anchor or a sewn loop.",
            value="ratchet",
            limit="no ratchet",
            signal=Signal.WARNING,
            source=PRACTICE,
        )
