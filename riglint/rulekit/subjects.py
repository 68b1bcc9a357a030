"""Which subjects rules look at, one by one: parts, gear, anchors, the haul, the rig."""

from __future__ import annotations

from calendar import monthrange
from collections.abc import Iterable, Iterator
from datetime import date

from riglint.loadpath import Placed
from riglint.loads import PartLoad
from riglint.loads.path.ends import End
from riglint.loads.path.used import used_items
from riglint.loads.states.backup import BackupLine
from riglint.loads.strength.slings import LaidSling, slings_of
from riglint.loads.what_if.removal import MayGo, all_that_may_go
from riglint.model.documents.rig import Leash
from riglint.model.library import Item
from riglint.model.vocabulary.words import in_prose
from riglint.rulekit.case import Case
from riglint.rulekit.library import LibraryCase, Shared, Sharing
from riglint.rulekit.rules import Each
from riglint.rulekit.together import AnchorOfDay, Company, TwoLines, anchors_of_days


def parts(*kinds: str) -> Each[Placed]:
    """Every part of the chain of these kinds."""
    words = ", ".join(in_prose(kind) for kind in kinds)
    return Each(words, lambda case: [placed for placed in case.path.parts if placed.part.part in kinds])


def everywhere(*kinds: str) -> Each[Placed]:
    """Every part of these kinds, of the main line and of its backups, inside legs too."""

    def of(case: Case) -> list[Placed]:
        found = {one.key: one for run in case.loads.runs for one in run if one.part.part in kinds}
        return list(found.values())

    return Each(", ".join(in_prose(kind) for kind in kinds) + ", of backups too", of)


def ends(*kinds: str) -> Each[End]:
    """Both ends of the main line and of every backup line, where structures of these kinds hold them (or any).

    With kinds named, every other structure that legs go to counts as an end too; without, each end comes once.
    """

    def of(case: Case) -> Iterator[End]:
        anchors = case.spot.anchors if case.spot else {}
        for end in case.loads.ends():
            structure = anchors.get(end.name)
            if structure is None:
                continue
            if (structure.kind in kinds and end.carries) if kinds else end.branch is None:
                yield end

    return Each("end of a line: " + ", ".join(kinds) if kinds else "end of a line", of)


def anchors(*kinds: str) -> Each[Placed]:
    """Both ends of the chain whose structure is of these kinds (of any kind, if none is named)."""

    def of(case: Case) -> list[Placed]:
        ends = [placed for placed in case.path.parts if placed.part.part == "anchor"]
        structures = [(placed, case.path.structure(placed)) for placed in ends]
        return [placed for placed, one in structures if one is not None and (not kinds or one.kind in kinds)]

    return Each("anchor: " + ", ".join(kinds) if kinds else "anchor", of)


def each_item(*kinds: str) -> Each[Item]:
    """Every piece of gear that the rig uses, of these kinds (of any kind, if none is named). Belongs to the shelf."""

    def of(case: Case) -> list[Item]:
        return [item for item in used_items(case.loads) if not kinds or item.gear.kind in kinds]

    words = ", ".join(in_prose(kind) for kind in kinds) if kinds else "gear in use"
    return Each(words, of, shared=True)


def _loads(case: Case) -> Iterable[PartLoad]:
    return case.loads.parts


def _haul(case: Case) -> list[Placed]:
    return [case.path.haul] if case.path.haul is not None else []


each_load: Each[PartLoad] = Each("every part that carries the line", _loads)
each_sling: Each[LaidSling] = Each(
    "every sling, those inside legs and of backups too", lambda case: slings_of(case.loads)
)
each_removal: Each[MayGo] = Each("every part that may go", lambda case: all_that_may_go(case.loads))
the_haul: Each[Placed] = Each("the pulley system", _haul)
the_haul_that_stays: Each[Placed] = Each(
    "the pulley system, if it stays in the chain", lambda case: [one for one in _haul(case) if one.part.stays]
)
each_backup: Each[BackupLine] = Each(
    "every line that backs up the main line",
    lambda case: [one for one in case.loads.backups if one.backs_main],
)
the_leash: Each[Leash] = Each(
    "the leash", lambda case: [case.rig.leash] if case.rig.leash is not None else []
)
each_piece: Each[Shared] = Each(
    "every piece in the library's gear lists",
    lambda library: library.gear,
    library=True,
    of_shelf=lambda shelf: shelf.pieces,
)
each_sharing: Each[Sharing] = Each(
    "every two rigs that share gear", lambda library: library.sharing, library=True
)
each_sharing_days: Each[Sharing] = Each(
    "every two rigs that share gear and may be up on one day",
    lambda library: library.sharing_days,
    library=True,
)
each_two_lines: Each[TwoLines] = Each(
    "every two lines at one spot on one day",
    lambda library: library.twos,
    library=True,
    of_company=lambda company: company.twos,
)
the_library: Each[None] = Each("the library", lambda _library: [None], library=True)
the_rig: Each[None] = Each("the rig", lambda _case: [None])


def shared_anchors(*kinds: str) -> Each[AnchorOfDay]:
    """Every structure of these kinds (of any kind, if none is named) on which several lines pull on one day."""

    def of(library: LibraryCase) -> list[AnchorOfDay]:
        return [one for company in library.companies for one in of_company(company)]

    def of_company(company: Company) -> list[AnchorOfDay]:
        return [one for one in anchors_of_days([company]) if not kinds or one.anchor.structure.kind in kinds]

    words = "anchor of several lines on one day"
    return Each(f"{words}: {', '.join(kinds)}" if kinds else words, of, library=True, of_company=of_company)


def months_after(day: date, months: int) -> date:
    """Return the same day months later; the last of that month where it has no such day, and no day after 9999."""
    years, month = divmod(day.month - 1 + months, 12)
    year = day.year + years
    if year > date.max.year:
        return date.max
    return date(year, month + 1, min(day.day, monthrange(year, month + 1)[1]))
