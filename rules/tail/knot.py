"""Knots keep a tail behind them that is long enough not to slip through."""

from collections.abc import Iterator

from riglint.rulekit import (
    REMOVE,
    Case,
    Fault,
    Input,
    Limit,
    Placed,
    Quantity,
    Signal,
    Source,
    everywhere,
    faulty,
    need,
    one_value,
    open_,
    rule,
    sound,
)

WEBBING = Limit(
    name="least_in_webbing",
    text="75 mm",
    dimension="length",
    tighter="higher",
    because="A knot in tape creeps with every load, and its tail is the reserve.",
    source=Source("encyclopedia article on the water knot: tails of 75 mm (3 in)", "unnamed"),
)
ROPE = Limit(
    name="least_in_rope",
    text="100 mm",
    dimension="length",
    tighter="higher",
    because="A shorter tail can work back into the knot as it sets and rolls.",
    source=Source("10 diameters, at least 100 mm", "practice"),
)
DIAMETERS = Limit(
    name="least_diameters",
    text="10",
    dimension=None,
    tighter="higher",
    because="A thicker rope makes a larger knot, which rolls further before it holds.",
    source=Source("10 diameters, at least 100 mm", "practice"),
)
BACKUP = "backups[0].chain"


def _rope(tail: str | None, diameter: str | None = "9 mm") -> dict[str, object]:
    """Back the highline up with a rope in place of the second webbing."""
    first = {"part": "rope_knot", "knot": "figure_eight"} | ({"tail": tail} if tail else {})
    rope = {"kind": "rope", "type": "low_stretch", "material": "polyamide", "mbs": "26 kN"}
    return {
        "shelf[0].items.RP-9": rope | ({"diameter": diameter} if diameter else {}),
        f"{BACKUP}[3]": first,
        f"{BACKUP}[4]": {"part": "rope", "gear": "RP-9"},
        f"{BACKUP}[5]": {"part": "rope_knot", "knot": "figure_eight", "tail": "0.2 m"},
    }


def _knot(**keys: str) -> dict[str, object]:
    return {"chain[4]": {"part": "webbing_knot", "knot": "other"} | keys}


@rule(
    title="The tail of a knot is too short",
    each=everywhere("webbing_knot", "webbing_join", "rope_knot"),
    signal=Signal.CAUTION,
    raised={"fall": Signal.WARNING, "life": Signal.WARNING},
    why="Once its tail has crept in, a knot comes undone in the next bounce, without warning.",
    formula="in webbing tail ≥ 75 mm; in rope tail ≥ max(10·d, 100 mm)",
    limits=(WEBBING, ROPE, DIAMETERS),
    prevents=("knot_rolls_out",),
    examples=(
        sound("low"),
        sound("highline"),
        sound("low", _knot(tail="76 mm")),
        faulty("low", _knot(tail="74 mm"), at="chain[4].tail", signal=Signal.CAUTION),
        faulty("low", _knot(tail="74 mm") | {"plan.consequence": "fall"}, signal=Signal.WARNING),
        open_("low", _knot(), at="chain[4].tail"),
        sound("highline", _rope("102 mm")),
        faulty("highline", _rope("98 mm"), at=f"{BACKUP}[3].tail", signal=Signal.WARNING),
        sound("highline", _rope("122 mm", "12 mm")),
        faulty("highline", _rope("118 mm", "12 mm"), at=f"{BACKUP}[3].tail", signal=Signal.WARNING),
        open_("highline", _rope(None), at=f"{BACKUP}[3].tail"),
        open_("highline", _rope("0.2 m", None), at="shelf[0].items.RP-9.diameter"),
        open_("highline", _rope("0.2 m") | {f"{BACKUP}[4].gear": REMOVE}, at=f"{BACKUP}[4].gear"),
        sound("highline", _rope("100 mm", "10 mm")),
        open_("low", {"chain[4]": {"part": "webbing_knot"}}, at="chain[4].tail"),
    ),
)
def knot(case: Case, placed: Placed) -> Iterator[Fault]:
    part = placed.part
    if part.part != "webbing_knot" and part.knot in {None, "none"}:
        return
    at = case.on_part(placed, "tail")
    limit, least = WEBBING, case.limit(WEBBING)
    inputs: tuple[Input, ...] = ()
    if part.part == "rope_knot":
        thick = _diameter(case, placed)
        thickness = case.limit(DIAMETERS) * thick.si
        limit = DIAMETERS if thickness > case.limit(ROPE) else ROPE
        least, inputs = max(thickness, case.limit(ROPE)), (Input("rope diameter", "d", thick.si * 1e3, "mm"),)
    tail = need(part.webbing_tail, at)
    if tail.si >= least - 1e-9:
        return
    words = (part.knot or "knot").replace("_", " ")
    remedies = case.put_right(at, one_value(at.key, "tie it again with {} of tail", "up", "mm", 5))
    yield Fault(
        at,
        f"The {words} at {placed.id} has {tail.si * 1e3:.0f} mm of tail. At least {least * 1e3:.0f} mm.",
        f"Tie it again with at least {least * 1e3:.0f} mm of tail, and set it by hand before you load it.",
        value=tail.si * 1e3,
        limit=least * 1e3,
        unit="mm",
        inputs=(case.given("tail", "l", tail, at), *inputs),
        source=limit.source,
        remedies=remedies,
    )


def _diameter(case: Case, placed: Placed) -> Quantity:
    """Return the diameter of the rope that a knot is tied in."""
    rope = next((one for one in case.beside(placed) if one.part.part == "rope"), placed)
    item = case.item(rope)
    return need(item.gear.diameter, case.on_item(item, "diameter"))
