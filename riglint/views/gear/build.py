"""Builds what the keeper of a gear list looks at."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from riglint.findings.library.gear_keeping import WholeLibrary
from riglint.policy import InForce
from riglint.rulebook import Rulebook
from riglint.rulekit import (
    FIBRES,
    Case,
    Due,
    Item,
    Shared,
    in_prose,
    is_textile,
    last_check,
    last_day,
    months_after,
)
from riglint.views.audit.settings_words import settings_in_words
from riglint.views.audit.words import CAUTION_TEXT
from riglint.views.gear.content import GearBook, Piece, Use

OUT = ("retired", "recalled")


def build_gear_book(
    whole: WholeLibrary,
    book: Rulebook,
    force: InForce,
    folder: str,
    *,
    piece: str | None = None,
    day: date | None = None,
) -> GearBook:
    """Return the gear of a library, of one name, or booked on one day.

    Args:
        whole: the library.
        book: the rules whose times between checks and whose ages count.
        force: those times and ages as a policy leaves them.
        folder: the library as it was named.
        piece: the name of the one piece to show.
        day: the day to show.
    """
    on = whole.library.on
    months, years = _limit("months after the last check", book, force), _limit("years of age", book, force)
    pieces = [_piece(one, on, months, years, force) for one in whole.library.gear]
    if piece is not None:
        pieces = [one for one in pieces if one.id == piece]
    undated = _undated(pieces, day) if day is not None else ()
    if day is not None:
        pieces = [shown for one in pieces for shown in _booked(one, day)]
    return GearBook(
        folder,
        on,
        tuple(pieces),
        piece,
        day,
        undated,
        whole.unread,
        CAUTION_TEXT,
        tuple(settings_in_words(force)),
    )


def _limit(due: Due, book: Rulebook, force: InForce) -> float:
    rule_id, limit = next((name, rule.limits[0]) for name, rule in book.rules.items() if rule.due == due)
    return force.limits.get(f"{rule_id}.{limit.name}", limit.si)


def _piece(shared: Shared, on: date, months: float, years: float, force: InForce) -> Piece:
    item = shared.item
    checked, made, ages = last_check(item, on), item.gear.made or item.gear.first_used, _ages(item)
    return Piece(
        item.id,
        item.document.path,
        in_prose(item.gear.kind),
        checked,
        months_after(checked, round(months)) if checked is not None else None,
        months_after(made, round(years * 12)) if ages and made is not None else None,
        ages,
        item.gear.kind != "protector",
        _out(item, force),
        tuple(_use(case, on) for case in shared.rigs),
    )


def _ages(item: Item) -> bool:
    """Return whether a piece has an age, as the rule on age sees it."""
    gear = item.gear
    metal = gear.kind == "puller" and gear.material not in FIBRES
    return gear.kind != "protector" and not metal and is_textile(item)


def _out(item: Item, force: InForce) -> str:
    if item.id in force.recalled:
        return "recalled"
    gone = [f"{one.what} on {one.date}" for one in item.gear.events if one.what in OUT]
    return gone[0] if gone else ""


def _use(case: Case, on: date) -> Use:
    """Return the days of a rig; what stands is up today, and at least until its last planned day."""
    first = case.plan.first_day if case.plan else None
    last, path, stage = last_day(case), case.file.document.path, case.rig.stage
    if stage in {"built", "walking"}:
        return Use(path, stage, min(first or on, on), max(last or on, on))
    known = case.plan is not None and case.plan.days_up is not None
    return Use(path, stage, first, last if known else None)


def _undated(pieces: list[Piece], day: date) -> tuple[str, ...]:
    return tuple(sorted({use.rig for one in pieces for use in one.uses if use.up_on(day) is None}))


def _booked(one: Piece, day: date) -> list[Piece]:
    uses = tuple(use for use in one.uses if use.up_on(day))
    return [replace(one, uses=uses)] if uses else []
