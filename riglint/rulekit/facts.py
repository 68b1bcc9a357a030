"""What is looked up of every rig of a library to find those that concern each other; of those, all is read.

Each is small, and the same however often it is asked for. A rig that was judged and let go remembers them, so that it
need not be computed again for a question that is none of its own.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from math import inf
from typing import Any, NamedTuple

from riglint.loads.day.days_up import DaysUp, days_up
from riglint.loads.inputs import known
from riglint.loads.path.used import used_items
from riglint.model.documents.rig import Plan
from riglint.model.vocabulary.words import Consequence
from riglint.rulekit.case import Case


class Using(NamedTuple):
    """A piece of gear that a rig uses: where it is written down, and what tells it from others of its kind."""

    path: str
    id: str
    kind: str
    serial: str | None


class LineKey(NamedTuple):
    """What tells one line from another: the anchors that its chain names, and its webbings."""

    ends: tuple[str | None, ...]
    webbings: tuple[tuple[str, str] | None, ...]


class LineTitle(NamedTuple):
    """Whose line it is, and how far the work has come."""

    path: str
    title: str
    stage: str


def consequence(case: Case) -> Consequence:
    """Return what a failure would mean."""
    return case.consequence


def planned(case: Case) -> LineTitle:
    """Return file, title and stage."""
    return LineTitle(case.file.document.path, case.rig.title, case.rig.stage)


def up(case: Case) -> DaysUp | None:
    """Return when the line is up, as seen from the day of the audit."""
    return days_up(case.rig, case.on)


def uses(case: Case) -> tuple[Using, ...]:
    """Return the gear that the chain, the leash and the backups name, each once, in order."""
    return tuple(
        Using(one.document.path, one.id, one.gear.kind, one.gear.serial) for one in used_items(case.loads)
    )


def title_of_spot(case: Case) -> str | None:
    """Return the title of the spot as titles are compared; None where it has none, or there is no spot."""
    title = case.spot.title if case.spot else None
    return " ".join(title.casefold().split()) if title else None


def place_of_spot(case: Case) -> tuple[object, ...] | None:
    """Return where the spot is written down; None where there is none."""
    return None if case.spot is None else (case.file.spot_document.path, case.file.spot_key)


def line(case: Case) -> LineKey:
    """Return what tells the line from others."""
    ends = tuple(part.at for part in case.rig.chain if part.part == "anchor")
    items = [one.item for one in case.path.webbings]
    return LineKey(ends, tuple(None if one is None else (one.document.path, one.id) for one in items))


def pull_n(case: Case) -> float:
    """Return the standing tension; one that is not known counts as greater than any."""
    tension_n = known(lambda: case.loads.standing_tension_n)
    return inf if tension_n is None else tension_n


def structures(case: Case) -> tuple[str, ...]:
    """Return the structures that a rig hangs on, backups and branches included; none where its chain is broken."""
    if not case.path.whole or any(one.is_line and not one.path.whole for one in case.loads.backups):
        return ()
    return tuple(dict.fromkeys(end.name for end in case.loads.ends() if end.carries))


def guys(case: Case) -> dict[str, int]:
    """Return how many guys pull on each anchor of the spot."""
    spot = case.spot
    return {name: sum(name in guy.between for guy in spot.guys) for name in spot.anchors} if spot else {}


def plan(case: Case) -> Plan | None:
    """Return what is planned for the day."""
    return case.rig.plan


def days_told(case: Case) -> bool:
    """Return whether the plan tells all that a rule asks for to know when the line is up."""
    planned_ = case.plan
    if planned_ is None or planned_.days_up is None:
        return False
    return planned_.first_day is not None or not case.before_use()


Fact = Callable[[Case], Any]
FACTS: tuple[Fact, ...] = (
    consequence,
    planned,
    plan,
    up,
    uses,
    title_of_spot,
    place_of_spot,
    line,
    pull_n,
    structures,
    guys,
    days_told,
)


def looked_up(case: Case) -> dict[Fact, Any]:
    """Return all facts of a rig; one that fails is left out, and fails again for whoever asks."""
    found: dict[Fact, Any] = {}
    for fact in FACTS:
        try:
            found[fact] = fact(case)
        except Exception:  # noqa: BLE001, S112 - it fails where it is told: in the rule that asks for it
            continue
    return found


def when_up(case: Case, today: date) -> DaysUp | None:
    """Return when the line is up, as seen from a day."""
    return case.fact(up) if today == case.on else days_up(case.rig, today)
