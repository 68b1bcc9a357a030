"""Two rigs tell the same of one spot."""

from collections.abc import Iterator
from itertools import combinations

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    Case,
    Fault,
    LibraryCase,
    Quantity,
    Signal,
    faulty,
    first_up,
    known,
    names_of,
    rule,
    sound,
    the_library,
)

GATE, BARN = "spot.anchors.gate", "spot.anchors.barn"
ASH = {"kind": "tree", "girth": "1.5 m", "bark": "rough", "health": "sound", "fork": "none"}
TO_ASH: dict[str, object] = {
    "title": "Second line",
    "chain[12].at": "ash",
    "chain[8].tie_back.to": "ash",
    "spot.anchors.ash": ASH,
    "spot.span": "12 m",
}


def _planned(x: str) -> dict[str, object]:
    return {f"{GATE}.plan": ["0 m", "0 m"], f"{BARN}.plan": [x, "0 m"]}


LOOKED_AT = ("plan", "kind", "species", "girth", "girth_at", "health", "fork", "rock")


@rule(
    title="One spot described in two ways",
    each=the_library,
    signal=Signal.CAUTION,
    why=(
        "One of the two rigs was planned for a spot that doesn't exist, so its sag and webbing "
        "length are wrong."
    ),
    formula="spots of one title: spans within their ±; the same place, kind, species, girth and health of each anchor",
    sources=(PRACTICE,),
    prevents=("span_wrong",),
    examples=(
        sound("low"),
        sound("low", beside=({"title": "Evening line"},)),
        sound("low", beside=({"spot.title": "Other strip", "spot.span": "16.5 m"},)),
        sound("low", {"spot.title": REMOVE}, beside=({"spot.title": REMOVE, "spot.span": "16.5 m"},)),
        # 16 m ± 0.1 m is told by the first rig.
        sound("low", beside=({"spot.span": "16.2 m ± 0.11 m"},)),
        faulty("low", beside=({"spot.span": "16.2 m ± 0.09 m"},), at="spot.span", signal=Signal.CAUTION),
        # A line to another tree has a span of its own.
        sound("low", beside=(TO_ASH,)),
        sound("low", _planned("16.43 m"), beside=(_planned("16.5 m ± 0.1 m"),)),
        faulty("low", _planned("16.43 m"), beside=(_planned("16.6 m"),), at=f"{BARN}.plan"),
        faulty("low", beside=({"spot.title": "orchard  strip", "spot.span": "16.5 m"},), at="spot.span"),
        faulty("low", beside=({f"{GATE}.species": "lime"},), at=f"{GATE}.species", signal=Signal.CAUTION),
        faulty("low", beside=({f"{GATE}.girth": "141 cm"},), at=f"{GATE}.girth"),
        sound("low", beside=({f"{GATE}.girth": "141 cm ± 2 cm"},)),
        sound("low", beside=({f"{GATE}.health": REMOVE},)),
        faulty("low", beside=({f"{GATE}.health": "doubtful"},), at=f"{GATE}.health"),
        sound("low", beside=({"spot.anchors.shed": {"kind": "structure"}},)),
    ),
)
def spot_twice(library: LibraryCase, _: None) -> Iterator[Fault]:
    for cases in library.rigs_of_spots_told_twice:
        # Rigs that refer to one file cannot differ; one of them speaks for it.
        told = {(case.file.spot_document.path, case.file.spot_key): case for case in cases}
        for one, other in combinations(told.values(), 2):
            yield from _differing(one, other)
        yield from _spans(cases)


def _spans(cases: list[Case]) -> Iterator[Fault]:
    """Compare the spans of lines between the same anchors, one of each file; others have spans of their own."""
    told = {
        (frozenset(names), case.file.spot_document.path, case.file.spot_key): case
        for case in cases
        if (names := known(lambda case=case: names_of(case.loads))) is not None  # type: ignore[misc]
    }
    for (between, *one_place), (also, *other_place) in combinations(told, 2):
        if between != also or one_place == other_place:
            continue
        one, other = told[(between, *one_place)], told[(also, *other_place)]  # type: ignore[index]
        spans = one.spot.span if one.spot else None, other.spot.span if other.spot else None
        if _differ(*spans):
            yield _fault((one, other), ("span",), "The span", spans)


def _differing(one: Case, other: Case) -> Iterator[Fault]:
    """Say of each thing that two rigs tell differently what the one and the other says."""
    if one.spot is None or other.spot is None:
        return
    for name in sorted(one.spot.anchors.keys() & other.spot.anchors.keys()):
        for what in LOOKED_AT:
            first, second = (getattr(case.spot.anchors[name], what) for case in (one, other) if case.spot)
            if _differ(first, second):
                yield _fault(
                    (one, other), ("anchors", name, what), f"The {what} of '{name}'", (first, second)
                )


def _differ(one: object, other: object) -> bool:
    """Return whether two statements contradict each other; quantities may lie as far apart as their ± reach."""
    if one is None or other is None:
        return False
    if isinstance(one, Quantity) and isinstance(other, Quantity):
        # Two measurements agree where their ± touch.
        return abs(one.si - other.si) > one.plus_minus + other.plus_minus
    if isinstance(one, tuple) and isinstance(other, tuple):
        return any(_differ(*two) for two in zip(one, other, strict=False))
    return one != other


def _fault(rigs: tuple[Case, Case], key: tuple[str, ...], what: str, told: tuple[object, object]) -> Fault:
    said = [_said(thing) for thing in told]
    paths = tuple(case.file.document.path for case in rigs)
    return Fault(
        rigs[1].on_spot(*key),
        f"{first_up(what.replace('_', ' '))} is {said[0]} for {paths[0]} and {said[1]} for {paths[1]}.",
        "Measure again, and keep the spot in one file that both rigs use.",
        value=said[1],
        limit=said[0],
        rigs=paths,
    )


def _said(thing: object) -> str:
    if isinstance(thing, Quantity):
        return thing.text
    return f"({', '.join(map(_said, thing))})" if isinstance(thing, tuple) else str(thing)
