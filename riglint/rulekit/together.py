"""Rigs that stand at one spot on one day, as rules see them: what they share, and every two of them."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date
from itertools import combinations
from math import inf

from riglint.loads.day.days_up import days_up, up_together
from riglint.loads.day.shared_anchor import SharedAnchor, Together
from riglint.loads.inputs import known
from riglint.rulekit.case import Case
from riglint.rulekit.verdicts import Fault, in_kn, listed


@dataclass(frozen=True, slots=True)
class Company:
    """The rigs that are up at one spot on one day."""

    cases: tuple[Case, ...]
    day: date | None  # the first on which they all are; None where none of them names a day

    @property
    def paths(self) -> tuple[str, ...]:
        """The files of the rigs."""
        return tuple(case.file.document.path for case in self.cases)


@dataclass(frozen=True, slots=True)
class AnchorOfDay:
    """A structure and the rigs whose lines hang on it on one day."""

    company: Company
    cases: tuple[Case, ...]
    anchor: SharedAnchor

    @property
    def paths(self) -> tuple[str, ...]:
        """The files of the rigs."""
        return tuple(case.file.document.path for case in self.cases)

    @property
    def when(self) -> str:
        """On which day, and which of the rigs name none, in words."""
        undated = [case.rig.title for case in self.cases if case.plan is None or case.plan.first_day is None]
        day = "" if self.company.day is None else f" on {self.company.day}"
        return day + (f" ({listed(undated)}: no day named, so it counts for every day)" if undated else "")

    def in_words(self, whole: Together) -> str:
        """Return which lines make a sum and how, such as `a 5.2 kN and b 4 kN, added as vectors`."""
        pulls = listed(
            f"{one.name} {in_kn(one.tension_n)} ({one.state.replace('_', ' ')})" for one in whole.members
        )
        how = (
            "added as vectors"
            if whole.as_vectors
            else "added as if all pulled one way, since the spot gives no plan"
        )
        return f"{pulls}, {how}"

    def required(self, row: str) -> float | None:
        """Return the greatest ratio that any of the rigs asks of a class of parts."""
        return max((one for case in self.cases if (one := case.required(row)) is not None), default=None)


@dataclass(frozen=True, slots=True)
class TwoLines:
    """Two rigs at one spot on one day."""

    company: Company
    one: Case
    other: Case

    @property
    def paths(self) -> tuple[str, str]:
        """The files of the two."""
        return self.one.file.document.path, self.other.file.document.path


def companies(cases: Iterable[Case], today: date, day: date | None = None) -> list[Company]:
    """Return the rigs that stand together, spot by spot; on one day only where one is named.

    A spot is one by its file, or by its title where rigs hold it themselves.
    """
    by_spot: dict[object, list[Case]] = {}
    for case in cases:
        if case.spot is not None:
            by_spot.setdefault(_name_of_spot(case), []).append(case)
    return [one for here in by_spot.values() for one in _at_one_spot(here, today, day)]


def _name_of_spot(case: Case) -> object:
    title = case.spot.title if case.spot else None
    if title:
        return " ".join(title.casefold().split())
    return case.file.spot_document.path, case.file.spot_key


def _at_one_spot(cases: list[Case], today: date, day: date | None) -> list[Company]:
    distinct = [case for case in cases if not any(_stands_as(case, other) for other in cases)]
    up = [(case, days) for case in distinct if (days := days_up(case.rig, today)) is not None]
    if day is not None:
        here = _one_version_each([case for case, days in up if days.on(day)])
        return [Company(here, day)] if here else []
    found = up_together([days for _, days in up])
    return [
        Company(_one_version_each([up[n][0] for n in sorted(numbers)]), None if first == date.min else first)
        for first, numbers in found
    ]


def _one_version_each(cases: Sequence[Case]) -> tuple[Case, ...]:
    """Return the rigs that can stand together: of plans under one title between the same anchors, one.

    Such plans are versions of one line, each judged by itself. Beside other lines the one counts that pulls hardest;
    one without a tension counts before all, so that its question is asked.
    """
    hardest: dict[object, Case] = {}
    for case in cases:
        titled = case.rig.stage == "planned" and case.rig.title
        name = (case.rig.title, tuple(_of_line(case)[0])) if titled else case
        if name not in hardest or _pull_n(case) > _pull_n(hardest[name]):
            hardest[name] = case
    return tuple(hardest.values())


def _pull_n(case: Case) -> float:
    tension_n = known(lambda: case.loads.standing_tension_n)
    return inf if tension_n is None else tension_n


def _stands_as(one: Case, other: Case) -> bool:
    """Return whether another file tells of the same line as it stands: one webbing between the same anchors."""
    if other is one or other.rig.stage in {"planned", "lowered"} or _of_line(one) != _of_line(other):
        return False
    if one.rig.stage == "planned":
        return True
    # Two files of a line that stands: the later stage counts, and of two alike the first.
    stages = ["built", "walking", "lowered"]
    mine, theirs = stages.index(one.rig.stage), stages.index(other.rig.stage)
    paths = one.file.document.path, other.file.document.path
    return theirs > mine or (theirs == mine and paths[1] < paths[0])


def _of_line(case: Case) -> tuple[list[str | None], list[tuple[str, str] | None]]:
    ends = [part.at for part in case.rig.chain if part.part == "anchor"]
    items = [one.item for one in case.path.webbings]
    return ends, [None if one is None else (one.document.path, one.id) for one in items]


def anchors_of_days(found: list[Company]) -> list[AnchorOfDay]:
    """Return every structure on which more than one line, or a line and a guy, pull on one day."""
    anchors: list[AnchorOfDay] = []
    for company in found:
        held: dict[str, list[Case]] = {}
        for case in company.cases:
            for name in _structures(case):
                held.setdefault(name, []).append(case)
        anchors += [one for name, cases in held.items() if (one := _shared(company, name, cases)) is not None]
    return anchors


def _structures(case: Case) -> list[str]:
    """Return the structures that a rig hangs on, backups and branches included; none where its chain is broken."""
    if not case.path.whole or any(one.is_line and not one.path.whole for one in case.loads.backups):
        return []
    return list(dict.fromkeys(end.name for end in case.loads.ends() if end.carries))


def _shared(company: Company, name: str, cases: list[Case]) -> AnchorOfDay | None:
    spot = cases[0].spot
    structure = spot.anchors.get(name) if spot else None
    guys = sum(name in guy.between for guy in spot.guys) if spot else 0
    if structure is None or len(cases) + guys < 2:  # noqa: PLR2004 - one line alone is its own rig's matter
        return None
    return AnchorOfDay(company, tuple(cases), SharedAnchor(name, structure, [case.loads for case in cases]))


def twos(found: list[Company]) -> list[TwoLines]:
    """Return every two rigs that stand at one spot on one day, each two once."""
    seen: dict[tuple[str, str], TwoLines] = {}
    for company in found:
        for one, other in combinations(company.cases, 2):
            two = TwoLines(company, one, other)
            seen.setdefault(two.paths, two)
    return list(seen.values())


def in_each_file(day: AnchorOfDay, fault: Fault, fine_alone: Callable[[Case], bool]) -> Iterator[Fault]:
    """Yield a fault of the day, once for the spot and once in the file of each line that is fine by itself."""
    yield replace(fault, rigs=day.paths)
    for case in day.cases:
        if not fine_alone(case):
            continue  # its own rule speaks there
        end = next(one for one in case.loads.ends() if one.name == day.anchor.name and one.carries)
        yield replace(fault, at=case.on_part(end.anchor), rigs=(case.file.document.path,))
