"""A path or wire that one line of a spot tells of is not forgotten for another."""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    Case,
    Fault,
    LibraryCase,
    Signal,
    TwoLines,
    each_two_lines,
    faulty,
    rule,
    sound,
)

AROUND = "spot.surroundings"
PATH = f"{AROUND}.path_crosses"
CROSSED, SECOND = {PATH: True}, {"title": "Second line"}


@rule(
    title="A path or a wire told for one line and not for another",
    each=each_two_lines,
    signal=Signal.CAUTION,
    raised={"life": Signal.WARNING},
    worst=Signal.WARNING,
    why="Walkers and cyclists do not ask which of two lines the path was entered for, and a wire is where it is.",
    formula="path_crosses and wires of two lines at one spot agree, or both are told for each line by itself",
    sources=(PRACTICE,),
    prevents=("lines_meet",),
    examples=(
        sound("low", beside=(SECOND,)),
        sound("low", CROSSED, beside=(CROSSED,)),
        faulty(
            "low",
            CROSSED,
            beside=(SECOND,),
            at=PATH,
        ),
        faulty(
            "low",
            {"title": "First line"},
            beside=(CROSSED,),
            at="surroundings.path_crosses",
        ),
        faulty(
            "low",
            {f"{AROUND}.wires": [{"distance": "14 m"}]},
            beside=(SECOND,),
            at=f"{AROUND}.wires",
            signal=Signal.CAUTION,
        ),
        sound("low", CROSSED, beside=({"spot.title": "Other strip"},)),
    ),
)
def surroundings(_library: LibraryCase, two: TwoLines) -> Iterator[Fault]:
    for told, silent in ((two.one, two.other), (two.other, two.one)):
        theirs, ours = (case.spot.surroundings if case.spot else None for case in (told, silent))
        if theirs is not None and theirs.path_crosses and not (ours is not None and ours.path_crosses):
            yield _forgotten(two, told, silent, ("path_crosses", "a path crosses under the line"))
        if theirs is not None and theirs.wires and not (ours is not None and ours.wires):
            yield _forgotten(two, told, silent, ("wires", "a wire is near"))


def _forgotten(two: TwoLines, told: Case, silent: Case, what: tuple[str, str]) -> Fault:
    key, words = what
    return Fault(
        silent.on_spot("surroundings", key),
        f"'{told.rig.title}' says that {words}. '{silent.rig.title}', at the same spot, says nothing of it.",
        f"Look again for '{silent.rig.title}', and enter it in both files or in the spot's `spans`, line by line.",
        rigs=two.paths,
    )
