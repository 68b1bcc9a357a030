"""Nothing weakens the tensioned line more than it must: no knot in webbing, no sling hitched to a sling.

A lark's foot round a trunk or boulder is a choke like any other and is judged by its mode factor.
"""

from collections.abc import Iterator

from riglint.rulekit import (
    REMOVE,
    Case,
    Fault,
    Part,
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

KNOTS = Source(
    "a federation's test story: knots in webbing keep roughly a quarter to a half; taboo",
    "published",
    ("austrian_ropes",),
)
SLING_IN_SLING = Source(
    "a test digest: girth hitch sling to sling down to 50 %, on small metal below", "unnamed"
)
RS_9 = {"kind": "round_sling", "material": "polyester", "wll": "2 t", "length": "1 m"}
HITCHED = {"part": "sling", "gear": "RS-9", "hitch": "larks_foot"}
W_2 = {"shelf[0].items.W-2": {"kind": "webbing"}}
JOINED = {"part": "webbing_join"}
KNOT = {"chain[6]": {"part": "webbing_knot", "knot": "overhand"}}


def _joined(**join: str) -> dict[str, object]:
    return {**W_2, "chain[5]": insert_before({"part": "webbing", "gear": "W-2"}, {**JOINED, **join})}


def _spread(at: str) -> dict[str, object]:
    legs = [{"to": at, "chain": [HITCHED]}]
    return {"shelf[0].items.RS-9": RS_9, "chain[2]": {"part": "legs", "share": "fixed", "legs": legs}}


@rule(
    title="A knot or hitch that weakens the line",
    each=parts("webbing_knot", "webbing_join", "sling", "legs"),
    signal=Signal.WARNING,
    raised={"life": Signal.DANGER},
    why="Webbing breaks at its knot, a sling where another cuts into it, at half of their labels or less.",
    formula="no knot in tensioned webbing; no lark's foot on a sling or on metal",
    sources=(KNOTS, SLING_IN_SLING),
    prevents=("knot_in_webbing", "sling_hitched_to_sling"),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("highline"),
        sound("low", {"chain[2].hitch": "larks_foot"}),  # round the trunk
        sound("low", _spread("gate")),
        sound("low", _joined(gear="WA-2") | {"shelf[0].items.WA-2": {"kind": "webbing_anchor"}}),
        faulty("low", KNOT, at="chain[6]", signal=Signal.WARNING, shows="knot_in_webbing"),
        faulty("low", {**KNOT, "plan.consequence": "life"}, at="chain[6]", signal=Signal.DANGER),
        faulty("low", _joined(knot="water_knot"), at="chain[6]"),
        faulty(
            "low",
            {"shelf[0].items.RS-9": RS_9, "chain[3]": insert_before(HITCHED)},
            at="chain[3]",
            shows="sling_hitched_to_sling",
        ),
        faulty("low", {"chain[2].hitch": "larks_foot", "chain[2].around": "the gate's ring"}, at="chain[2]"),
        faulty("low", {**_spread("gate"), "spot.anchors.gate": {"kind": "bolts"}}, at="chain[2]"),
        open_("low", {"chain[2].hitch": REMOVE}, at="chain[2].hitch"),
        open_("low", _joined(), at="chain[6].gear"),
        sound("low", {"chain[10].hitch": "larks_foot"}),
    ),
)
def termination(case: Case, placed: Placed) -> Iterator[Fault]:
    part = placed.part
    if part.part == "webbing_knot" and part.knot == "none":
        return  # nothing holds the webbing: placement/rope_end tells it
    if part.part == "webbing_knot" or part.knot not in {None, "none"}:
        yield _knotted(case, placed)
    elif part.part == "webbing_join":
        need(part.gear, case.on_part(placed, "gear"))  # what joins them, since no knot is named
    elif part.part == "sling":
        yield from _hitched(case, placed, part, _nearest(case, placed))
    for m, leg in enumerate(part.legs or []):
        for n, one in enumerate(leg.chain):
            if one.part == "sling":
                yield from _hitched(case, placed, one, n == 0, "legs", m, "chain", n)


def _knotted(case: Case, placed: Placed) -> Fault:
    knot = (placed.part.knot or "not named").replace("_", " ")
    return Fault(
        case.on_part(placed),
        f"The tensioned webbing is knotted ({knot}) and keeps a quarter to a half of its strength there.",
        "Hold it in a webbing anchor, which keeps about 90 %, or by a sewn end.",
        source=KNOTS,
    )


def _hitched(case: Case, placed: Placed, sling: Part, nearest: bool, *key: str | int) -> Iterator[Fault]:
    """Judge the hitch of a sling; `nearest` to the anchor it may go round a trunk or boulder itself."""
    if need(sling.hitch, case.on_part(placed, *key, "hitch")) != "larks_foot":
        return
    structure = case.path.structure(case.loads.geometry.anchor_of(placed))
    if nearest and sling.around is None and structure is not None and structure.kind != "bolts":
        return
    words = f"sling {sling.gear or ''}".strip()
    yield Fault(
        case.on_part(placed, *key),
        f"The lark's foot of {words} bites on a sling or on metal and keeps about 50 % of its strength.",
        f"Join {words} with a shackle, or lay it straight or in basket.",
        source=SLING_IN_SLING,
    )


def _nearest(case: Case, placed: Placed) -> bool:
    """Return whether no other part that carries the line lies between a sling and its anchor."""
    side = case.path.side(placed)
    beside = case.path.on_side(side)
    return placed is (beside[0] if side == "a" else beside[-1])
