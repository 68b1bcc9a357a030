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
    rule,
    sound,
    the_library,
)

GATE = "spot.anchors.gate"
LOOKED_AT = ("kind", "species", "girth", "girth_at", "health", "fork", "rock")


@rule(
    title="One spot described in two ways",
    each=the_library,
    signal=Signal.CAUTION,
    why=(
        "One of the two rigs was planned for a spot that doesn't exist, so its sag and webbing "
        "length are wrong."
    ),
    formula="spots of one title: spans within their ±, the same anchors with the same kind, species, girth and health",
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
    by_title: dict[str, list[Case]] = {}
    for case in library.rigs:
        if case.spot is not None and case.spot.title:
            by_title.setdefault(" ".join(case.spot.title.casefold().split()), []).append(case)
    for cases in by_title.values():
        # Rigs that refer to one file cannot differ; one of them speaks for it.
        told = {(case.file.spot_document.path, case.file.spot_key): case for case in cases}
        for one, other in combinations(told.values(), 2):
            yield from _differing(one, other)


def _differing(one: Case, other: Case) -> Iterator[Fault]:
    """Say of each thing that two rigs tell differently what the one and the other says."""
    if one.spot is None or other.spot is None:
        return
    if _differ(one.spot.span, other.spot.span):
        yield _fault((one, other), ("span",), "The span", (one.spot.span, other.spot.span))
    for name in sorted(one.spot.anchors.keys() & other.spot.anchors.keys()):
        for what in LOOKED_AT:
            first, second = (getattr(case.spot.anchors[name], what) for case in (one, other) if case.spot)
            if _differ(first, second):
                yield _fault(
                    (one, other), ("anchors", name, what), f"The {what} of '{name}'", (first, second)
                )


def _differ(one: Quantity | str | None, other: Quantity | str | None) -> bool:
    """Return whether two statements contradict each other; quantities may lie as far apart as their ± reach."""
    if one is None or other is None:
        return False
    if isinstance(one, Quantity) and isinstance(other, Quantity):
        return abs(one.si - other.si) > one.plus_minus + other.plus_minus
    return one != other


def _fault(rigs: tuple[Case, Case], key: tuple[str, ...], what: str, told: tuple[object, object]) -> Fault:
    said = [thing.text if isinstance(thing, Quantity) else str(thing) for thing in told]
    paths = tuple(case.file.document.path for case in rigs)
    return Fault(
        rigs[1].on_spot(*key),
        f"{first_up(what.replace('_', ' '))} is {said[0]} for {paths[0]} and {said[1]} for {paths[1]}.",
        "Measure again, and keep the spot in one file that both rigs use.",
        value=said[1],
        limit=said[0],
        rigs=paths,
    )
