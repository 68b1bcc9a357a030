"""Reads a whole library for whoever keeps its gear: every piece, every rig, and what could not be read."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from riglint.loads.assumed import at_its_worst, loads_of
from riglint.model.library import Library, Loaded
from riglint.model.references import resolve
from riglint.policy import InForce
from riglint.read.library import find_documents, library_root
from riglint.read.problems import Problem
from riglint.records import dataclass
from riglint.rulekit import Case, LibraryCase
from riglint.settings import LeavingOut


@dataclass(frozen=True, slots=True)
class WholeLibrary:
    """All rigs and gear lists of a folder, and one sentence for each file that could not be read in full."""

    library: LibraryCase
    unread: tuple[str, ...]


def read_whole_library(folder: Path, on: date, root: Path | None, force: InForce) -> WholeLibrary:
    """Return every rig and gear list of a folder; a file that cannot be read hides no other."""
    found = find_documents([folder], root=root, leave_out=LeavingOut().because)
    library = Library(library_root(folder, root or folder))
    unread = [_in_one_row(library.shown_link(file), one) for file, one in found.refused.items()]
    loaded = [library.load(file) for file in sorted(found.files)]
    unread += [_in_one_row(one.path, problem) for one in loaded for problem in one.problems[:1]]
    rigs: list[Case] = []
    for one in loaded:
        if one.kind == "rig":
            rig, problems, _ = resolve(library, library.root / one.path)
            if rig is not None:
                loads = at_its_worst(loads_of(rig, force.values, on))
                rigs.append(Case(loads, on, force.limits, force.recalled))
            elif not one.problems:
                unread += [_in_one_row(one.path, problem) for problem in problems[:1]]
    lists = tuple(one for one in loaded if _is_gear_list(one))
    whole = LibraryCase(tuple(rigs), lists, on, force.limits, force.recalled)
    return WholeLibrary(whole, tuple(dict.fromkeys(unread)))


def _is_gear_list(one: Loaded) -> bool:
    return one.kind == "shelf"


def _in_one_row(path: str, problem: Problem) -> str:
    return f"{path}, line {problem.place.line}: {problem.message}"
