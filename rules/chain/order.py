"""The chain runs from one anchor to the other, each part held by the next."""

from collections.abc import Iterator

from riglint.rulekit import PRACTICE, REMOVE, Case, Fault, Signal, faulty, insert_before, rule, sound, the_rig

PROTECTOR = {"part": "protector", "gear": "TP-3"}
THIRD = {"shelf[0].items.TP-3": {"kind": "protector", "length": "2 m"}}
HAUL = {"part": "haul", "strands": 3}
RATCHETS = {
    **{f"shelf[0].items.RT-{n}": {"kind": "puller", "form": "ratchet"} for n in (1, 2)},
    "chain[4]": {"part": "puller", "gear": "RT-1"},
    "chain[6]": {"part": "puller", "gear": "RT-2"},
}
JOINED = {
    "chain[6]": insert_before({"part": "sewn_end"}),
    "chain[7]": insert_before({"part": "webbing_join"}),
    "chain[8]": insert_before({"part": "sewn_end"}),
    "chain[9]": insert_before({"part": "webbing"}),
}
LEG = "chain[1].legs[0].chain"
ON_A_TREE = {"spot.anchors.oak": {"kind": "tree"}, "chain[1].legs[0].to": "oak"}


@rule(
    title="The chain has a gap or a wrong order",
    each=the_rig,
    signal=Signal.WARNING,
    raised={"life": Signal.DANGER},
    why="A part that is missing, doubled or out of order on paper gets improvised at the tree.",
    formula="anchor, what holds it, …, webbing between two ends, …, anchor; each piece of gear in one place",
    sources=(PRACTICE,),
    prevents=(
        "chain_out_of_order",
        "one_piece_in_two_places",
    ),
    explains=True,
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("highline"),
        sound("low", {"chain[1]": REMOVE}),  # a protector carries nothing
        sound("low", {"chain[2].id": "gate sling"}),
        faulty("low", {"chain[0]": REMOVE}, at="chain[0]"),
        faulty("low", {"chain[12]": REMOVE}, at="chain[11]"),
        faulty("low", {"chain[12].at": "gate"}, at="chain[12]"),
        faulty("low", {"chain[5]": insert_before({"part": "anchor", "at": "barn"})}, at="chain[5]"),
        faulty("low", {"chain[6]": REMOVE}, at="chain[5]", shows="chain_out_of_order"),
        faulty("low", {"chain[5]": REMOVE}, at="chain"),
        faulty("low", {"chain[9]": insert_before({"part": "sewn_end"})}, at="chain[9]"),
        # A ratchet has the webbing wound on its axle; a lever hoist hooks into what holds it. Two may pull.
        sound("low", RATCHETS),
        faulty("low", {**RATCHETS, "shelf[0].items.RT-1.form": "lever_hoist"}, at="chain[5]"),
        faulty("low", {"chain[8]": insert_before(HAUL)}, at="chain[9]"),
        # Two pieces of webbing, each with its sewn end, joined by a link.
        sound("low", JOINED),
        faulty("low", {"chain[8]": insert_before({"part": "webbing_join"})}, at="chain[8]"),
        faulty("low", {"chain[2]": REMOVE}, at="chain[2]"),
        faulty("low", {**THIRD, "chain[5]": insert_before(PROTECTOR)}, at="chain[5]"),
        faulty(
            "low",
            {"chain[7].gear": "SH-1"},
            at="chain[7].gear",
            signal=Signal.WARNING,
            shows="one_piece_in_two_places",
        ),
        faulty("low", {"chain[7].gear": "SH-1", "plan.consequence": "life"}, signal=Signal.DANGER),
        # A protector that lies in two places carries nothing in either.
        faulty("low", {"chain[11].gear": "TP-1"}, at="chain[11].gear", signal=Signal.CAUTION),
        # What joins a sling to a webbing anchor, a block or a sewn loop must be on file as well.
        faulty("low", {"chain[3]": REMOVE}, at="chain[3]", signal=Signal.WARNING),
        faulty("low", {"chain[7]": REMOVE}, at="chain[7]", signal=Signal.WARNING),
        faulty("highline", {"chain[2]": REMOVE}, at="chain[2]", signal=Signal.WARNING),
        # Legs are judged as the chain is.
        faulty(
            "highline", {f"{LEG}[0]": {"part": "haul", "strands": 3}}, at=f"{LEG}[0]", signal=Signal.DANGER
        ),
        faulty("highline", ON_A_TREE | {LEG: []}, at="chain[1]", signal=Signal.WARNING),
        faulty("highline", ON_A_TREE, at=f"{LEG}[0]", signal=Signal.DANGER),
    ),
)
def order(case: Case, _rig: None) -> Iterator[Fault]:
    for found in case.path.breaks:
        word = Signal[found.word] if found.word else None
        yield Fault(case.at(*found.key, part=found.id), found.message, found.do, signal=word)
