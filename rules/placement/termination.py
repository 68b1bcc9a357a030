"""Nothing in the tensioned line weakens it more than it must: no knot in webbing, no sling hitched through a sling.

A sewn end is judged by what it keeps (see `ratio/peak`); here only where that is a guess and the tension is high.
A lark's foot round a trunk is a choke like any other and is judged by its mode factor.
"""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    Case,
    Fault,
    Input,
    Limit,
    Part,
    PartLoad,
    Placed,
    Signal,
    Source,
    faulty,
    in_kn,
    insert_before,
    open_,
    parts,
    rounded,
    rule,
    sound,
)

GUESSED_END = Limit(
    name="standing_at_a_guessed_end",
    text="0.2",
    dimension=None,
    tighter="lower",
    because="That a sewn end keeps 80 % is a habit of the trade without a test; at a fifth of the webbing's strength "
    "and above the margin should not rest on it.",
    source=PRACTICE,
)
KNOTS = Source(
    "a federation's test story: knots in webbing keep roughly a quarter to a half, and are taboo", "published"
)
SLING_IN_SLING = Source(
    "a test digest: girth hitch sling to sling down to 50 %, on small metal below half", "published"
)
CHOKED = {"part": "sling", "gear": "RS-9", "hitch": "larks_foot"}
RS_9 = {"kind": "round_sling", "material": "polyester", "wll": "2 t", "length": "1 m"}
KNOTTED_ON = ({"part": "webbing", "gear": "W-2"}, {"part": "webbing_join", "knot": "water_knot"})
GUESSED = {"shelf[0].items.SE-1.mbs": REMOVE}


@rule(
    title="A knot or hitch that weakens the line",
    each=parts("webbing_knot", "webbing_join", "sling", "legs", "sewn_end"),
    signal=Signal.WARNING,
    raised={"life": Signal.DANGER},
    why="Webbing breaks at its knot and a sling where another cuts into it, at half of what their labels say or less.",
    formula="no knot in tensioned webbing; no lark's foot on a sling or on metal; T ÷ webbing strength ≤ 0.2 at a guessed end",
    limits=(GUESSED_END,),
    sources=(KNOTS, SLING_IN_SLING),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("low", {"chain[2].hitch": "larks_foot"}),  # round the trunk
        sound("long_haul", {"shelf[0].items.W-1.mbs": "20 kN"}),  # the sewn end has its own figure
        sound("long_haul", {**GUESSED, "shelf[0].items.W-1.mbs": "30.3 kN"}),
        faulty(
            "long_haul",
            {**GUESSED, "shelf[0].items.W-1.mbs": "29.7 kN"},
            at="chain[6]",
            signal=Signal.CAUTION,
        ),
        faulty(
            "low",
            {"chain[6]": {"part": "webbing_knot", "knot": "overhand"}},
            at="chain[6]",
            signal=Signal.WARNING,
        ),
        faulty(
            "low",
            {"chain[6]": {"part": "webbing_knot", "knot": "overhand"}, "plan.consequence": "life"},
            at="chain[6]",
            signal=Signal.DANGER,
        ),
        faulty(
            "low",
            {"shelf[0].items.W-2": {"kind": "webbing"}, "chain[5]": insert_before(*KNOTTED_ON)},
            at="chain[6]",
        ),
        faulty("low", {"shelf[0].items.RS-9": RS_9, "chain[3]": insert_before(CHOKED)}, at="chain[3]"),
        faulty(
            "low", {"chain[2].hitch": "larks_foot", "chain[2].around": "the ring of the gate"}, at="chain[2]"
        ),
        open_("long_haul", {**GUESSED, "shelf[0].items.W-1.mbs": REMOVE}, at="shelf[0].items.W-1.mbs"),
        open_("long_haul", {**GUESSED, "plan.standing_tension": REMOVE}, at="plan.standing_tension"),
    ),
)
def termination(case: Case, placed: Placed) -> Iterator[Fault]:
    part = placed.part
    if part.part == "sewn_end":
        yield from _guessed_end(case, placed)
    elif part.part in {"webbing_knot", "webbing_join"}:
        if part.part == "webbing_knot" or part.knot not in {None, "none"}:
            yield _knot(case, placed)
    elif part.part == "sling":
        if part.hitch == "larks_foot" and not _round_its_anchor(case, placed):
            yield _hitch(case, placed, placed.words)
    else:
        for m, leg in enumerate(part.legs or []):
            for n, one in enumerate(leg.chain):
                if one.hitch == "larks_foot" and not _first_round_a_trunk(case, placed, one, n):
                    yield _hitch(case, placed, f"sling {one.gear or ''}".strip(), "legs", m, "chain", n)


def _knot(case: Case, placed: Placed) -> Fault:
    named = (placed.part.knot or "knot").replace("_", " ")
    return Fault(
        case.on_part(placed),
        f"The webbing is knotted into the tensioned line ({named}); a knot keeps a quarter to a half of its strength.",
        "Hold the webbing in a webbing anchor, which keeps about 90 %, or by a sewn end.",
        source=KNOTS,
    )


def _hitch(case: Case, placed: Placed, words: str, *key: str | int) -> Fault:
    return Fault(
        case.on_part(placed, *key),
        f"The lark's foot of {words} bites on a sling or on metal, where it keeps about 50 % of its strength.",
        f"Join {words} with a shackle, or lay it in basket or straight.",
        source=SLING_IN_SLING,
    )


def _round_its_anchor(case: Case, placed: Placed) -> bool:
    """Return whether a sling lies round the trunk or boulder itself: nothing else lies between."""
    anchor = case.path.anchors[0 if case.path.side(placed) == "a" else 1]
    outer = case.path.on_side(case.path.side(placed))
    nearest = outer[:1] if anchor is case.path.anchors[0] else outer[-1:]
    structure = case.path.structure(anchor)
    on_metal = structure is not None and structure.kind == "bolts"
    return placed in nearest and placed.part.around is None and not on_metal


def _first_round_a_trunk(case: Case, legs: Placed, part: Part, place: int) -> bool:
    anchor = case.path.anchors[0 if case.path.side(legs) == "a" else 1]
    structure = case.path.structure(anchor)
    return (
        place == 0 and part.around is None and structure is not None and structure.kind in {"tree", "boulder"}
    )


def _guessed_end(case: Case, placed: Placed) -> Iterator[Fault]:
    """Judge a sewn end that has no figure of its own."""
    if placed.item is not None and placed.item.gear.mbs is not None:
        return
    webbing = _webbing_beside(case, placed)
    if webbing is None:
        return
    strength, tension = webbing.strength.breaking_n, case.loads.planned_tension_n
    most = case.limit(GUESSED_END)
    if tension <= most * strength:
        return
    yield Fault(
        case.on_part(placed),
        f"{in_kn(tension)} of standing tension is {rounded(tension / strength, 'up')} of the strength of {webbing.words}, "
        f"and nobody has tested its sewn end; {most:g} is the most without.",
        f"Write the breaking strength of the sewn end on the shelf, use a webbing anchor, or plan "
        f"{in_kn(most * strength, 'down')} or less.",
        value=tension / strength,
        limit=most,
        unit="1",
        inputs=(
            Input(
                "standing tension",
                "T0",
                tension / 1000.0,
                "kN",
                case.at("plan", "standing_tension").reference,
            ),
            Input(
                "breaking strength of the webbing",
                "S",
                strength / 1000.0,
                "kN",
                webbing.strength.at.reference,
            ),
        ),
        state="standing",
        signal=Signal.CAUTION,
    )


def _webbing_beside(case: Case, placed: Placed) -> PartLoad | None:
    n = case.path.parts.index(placed)
    beside = {one.id for one in case.path.parts[max(n - 1, 0) : n + 2] if one.part.part == "webbing"}
    return next((load for load in case.loads.parts if load.part == "webbing" and load.id in beside), None)
