"""The rigs of a library that refer to the spot of one of them, for its sheet: they may stand there on the same day."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from riglint.findings.library.referring import referred_by
from riglint.loadpath import build
from riglint.loads import Loads
from riglint.model.library import Library
from riglint.model.references import resolve
from riglint.policy import DEFAULT, InForce
from riglint.read.library import find_documents, library_root, real
from riglint.read.repository.report_paths import paths_start
from riglint.rulekit import Case
from riglint.rulekit.together import AnchorOfDay, anchors_of_days, companies
from riglint.settings import LeavingOut


def shared_with_others(
    path: Path, loads: Loads, on: date, root: Path | None, force: InForce = DEFAULT
) -> list[AnchorOfDay]:
    """Return the anchors that a rig shares with other lines of its library, or with a guy, on any day.

    Only rigs that refer to the spot's file are computed; a rig that holds its spot itself shares it with none.
    """
    document = loads.path.rig.spot_document
    found = [loads]
    if document is not loads.path.rig.document:
        top = library_root(path, root)
        library = Library(top, start=paths_start([top]))
        spot = real(library.file(document.path))
        others = [
            one
            for one in find_documents([top], root=top, leave_out=LeavingOut().because).files
            if real(one) != real(path)
        ]
        near = [one for one in others if spot in referred_by(one)]
        found += [other for one in near if (other := _rig(library, one, on, force)) is not None]
    cases = [Case(one, on, force.limits, force.recalled) for one in found]
    days = anchors_of_days(companies(cases, on))
    return [one for one in days if any(case.loads is loads for case in one.cases)]


def _rig(library: Library, file: Path, on: date, force: InForce) -> Loads | None:
    if library.load(file).kind != "rig":
        return None
    rig, _, _ = resolve(library, file)
    return None if rig is None else Loads(build(rig), force.values, on)
