"""Nobody who falls from one line lands on another line, or on who walks there; crews haul out of each other's way."""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    Case,
    Fault,
    Input,
    LibraryCase,
    Limit,
    Signal,
    Source,
    TwoLines,
    distance_m,
    each_two_lines,
    faulty,
    laid,
    names_of,
    open_,
    review,
    rounded,
    rule,
    sound,
    walked_apart_m,
)

SOURCE = Source(
    "EN 1176-1, impact area, in the German school insurers' text; taken over for lines",
    "standard",
    ("en_1176_1",),
)
LEAST = Limit(
    name="least_apart",
    text="1.5 m",
    dimension="length",
    tighter="higher",
    because="Even from knee height a body falls its own length to the side.",
    source=SOURCE,
)
PER_METRE = Limit(
    name="apart_per_metre",
    text="0.667",
    dimension=None,
    tighter="higher",
    because="Add two thirds of the height: from higher up, a body flies further.",
    source=SOURCE,
)
BEYOND = Limit(
    name="apart_beyond",
    text="0.5 m",
    dimension="length",
    tighter="higher",
    because="Half a metre more for the arms.",
    source=SOURCE,
)
HAULING = Limit(
    name="hauling_zone",
    text="3 m",
    dimension="length",
    tighter="higher",
    because="A crew on the rope needs this much ground round its anchor. Metal that breaks off lands there first.",
    source=PRACTICE,
)

GATE, BARN, ASH, ELM = (f"spot.anchors.{name}" for name in ("gate", "barn", "ash", "elm"))
TREE = {"kind": "tree", "girth": "1.5 m", "bark": "rough", "health": "sound", "fork": "none"}
SECOND: dict[str, object] = {
    "title": "Second line",
    "chain[0].at": "ash",
    "chain[12].at": "elm",
    "chain[8].tie_back.to": "elm",
}
UP: dict[str, object] = {"chain[0].height": "2.9 m", "chain[12].height": "2.9 m"}


def _aside(y: str, **more: object) -> dict[str, object]:
    """Return the edit for a spot on which a second line runs beside the first, so far away."""
    ground = {"profile_from": "ash", "profile": [["0 m", "0 m"], ["16 m", "0 m"]]}
    return {
        ASH: TREE | {"plan": ["0 m", y]},
        ELM: TREE | {"plan": ["16.48 m", y]},
        f"{GATE}.plan": ["0 m", "0 m"],
        f"{BARN}.plan": ["16.43 m", "0 m"],
        "spot.spans": [{"between": ["ash", "elm"], "span": "16 m", "ground": ground}],
    } | more


FAR = _aside("3.1 m")


@rule(
    title="Somebody who falls from one line may land on another",
    each=each_two_lines,
    signal=Signal.CAUTION,
    raised={"fall": Signal.WARNING, "life": Signal.WARNING},
    why="Two walkers side by side fall onto each other, and a taut line under a falling back breaks it.",
    formula="distance between the walk zones in plan ≥ X = max(1.5 m, 2/3 · height of the feet + 0.5 m)",
    limits=(LEAST, PER_METRE, BEYOND, HAULING),
    prevents=("lines_meet",),
    examples=(
        sound("low"),
        sound("low", FAR, beside=(FAR | SECOND,)),
        sound("low", _aside("1.51 m"), beside=(_aside("1.51 m") | SECOND,)),
        faulty(
            "low",
            _aside("1.49 m"),
            beside=(_aside("1.49 m") | SECOND,),
            at="plan.walk_zone",
            signal=Signal.CAUTION,
        ),
        # From 2.62 m up 2.248 m.
        sound("low", _aside("2.26 m") | UP, beside=(_aside("2.26 m") | SECOND | UP,)),
        faulty("low", _aside("2.24 m") | UP, beside=(_aside("2.24 m") | SECOND | UP,)),
        faulty("low", _aside("1.51 m", **UP), beside=(_aside("1.51 m") | SECOND,), signal=Signal.WARNING),
        review(
            "low", _aside("2.9 m"), beside=(_aside("2.9 m") | SECOND,), at="chain[8]", signal=Signal.NOTICE
        ),
        # One above the other; day/crossing tells it.
        review("low", beside=({"title": "Second line"},), at="chain[8]", signal=Signal.NOTICE),
        faulty(
            "low",
            {"plan.walk_zone": ["2 m", "4 m"]},
            beside=({"title": "Second line", "plan.walk_zone": ["9 m", "2 m"]},),
            at="plan.walk_zone",
        ),
        sound("low", beside=({"title": "Second line", "stage": "lowered"},)),
        open_("low", FAR | {f"{GATE}.plan": REMOVE}, beside=(FAR | {f"{GATE}.plan": REMOVE} | SECOND,)),
    ),
)
def fall_zones(library: LibraryCase, two: TwoLines) -> Iterator[Fault]:
    one, other = two.one, two.other
    apart = walked_apart_m(one.loads, other.loads)
    # The higher line sets the width: who falls from it lands farthest out.
    height = max(max(case.loads.band.foot_heights_m(), default=0.0) for case in (one, other))
    least = max(library.limit(LEAST), library.limit(PER_METRE) * height + library.limit(BEYOND))
    if 0.0 < apart < least:  # one above the other: `day/crossing` tells of it
        yield Fault(
            other.at("plan", "walk_zone"),
            f"People walk {rounded(apart)} m from each other on '{one.rig.title}' and '{other.rig.title}'. Falling "
            f"from {rounded(height)} m they need {rounded(least, 'up')} m.",
            "Let only one of the two be walked at a time there, make the walk zones shorter, or set one line aside.",
            value=apart,
            limit=least,
            unit="m",
            inputs=(Input("height of the feet", "h", height, "m"),),
            rigs=two.paths,
        )
    for hauled, walked in ((one, other), (other, one)):
        yield from _hauling(library, two, hauled, walked)


def _hauling(library: LibraryCase, two: TwoLines, hauled: Case, walked: Case) -> Iterator[Fault]:
    """Ask to keep a line free while another is hauled right beside it."""
    haul = hauled.path.haul
    if haul is None:
        return
    anchor = hauled.loads.geometry.anchor_of(haul).part.at or ""
    if anchor in names_of(walked.loads):
        near = True
    else:
        line, theirs = laid(hauled.loads), laid(walked.loads)
        place = line.first if anchor == names_of(hauled.loads)[0] else line.last
        near = distance_m((place, place), (theirs.first, theirs.last)) < library.limit(HAULING)
    if near:
        yield Fault(
            hauled.on_part(haul),
            f"The crew of '{hauled.rig.title}' hauls at '{anchor}', beside '{walked.rig.title}'.",
            f"Keep everybody off '{walked.rig.title}' while '{hauled.rig.title}' is hauled or let down.",
            kind="review",
            signal=Signal.NOTICE,
            source=PRACTICE,
            rigs=two.paths,
        )
