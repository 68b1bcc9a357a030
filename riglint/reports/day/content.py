"""One day at a spot in tables: the lines, the sums at shared anchors, the order of rigging, the gear to pack."""

from __future__ import annotations

from riglint.loads.inputs import known
from riglint.loads.path.used import used_items
from riglint.model.values.sources import Source
from riglint.reports.sheet.content import Block, Column, Note, Section, Table, Worked, fixed, kn
from riglint.rulekit.case import Case
from riglint.rulekit.together import AnchorOfDay, Company, anchors_of_days

LINES = (
    Column("line"),
    Column("anchors"),
    Column("standing", "kN"),
    Column("wind", "km/h", "let down above"),
)
SUMS = (
    Column("anchor"),
    Column("lines"),
    Column("all worst", "kN", "all lines at their worst"),
    Column("worst of any", "kN", "worst of any of them"),
    Column("added"),
)
ONE = (Column("at its worst, all others at rest"), Column("anchor"), Column("sum", "kN"))
VECTORS = Source("statics: resultant of concurrent pulls in plan", "own")


def day_section(company: Company) -> Section:
    """Return what a day at one spot says, for the page of the day."""
    spot = company.cases[0].spot
    name = (spot.title if spot else None) or "the spot"
    shared = anchors_of_days([company])
    blocks: list[Block] = [Table(LINES, tuple(_line(case) for case in company.cases), "")]
    for day in shared:
        blocks += known(lambda day=day: _sums(day)) or [  # type: ignore[misc]
            Note(day.anchor.name, "cannot be added up: a value is missing, see the findings")
        ]
    blocks += [_order(company), *_wind(company), *_packing(company), *_checks(shared)]
    day_words = f" on {company.day}" if company.day else ""
    return Section(f"{name}{day_words}: {len(company.cases)} lines", tuple(blocks))


def _line(case: Case) -> tuple[str, ...]:
    ends = " to ".join(one.part.at or one.id for one in case.path.anchors)
    wind = case.plan.wind if case.plan else None
    standing = known(lambda: case.loads.planned_tension_n)
    return case.rig.title, ends, kn(standing), fixed(wind.si * 3.6, 0) if wind else "–"


def _sums(day: AnchorOfDay) -> list[Block]:
    """Return the sums at one anchor, with the formula and its numbers."""
    anchor, worst = day.anchor, day.anchor.force()
    how = "as vectors" if worst.as_vectors else "by magnitude: no plan"
    names = ", ".join(one.name for one in anchor.pulls)
    row = (anchor.name, names, kn(anchor.all_at_once_n()), kn(worst.size), how)
    put_in = " + ".join(kn(one.tension_n) for one in worst.members)
    formula = "|Σ T·e|, e along each line in plan" if worst.as_vectors else "Σ T"
    worked = Worked(
        f"'{anchor.name}'",
        f"worst of any lines, {how}",
        "F",
        formula,
        f"|{put_in}|" if worst.as_vectors else put_in,
        worst.size / 1e3,
        "kN",
        VECTORS,
    )
    rest = tuple((one.name, anchor.name, kn(size)) for one, size in anchor.one_at_its_worst())
    return [Table(SUMS, (row,), ""), worked, Table(ONE, rest, "")]


def _order(company: Company) -> Note:
    """Return an order of work: what pulls least first, so that anchors are seen under little before they bear much."""
    known_pulls = [(known(lambda case=case: case.loads.planned_tension_n), case) for case in company.cases]  # type: ignore[misc]
    ordered = sorted(known_pulls, key=lambda one: (one[0] is None, one[0] or 0.0))
    steps = [
        f"{n}. {case.rig.title}" + (f" (crew of {crew})" if (crew := _crew(case)) else "")
        for n, (_, case) in enumerate(ordered, 1)
    ]
    return Note("rig in this order", "; ".join(steps) + ". Let down in the reverse order.")


def _crew(case: Case) -> int | None:
    return case.plan.crew.haulers if case.plan and case.plan.crew else None


def _wind(company: Company) -> list[Block]:
    speeds = [
        (case.plan.wind.si * 3.6, case.rig.title) for case in company.cases if case.plan and case.plan.wind
    ]
    return [
        Note("wind", f"above {speed:.0f} km/h: everybody off '{title}', and let it down")
        for speed, title in sorted(speeds)
    ]


def _packing(company: Company) -> list[Block]:
    """Return one list of gear for all rigs; what two of them name is told."""
    owners: dict[tuple[str, str], list[str]] = {}  # by file and name: two files may use one name
    kinds: dict[tuple[str, str], str] = {}
    for case in company.cases:
        for item in used_items(case.loads):
            piece = item.document.path, item.id
            owners.setdefault(piece, []).append(case.rig.title)
            kinds[piece] = item.gear.kind.replace("_", " ")
    rows = tuple((kinds[one], one[1], one[0], ", ".join(rigs)) for one, rigs in sorted(owners.items()))
    columns = (Column("pack"), Column("piece"), Column("gear list"), Column("for"))
    return [Table(columns, rows, "")] if rows else []


def _checks(shared: list[AnchorOfDay]) -> list[Block]:
    return [
        Note(
            f"check '{day.anchor.name}'",
            f"every line on it today is on this page ({len(day.cases)}); look at roots, rock and bolts with the first "
            "line up, and again after each other one",
        )
        for day in shared
    ]
