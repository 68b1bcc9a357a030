"""Rigs that stand at one spot on one day, as rules see them: what they share, and every two of them."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace
from datetime import date
from itertools import combinations

from riglint.loads.day.days_up import up_together
from riglint.loads.day.shared_anchor import SharedAnchor, Together
from riglint.loads.states.state_kinds import when
from riglint.records import dataclass
from riglint.rulekit import facts
from riglint.rulekit.case import Case
from riglint.rulekit.verdicts import Fault, in_kn, listed


@dataclass(frozen=True, slots=True)
class Company:
    """The rigs that are up at one spot on one day."""

    cases: tuple[Case, ...]
    day: date | None  # the first on which they all are; None where none of them names a day
    met: frozenset[tuple[str, str]] = (
        frozenset()
    )  # two of them that stand together on an earlier day, by their files

    @property
    def paths(self) -> tuple[str, ...]:
        """The files of the rigs."""
        return tuple(_path(case) for case in self.cases)

    @property
    def twos(self) -> Iterator[TwoLines]:
        """Every two of them that meet for the first time."""
        for one, other in combinations(self.cases, 2):
            if (_path(one), _path(other)) not in self.met:
                yield TwoLines(self, one, other)


@dataclass(frozen=True, slots=True)
class AnchorOfDay:
    """A structure and the rigs whose lines hang on it on one day."""

    company: Company
    cases: tuple[Case, ...]
    anchor: SharedAnchor

    @property
    def paths(self) -> tuple[str, ...]:
        """The files of the rigs."""
        return tuple(_path(case) for case in self.cases)

    @property
    def when(self) -> str:
        """On which day, and which of the rigs name none, in words."""
        undated = [case.rig.title for case in self.cases if case.plan is None or case.plan.first_day is None]
        day = "" if self.company.day is None else f" on {self.company.day}"
        return day + (f" ({listed(undated)}: no day named, so it counts for every day)" if undated else "")

    def in_words(self, whole: Together) -> str:
        """Return which lines make a sum and how, such as `a 5.2 kN and b 4 kN. We add them as vectors`."""
        pulls = listed(f"{one.name} {in_kn(one.tension_n)} {when(one.state)}" for one in whole.members)
        how = (
            "We add them as vectors"
            if whole.as_vectors
            else "The spot gives no plan, so we add them as if all pulled one way"
        )
        return f"{pulls}. {how}"

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
    def cases(self) -> tuple[Case, Case]:
        """The two."""
        return self.one, self.other

    @property
    def paths(self) -> tuple[str, str]:
        """The files of the two."""
        return _path(self.one), _path(self.other)


def companies(cases: Iterable[Case], today: date, day: date | Sequence[date] | None = None) -> list[Company]:
    """Return the rigs that stand together, spot by spot; on one day or some days only where they are named.

    A spot is one by its file, or by its title where rigs hold it themselves.
    """
    by_spot: dict[object, list[Case]] = {}
    for case in cases:
        place = case.fact(facts.place_of_spot)
        if place is not None:
            by_spot.setdefault(case.fact(facts.title_of_spot) or place, []).append(case)
    days = None if day is None or day == () else [day] if isinstance(day, date) else sorted(set(day))
    found = [one for here in by_spot.values() for one in _at_one_spot(here, today, days)]
    return list(_who_met_before(found))


def _who_met_before(found: list[Company]) -> Iterator[Company]:
    """Yield each company with those of its twos that an earlier one has as well."""
    before: dict[Case, list[int]] = {}
    for n, company in enumerate(found):
        earlier = {one for case in company.cases for one in before.get(case, ())}
        pairs = [pair for one in earlier for pair in combinations(found[one].cases, 2)]
        here = set(company.cases)
        met = frozenset((_path(a), _path(b)) for a, b in pairs if a in here and b in here)
        yield replace(company, met=met) if met else company
        for case in company.cases:
            before.setdefault(case, []).append(n)


def _path(case: Case) -> str:
    return case.fact(facts.planned).path


def _at_one_spot(cases: list[Case], today: date, named: list[date] | None) -> list[Company]:
    alike: dict[object, list[Case]] = {}
    for case in cases:
        alike.setdefault(case.fact(facts.line), []).append(case)
    told = {line: _as_it_stands(same) for line, same in alike.items()}
    distinct = [case for case in cases if not _told_by(told[case.fact(facts.line)], case)]
    up = [(case, days) for case in distinct if (days := facts.when_up(case, today)) is not None]
    if named is not None:
        there = [(_one_version_each([case for case, days in up if days.on(day)]), day) for day in named]
        return [Company(here, day) for here, day in there if here]
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
        _, title, stage = case.fact(facts.planned)
        name = (title, case.fact(facts.line).ends) if stage == "planned" and title else case
        if name not in hardest or case.fact(facts.pull_n) > hardest[name].fact(facts.pull_n):
            hardest[name] = case
    return tuple(hardest.values())


def _as_it_stands(alike: Sequence[Case]) -> Case | None:
    """Return which file tells of a line as it stands, of those with the same webbing between the same anchors.

    Of several the later stage counts, and of two alike the first.
    """
    standing = [case for case in alike if case.fact(facts.planned).stage not in {"planned", "lowered"}]

    def order(case: Case) -> tuple[int, str]:
        path, _, stage = case.fact(facts.planned)
        return -("built", "walking").index(stage), path

    return min(standing, key=order, default=None)


def _told_by(stands: Case | None, one: Case) -> bool:
    """Return whether the file that tells of a line as it stands does so in place of another."""
    return stands is not None and stands is not one and one.fact(facts.planned).stage != "lowered"


def anchors_of_days(found: list[Company]) -> list[AnchorOfDay]:
    """Return every structure on which more than one line, or a line and a guy, pull on one day."""
    anchors: list[AnchorOfDay] = []
    for company in found:
        held: dict[str, list[Case]] = {}
        for case in company.cases:
            for name in case.fact(facts.structures):
                held.setdefault(name, []).append(case)
        anchors += [one for name, cases in held.items() if (one := _shared(company, name, cases)) is not None]
    return anchors


def _shared(company: Company, name: str, cases: list[Case]) -> AnchorOfDay | None:
    guys = cases[0].fact(facts.guys).get(name)
    if guys is None or len(cases) + guys < 2:  # noqa: PLR2004 - one line alone is its own rig's matter
        return None
    spot = cases[0].spot
    structure = spot.anchors.get(name) if spot else None
    if structure is None:
        return None
    return AnchorOfDay(company, tuple(cases), SharedAnchor(name, structure, [case.loads for case in cases]))


def twos(found: list[Company]) -> list[TwoLines]:
    """Return every two rigs that stand at one spot on one day, each two once."""
    return [two for company in found for two in company.twos]


def in_each_file(day: AnchorOfDay, fault: Fault, fine_alone: Callable[[Case], bool]) -> Iterator[Fault]:
    """Yield a fault of the day, once for the spot and once in the file of each line that is fine by itself."""
    yield replace(fault, rigs=day.paths)
    for case in day.cases:
        if not fine_alone(case):
            continue  # its own rule speaks there
        end = next(one for one in case.loads.ends() if one.name == day.anchor.name and one.carries)
        yield replace(fault, at=case.on_part(end.anchor), rigs=(case.file.document.path,))
