"""The rigs of a library that refer to the spot of one of them, for its sheet: they may stand there on the same day."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from riglint.findings.library.referring import referred_by
from riglint.loads import Loads
from riglint.loads.assumed import at_its_worst, loads_of
from riglint.model.library import Library
from riglint.model.references import resolve
from riglint.policy import DEFAULT, InForce
from riglint.read.library import find_documents, library_root, read_bytes, real
from riglint.read.repository.report_paths import paths_start
from riglint.rulekit import Case
from riglint.rulekit.together import AnchorOfDay, anchors_of_days, companies
from riglint.settings import LeavingOut


def shared_with_others(
    path: Path, loads: Loads, on: date, root: Path | None, force: InForce = DEFAULT
) -> tuple[list[AnchorOfDay], list[str]]:
    """Return the anchors that a rig shares with other lines of its library, or with a guy, on any day.

    Only rigs that refer to the spot's file are computed; a rig that holds its spot itself shares it with none.
    The paths are those of rigs at the spot that cannot be read: nobody knows what they pull there.
    """
    document = loads.path.rig.spot_document
    own = at_its_worst(loads)
    found, unread = [own], []
    if document is not loads.path.rig.document:
        top = library_root(path, root)
        library = Library(top, start=paths_start([top]))
        spot = real(library.file(document.path))
        others = [
            one
            for one in find_documents([top], root=top, leave_out=LeavingOut().because).files
            if real(one) != real(path)
        ]
        for one in others:
            if spot in referred_by(one) and library.load(one).kind == "rig":
                rig, _, _ = resolve(library, one)
                if rig is not None:
                    found.append(at_its_worst(loads_of(rig, force.values, on)))
                    continue
            elif library.load(one).document is not None or not _names(one, spot):
                continue
            unread.append(library.shown(one))
    cases = [Case(one, on, force.limits, force.recalled) for one in found]
    days = anchors_of_days(companies(cases, on))
    return [one for one in days if any(case.loads is own for case in one.cases)], unread


def _names(file: Path, spot: Path) -> bool:
    """Whether a text that is no YAML names the file of a spot: it may be a rig that stands there."""
    raw, _ = read_bytes(file)
    return raw is None or spot.name.encode() in raw
