"""A sling hangs in metal or goes round its anchor, and is hitched to no other textile and to no metal.

A lark's foot round a trunk or boulder is a choke like any other and is judged by its mode factor.
"""

from collections.abc import Iterator

from riglint.rulekit import (
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
    rule,
    sound,
)

SLING_IN_SLING = Source(
    "a test digest: girth hitch sling to sling down to 50 %, on small metal below", "unnamed"
)
CHOKED = {"choke": "choke", "larks_foot": "lark's foot"}
RS_9 = {
    "shelf[0].items.RS-9": {"kind": "round_sling", "material": "polyester", "wll": "2 t", "length": "1 m"}
}
WEST = "chain[1].legs[0].chain"


def _after(**sling: str) -> dict[str, object]:
    """Put a second sling behind the first of the low line, with nothing between the two."""
    return {**RS_9, "chain[3]": insert_before({"part": "sling", "gear": "RS-9"} | sling)}


def _spread(at: str, hitch: str = "larks_foot") -> dict[str, object]:
    legs = [{"to": at, "chain": [{"part": "sling", "gear": "RS-9", "hitch": hitch}]}]
    return {**RS_9, "chain[2]": {"part": "legs", "share": "fixed", "legs": legs}}


@rule(
    title="A sling cuts into another, or is hitched to metal",
    each=each_sling,
    signal=Signal.WARNING,
    raised={"life": Signal.DANGER},
    why="If a sling bites into another or bends sharply round metal, it tears at half its label or less.",
    formula="a sling goes round its anchor or hangs in metal; no choke or lark's foot on a textile or on metal",
    sources=(SLING_IN_SLING,),
    prevents=("sling_hitched_to_sling",),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("highline"),
        sound("low", {"chain[2].hitch": "larks_foot"}),  # round the trunk
        sound("low", {"chain[10].hitch": "larks_foot"}),
        sound("low", _spread("gate")),
        faulty("low", _after(hitch="larks_foot"), at="chain[3]", signal=Signal.WARNING),
        faulty("low", _after(hitch="larks_foot", around="RS-1"), at="chain[3]", signal=Signal.WARNING),
        faulty("low", _after(hitch="larks_foot") | {"plan.consequence": "life"}, signal=Signal.DANGER),
        faulty("low", _after(hitch="choke", around="the sling before"), at="chain[3]"),
        faulty("low", _after(hitch="straight"), at="chain[3]", signal=Signal.WARNING),
        faulty("low", _after(hitch="basket"), at="chain[3]"),
        # Side by side round the trunk, or in the shackle: the file says so.
        sound("low", _after(hitch="basket", around="gate")),
        sound("low", _after(hitch="straight", around="SH-1")),
        faulty("low", {"chain[2].hitch": "larks_foot", "chain[2].around": "the gate's ring"}, at="chain[2]"),
        faulty("low", {"chain[2].hitch": "choke", "chain[2].around": "something else"}, at="chain[2]"),
        faulty(
            "low", {**_spread("gate"), "spot.anchors.gate": {"kind": "bolts"}}, at="chain[2].legs[0].chain[0]"
        ),
        faulty("highline", {f"{WEST}[1].hitch": "larks_foot"}, at=f"{WEST}[1]", signal=Signal.DANGER),
        faulty("highline", {"backups[0].chain[1].legs[1].chain[1].hitch": "choke"}, signal=Signal.DANGER),
        open_("low", {"chain[2].hitch": REMOVE}, at="chain[2].hitch"),
    ),
)
def sling_joint(_case: Case, sling: LaidSling) -> Iterator[Fault]:
    contact, hitch = sling.contact, need(sling.placed.part.hitch, sling.at("hitch"))
    choked = CHOKED.get(hitch)
    if choked is not None and (contact.thin or contact.kind == "bolts"):
        yield Fault(
            sling.at(),
            f"The {choked} of {sling.words} bites on {contact.words} and keeps about 50 % of its strength.",
            f"Join {sling.words} to {contact.words} with a shackle.",
        )
    elif contact.kind == "textile" and contact.part is not None:
        yield Fault(
            sling.at(),
            f"There is nothing between {sling.words} and {contact.words}: textile hangs in textile.",
            f"Join the two with a shackle. If {sling.words} also goes round the anchor, give each "
            "a leg of its own, or enter the object under `around`.",
        )
