"""A sling stays where it was put on the trunk, and nobody knots it.

A lark's foot on another sling or on metal is judged by `placement/sling_joint`; what a choke takes off stands
in the sling's strength.
"""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    Case,
    Fault,
    LaidSling,
    Signal,
    Source,
    each_sling,
    faulty,
    insert_before,
    need,
    open_,
    review,
    rule,
    sound,
)

SMOOTH = {"spot.anchors.gate.bark": "smooth"}
BOULDER: dict[str, object] = {"spot.anchors.gate": {"kind": "boulder", "mass": "9 t", "friction": 0.5}}
LOOP = {
    "kind": "round_sling",
    "material": "polyester",
    "standard": "EN 1492-2",
    "wll": "2 t",
    "length": "1 m",
}
EXTENDED: dict[str, object] = {
    "shelf[0].items.RS-9": LOOP,
    "shelf[0].items.SH-9": {"kind": "shackle", "wll": "3.25 t"},
    "chain[3]": insert_before(
        {"part": "shackle", "gear": "SH-9"}, {"part": "sling", "gear": "RS-9", "hitch": "straight"}
    ),
}


@rule(
    title="The sling can slip down its trunk, is knotted, or can't lie as the file says",
    each=each_sling,
    signal=Signal.CAUTION,
    worst=Signal.WARNING,
    why="When the line goes slack, a basket on smooth bark slides down. Then the line snaps tight with a jerk.",
    formula=(
        "no sling lies straight round a trunk or boulder; no basket on smooth bark without a "
        "stop cord; no knot"
    ),
    sources=(
        PRACTICE,
        Source("lifting standards forbid a knotted or twisted sling; a knot keeps about half", "practice"),
    ),
    prevents=("sling_slides_down", "sling_knotted_or_twisted", "line_saws_on_an_edge"),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("highline"),
        review("low", SMOOTH, at="chain[2].hitch", signal=Signal.CAUTION, shows="sling_slides_down"),
        sound("low", {**SMOOTH, "chain[2].hitch": "choke"}),
        sound("low", {**SMOOTH, "chain[2].hitch": "wrap"}),
        faulty(
            "low",
            {"chain[2].knotted": True},
            at="chain[2].knotted",
            signal=Signal.WARNING,
            shows="sling_knotted_or_twisted",
        ),
        sound("low", {"chain[2].knotted": False}),
        faulty("highline", {"backups[0].chain[1].legs[0].chain[1].knotted": True}),
        sound("low", {**SMOOTH, "chain[2].stop_cord": True}),
        review("low", {**SMOOTH, "chain[2].stop_cord": False}, at="chain[2].hitch", signal=Signal.CAUTION),
        faulty("low", {"chain[2].hitch": "straight"}, at="chain[2].hitch", signal=Signal.WARNING),
        faulty("low", BOULDER | {"chain[2].hitch": "straight"}, at="chain[2].hitch", signal=Signal.WARNING),
        # In a ring that the tree or boulder carries, and between two parts, a sling may well lie straight.
        sound("low", {"chain[2].hitch": "straight", "chain[2].around": "ring bolt in the trunk"}),
        sound("low", EXTENDED),
        # A hanger has an edge, and so has rock.
        review(
            "highline",
            {"chain[1].legs[0].chain[0]": REMOVE},
            at="chain[1].legs[0].chain[0].hitch",
            signal=Signal.CAUTION,
            shows="line_saws_on_an_edge",
        ),
        review("low", BOULDER | {"chain[1]": REMOVE}, at="chain[1].hitch", signal=Signal.NOTICE),
        sound("low", BOULDER),
        open_("low", {"chain[2].hitch": REMOVE}, at="chain[2].hitch"),
        open_("low", {"spot.anchors.gate.bark": REMOVE}, at="spot.anchors.gate.bark"),
    ),
)
def hitch(_case: Case, sling: LaidSling) -> Iterator[Fault]:
    part, contact = sling.placed.part, sling.contact
    if part.knotted:
        yield Fault(
            sling.at("knotted"),
            f"The {sling.words} is knotted or twisted. It keeps about half its strength.",
            f"Lay {sling.words} flat, or use one of the right length without a knot.",
            signal=Signal.WARNING,
            source=Source("lifting standards forbid a knotted or twisted sling", "practice"),
        )
    if contact.kind == "bolts":
        yield _in_a_hanger(sling)
    if contact.kind == "boulder" and not contact.covers:
        yield _on_bare_rock(sling)
    if contact.kind not in {"tree", "boulder"}:
        return
    at = sling.at("hitch")
    laid = need(part.hitch, at)
    if laid == "straight":
        yield Fault(
            at,
            f"The file says that {sling.words} is straight. A sling can't go straight round {contact.words}.",
            "Write how it lies there: basket, choke or wrap. If it hangs in a ring or shackle, "
            "name that part before it, or under `around`.",
            signal=Signal.WARNING,
        )
    # Only a basket can slide: a choke or a wrap grips the trunk harder the harder it is pulled.
    elif contact.kind == "tree" and laid == "basket" and not part.stop_cord:
        yield from _on_smooth_bark(sling)


def _on_smooth_bark(sling: LaidSling) -> Iterator[Fault]:
    tree = sling.contact.structure
    if need(tree.bark if tree else None, sling.on_structure("bark")) == "smooth":
        yield Fault(
            sling.at("hitch"),
            f"The {sling.words} is in basket on the smooth bark of '{sling.contact.anchor}'. "
            "Little keeps it up.",
            "Choke it (it then holds 0.8 of its straight strength). Or tie a stop cord under "
            f"{sling.words} and write `stop_cord: true`.",
            kind="review",
        )


def _in_a_hanger(sling: LaidSling) -> Fault:
    """Say of a sling that nothing but the bolt holds: the edge of a hanger cuts it."""
    return Fault(
        sling.at("hitch"),
        f"The {sling.words} lies in {sling.contact.words} itself, with no link between.",
        "Put a screwed steel link between them, unless the eye is round and thicker than the sling is wide.",
        kind="review",
        signal=Signal.CAUTION,
        source=PRACTICE,
    )


def _on_bare_rock(sling: LaidSling) -> Fault:
    """Say of a sling round a boulder that nothing lies between it and the rock."""
    return Fault(
        sling.at("hitch"),
        f"The {sling.words} lies on bare rock: nothing on file protects it round {sling.contact.words}.",
        "Look along the rock for edges, and lay a protector under the sling wherever there is one.",
        kind="review",
        signal=Signal.NOTICE,
        source=PRACTICE,
    )
