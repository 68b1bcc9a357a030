"""What a day at a spot needs on paper: the lines, the sums at shared anchors, the order of work, the gear to pack."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import permutations

from riglint.findings import Finding
from riglint.loads.inputs import known
from riglint.loads.path.used import used_items
from riglint.records import dataclass
from riglint.rulekit.case import Case
from riglint.rulekit.together import AnchorOfDay, Company, anchors_of_days
from riglint.views.figures import fixed, kn

VECTORS = "F = |Σ T·e|, e along each line in plan"
SIZES = "F = Σ T, since the spot has no plan of these lines"
MOST_TRIED = 5  # lines of which every order is tried
SOURCE = "statics: resultant of concurrent pulls in plan (own)"


@dataclass(frozen=True, slots=True)
class LineOfDay:
    """One line of the day."""

    title: str
    path: str
    ends: str
    standing: str  # kN
    wind: str  # km/h
    crew: str


@dataclass(frozen=True, slots=True)
class SumOfDay:
    """What several lines do to one anchor."""

    anchor: str
    lines: tuple[str, ...]
    worst: str  # kN, of any of them
    all_at_once: str  # kN
    working: str
    one_at_its_worst: tuple[tuple[str, str], ...]  # line, kN


@dataclass(frozen=True, slots=True)
class Day:
    """One day at one spot."""

    title: str
    lines: tuple[LineOfDay, ...]
    sums: tuple[SumOfDay, ...]
    order: tuple[str, ...]
    meanwhile: tuple[str, ...]  # who stays off which line while another is hauled
    wind: tuple[str, ...]
    anchors: tuple[str, ...]  # what to look at
    packing: tuple[tuple[str, str], ...]  # kind and number, pieces
    not_added: tuple[str, ...]  # anchors whose sum waits for a value
    faults: tuple[Finding, ...]


def day_of(company: Company, findings: Iterable[Finding]) -> Day:
    """Return what a day at one spot says, with what the rules of the day found."""
    cases = company.cases
    spot = cases[0].spot
    name = (spot.title if spot else None) or "The spot"
    shared = anchors_of_days([company])
    sums = [(day, known(lambda day=day: _sum(day))) for day in shared]  # type: ignore[misc]
    of_day = [one for one in findings if one.rule.startswith("day/")]
    return Day(
        f"{name} on {company.day}: {len(cases)} lines" if company.day else f"{name}: {len(cases)} lines",
        tuple(_line(case) for case in cases),
        tuple(one for _, one in sums if one is not None),
        tuple(order_of_work(cases, shared)),
        tuple(dict.fromkeys(f"{one.message} {one.do}" for one in of_day if one.kind == "review")),
        tuple(_wind(cases)),
        tuple(_anchors(cases)),
        tuple(_packing(cases)),
        tuple(day.anchor.name for day, one in sums if one is None),
        _once([one for one in of_day if one.kind != "review"]),
    )


def _once(found: list[Finding]) -> tuple[Finding, ...]:
    """Return each thing that is said once, the gravest first; one fault may stand in the file of every line."""
    by_words = {one.message: one for one in found}
    return tuple(sorted(by_words.values(), key=lambda one: -one.signal))


def _line(case: Case) -> LineOfDay:
    plan = case.plan
    wind = plan.wind if plan else None
    crew = plan.crew.haulers if plan and plan.crew else None
    return LineOfDay(
        case.rig.title,
        case.file.document.path,
        " to ".join(one.part.at or one.id for one in case.path.anchors),
        kn(known(lambda: case.loads.standing_tension_n)),
        fixed(wind.si * 3.6, 0) if wind else "–",
        "–" if crew is None else str(crew),
    )


def _sum(day: AnchorOfDay) -> SumOfDay:
    """Return the sums at one anchor; errors as `SharedAnchor.pulls`."""
    anchor, worst = day.anchor, day.anchor.force()
    put_in = " + ".join(kn(one.tension_n) for one in worst.members)
    formula, parts = (VECTORS, f"|{put_in}|") if worst.as_vectors else (SIZES, put_in)
    return SumOfDay(
        anchor.name,
        tuple(one.name for one in anchor.pulls),
        kn(worst.size),
        kn(anchor.all_at_once_n()),
        f"{formula} = {parts} = {kn(worst.size)} kN",
        tuple((one.name, kn(size)) for one, size in anchor.one_at_its_worst()),
    )


def order_of_work(cases: Iterable[Case], shared: list[AnchorOfDay]) -> list[str]:
    """Return the order of rigging that asks least of the shared anchors, and what each of them then bears at rest."""
    steps: list[str] = []
    up: tuple[str, ...] = ()
    for case in _least_on_the_way(list(cases), shared):
        up = (*up, case.rig.title)
        here = [day for day in shared if any(case is one for one in day.cases)]
        borne = [(day.anchor.name, _borne_n(day, up)) for day in here]
        told = [f"'{name}' then bears {kn(force)} kN at rest" for name, force in borne if force is not None]
        steps.append(case.rig.title + (f": {', '.join(told)}" if told else ""))
    return steps


def _borne_n(day: AnchorOfDay, up: tuple[str, ...]) -> float | None:
    return known(lambda: day.anchor.at_rest_n(up))


def _least_on_the_way(cases: list[Case], shared: list[AnchorOfDay]) -> list[Case]:
    """Return the lines in the order in which no shared anchor bears more at any step than it must.

    Of orders alike in that, what pulls least comes first. A day of many lines is ordered step by step, since there are
    too many orders to try.
    """
    first = sorted(cases, key=_pull)
    if len(first) <= MOST_TRIED and shared:
        return list(min(permutations(first), key=lambda order: _most_n(tuple(order), shared)))
    done: list[Case] = []
    while first:
        following = min(first, key=lambda case: _most_n((*done, case), shared))
        done.append(following)
        first.remove(following)
    return done


def _pull(case: Case) -> tuple[bool, int]:
    standing_n = known(lambda: case.loads.standing_tension_n)
    return standing_n is None, round(standing_n or 0.0)


def _most_n(order: Sequence[Case], shared: list[AnchorOfDay]) -> float:
    """Return the most that any shared anchor bears at rest while lines are rigged in an order."""
    titles = tuple(case.rig.title for case in order)
    borne = [_borne_n(day, titles[: n + 1]) for n in range(len(titles)) for day in shared]
    return max((round(one) for one in borne if one is not None), default=0.0)


def _wind(cases: Iterable[Case]) -> list[str]:
    """Return at which wind which lines come down, the lowest speed first."""
    by_speed: dict[float, list[str]] = {}
    for case in cases:
        if case.plan is not None and case.plan.wind is not None:
            by_speed.setdefault(case.plan.wind.si * 3.6, []).append(case.rig.title)
    return [
        f"Above {speed:.0f} km/h: everybody off {_named(titles)}, and let down."
        for speed, titles in sorted(by_speed.items())
    ]


def _named(titles: list[str]) -> str:
    quoted = [f"'{one}'" for one in titles]
    return quoted[0] if len(quoted) == 1 else f"{', '.join(quoted[:-1])} and {quoted[-1]}"


def _anchors(cases: Iterable[Case]) -> list[str]:
    """Return the anchors with the lines on each, to look at before the first line and after each."""
    held: dict[str, list[str]] = {}
    for case in cases:
        for one in case.path.anchors:
            held.setdefault(one.part.at or one.id, []).append(case.rig.title)
    return [f"'{name}': {_named(titles)}" for name, titles in sorted(held.items())]


def _packing(cases: Iterable[Case]) -> list[tuple[str, str]]:
    """Return one list of gear for all rigs by kind; a piece that two of them name says for which."""
    owners: dict[tuple[str, str, str], list[str]] = {}  # by kind, file and name: two files may use one name
    for case in cases:
        for item in used_items(case.loads):
            piece = item.gear.kind.replace("_", " "), item.document.path, item.id
            owners.setdefault(piece, []).append(case.rig.title)
    by_kind: dict[str, list[str]] = {}
    for (kind, _, name), rigs in sorted(owners.items()):
        by_kind.setdefault(kind, []).append(f"{name} (for {_named(rigs)})" if len(rigs) > 1 else name)
    return [(f"{len(pieces)} × {kind}", ", ".join(pieces)) for kind, pieces in by_kind.items()]
