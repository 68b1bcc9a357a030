"""A path or wire that one line of a spot tells of is not forgotten for another."""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    Case,
    Fault,
    LibraryCase,
    Signal,
    faulty,
    listed,
    rule,
    sound,
    the_library,
)

AROUND = "spot.surroundings"
PATH = f"{AROUND}.path_crosses"
PATH_WORDS = "path_crosses", "a path crosses under the line"
WIRE_WORDS = "wires", "a wire is near"
CROSSED, SECOND = {PATH: True}, {"title": "Second line"}


@rule(
    title="A path or wire is entered for one line and not for the other",
    each=the_library,
    signal=Signal.CAUTION,
    raised={"life": Signal.WARNING},
    worst=Signal.WARNING,
    why="A path or wire beside one line is beside the other too. Only one of the two was judged with it.",
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
def surroundings(library: LibraryCase, _library: None) -> Iterator[Fault]:
    found: dict[tuple[str, object], tuple[Case, list[Case], tuple[str, str]]] = {}
    for two in library.twos:
        for told, silent in ((two.one, two.other), (two.other, two.one)):
            for what in (PATH_WORDS, WIRE_WORDS):
                if _says(told, what[0]) and not _says(silent, what[0]):
                    at = silent.on_spot("surroundings", what[0])
                    lines = found.setdefault((at.path, at.key), (told, [], what))[1]
                    lines += [] if any(silent is one for one in lines) else [silent]
    for told, lines, what in found.values():  # lines that share a file are told once
        yield _forgotten(told, lines, what)


def _says(case: Case, key: str) -> bool:
    around = case.spot.surroundings if case.spot else None
    return bool(around is not None and getattr(around, key))


def _forgotten(told: Case, silent: list[Case], what: tuple[str, str]) -> Fault:
    key, words = what
    names = listed(f"'{one.rig.title}'" for one in silent)
    return Fault(
        silent[0].on_spot("surroundings", key),
        f"'{told.rig.title}' says that {words}. No file says so for {names}, at the same spot.",
        f"Look again for {names}, and enter it in each file or in the spot's `spans`, line by line.",
        rigs=tuple(one.file.document.path for one in (told, *silent)),
    )
