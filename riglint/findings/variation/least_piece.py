"""The least strength or length that pieces need, where the gear list has none that would do.

Nothing is computed here either. Pieces like today's, but stronger or longer, stand in all such places at once, since a
sewn loop is worth no more than its webbing, and the whole rulebook judges the rig. A CAUTION is no reason to look for
more: it says what is advised, not what is required. The search goes up by halves until the rig passes, then brings each
value down to one step. How many rigs it may judge has a bound.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import NamedTuple

from riglint.findings.finding import Finding
from riglint.findings.variation.places import GearPlace
from riglint.findings.variation.trying import Choice, Trials, concerns, worse_than
from riglint.model.changed import value_at, with_value
from riglint.model.documents.rig import Rig
from riglint.model.library import Item
from riglint.model.sentences import Key
from riglint.read.problems import key_text
from riglint.read.quantity import Quantity
from riglint.records import dataclass
from riglint.rulekit import Signal

MOST_SOUGHT = 100  # rigs judged to find what to look for
STEP_N, STEP_M = 500.0, 0.1
GROWTH, TIMES = 1.5, 6  # up to eleven times today's value
STOPS = Signal.WARNING
STRENGTHS = ("mbs", "wll")
STRENGTH, LENGTH = "strength", "length"


class LeastPiece(NamedTuple):
    """What to look for in one place: a piece like today's, with at least this strength and length."""

    words: str
    like: str  # the piece that stands there today
    key: str  # of the strength: `mbs` or `wll`
    strength_n: float | None  # None where today's is enough
    length_m: float | None


@dataclass(frozen=True, slots=True)
class LookFor:
    """What to look for in all places where nothing would do."""

    pieces: tuple[LeastPiece, ...] = ()
    judged: int = 0  # rigs that this took
    is_least: bool = True  # whether one step less of anything doesn't pass; else the bound was reached
    against: tuple[Finding, ...] = ()  # what stood against the pieces that came nearest, if none passed


@dataclass(frozen=True, slots=True, eq=False)
class _Amount:
    """One value of one piece that may grow, in steps."""

    choice: Choice
    name: str
    first: int  # the whole steps in today's value
    step: float


Amounts = dict[_Amount, int]  # each in steps


class _BoundReachedError(Exception):
    """No more rigs may be judged."""


@dataclass(slots=True)
class _Trying:
    """Judges a rig with pieces that have grown."""

    judging: Trials
    beside: list[Finding]
    last: int  # no more rigs are judged in all
    nearest: list[Finding] | None = None  # what stood against the rig that came nearest

    def passes(self, amounts: Amounts) -> bool:
        """Whether nothing more is said than of the rig without regard to these places."""
        if self.judging.count >= self.last:
            raise _BoundReachedError
        file = self.judging.loads.path.rig
        rig, items = file.rig, dict(file.items)
        for one, steps in amounts.items():
            place = one.choice.place
            rig, items[place.name] = _grown(rig, items[place.name], place.key, one.name, steps * one.step)
        _, said = self.judging.judged(rig, items)
        grave = [one for one in said if one.signal >= STOPS]
        places = {one.choice.place.key: one.choice.place for one in amounts}.values()
        worse = worse_than(grave, self.beside, STOPS)
        own = (one for one in grave if any(is_of(one, place) for place in places))
        against = list({id(one): one for one in (*worse, *own)}.values())
        if self.nearest is None or len(against) < len(self.nearest):
            self.nearest = against
        return not against


def is_of(finding: Finding, place: GearPlace) -> bool:
    """Whether a finding is about a place or the piece in it; how long a rope is laid belongs to its place."""
    laid = place.key[-1] == "gear" and f"{finding.at.key}.".startswith(f"{key_text(place.key[:-1])}.")
    return laid or finding.at.part == place.part or concerns(finding, place, (place.name,))


def look_for(
    judging: Trials, choices: list[Choice], today: list[Finding], most: int = MOST_SOUGHT
) -> LookFor:
    """Return what to look for in places where nothing would do; `today` is what is said of the rig as it is."""
    before = judging.count
    beside = [one for one in today if not any(is_of(one, choice.place) for choice in choices)]
    trying = _Trying(judging, beside, before + most)
    amounts = [one for choice in choices for one in _amounts(judging, choice)]
    by_name = [[one for one in amounts if one.name == name] for name in (STRENGTH, LENGTH)]
    groups = [group for group in (*by_name, amounts) if group]
    is_least, found = True, None
    try:
        found = next((large for group in groups if (large := _large_enough(trying, group)) is not None), None)
        for one in list(found or ()):
            _bring_down(trying, found or {}, one)
    except _BoundReachedError:
        is_least = False
    if found is None:
        return LookFor((), judging.count - before, is_least, tuple(trying.nearest or ()))
    return LookFor(tuple(_told(judging, found)), judging.count - before, is_least)


def _amounts(judging: Trials, choice: Choice) -> list[_Amount]:
    item = judging.loads.path.rig.items.get(choice.place.name)
    if item is None:
        return []
    key, length = _strength_key(item), item.gear.length
    found = [_Amount(choice, STRENGTH, int(getattr(item.gear, key).si / STEP_N), STEP_N)] if key else []
    return found + ([_Amount(choice, LENGTH, int(length.si / STEP_M), STEP_M)] if length is not None else [])


def _large_enough(trying: _Trying, group: list[_Amount]) -> Amounts | None:
    for times in range(1, TIMES + 1):
        found = {one: round((one.first + 1) * GROWTH**times) for one in group}
        if trying.passes(found):
            return found
    return None


def _bring_down(trying: _Trying, found: Amounts, one: _Amount) -> None:
    """Bring one value down to the least that passes beside the others; today's leaves it out."""
    if trying.passes({other: steps for other, steps in found.items() if other != one}):
        del found[one]
        return
    fails = one.first
    while found[one] - fails > 1:
        middle = (fails + found[one]) // 2
        if trying.passes(found | {one: middle}):
            found[one] = middle
        else:
            fails = middle


def _told(judging: Trials, found: Amounts) -> Iterable[LeastPiece]:
    for choice in {one.choice.place.key: one.choice for one in found}.values():
        values = {one.name: steps * one.step for one, steps in found.items() if one.choice is choice}
        key = _strength_key(judging.loads.path.rig.items[choice.place.name])
        yield LeastPiece(choice.words, choice.place.name, key, values.get(STRENGTH), values.get(LENGTH))


def _strength_key(item: Item) -> str:
    return next((one for one in STRENGTHS if getattr(item.gear, one) is not None), "")


def _grown(rig: Rig, item: Item, place: Key, name: str, value: float) -> tuple[Rig, Item]:
    """Return a rig and a piece with another strength or length; a rope's length in its place grows with it."""
    if name == STRENGTH:
        first = getattr(item.gear, _strength_key(item)).si
        pairs = [(one, getattr(item.gear, one)) for one in (*STRENGTHS, "mbs_minor")]
        update = {
            one: _quantity(old.si * value / first, 1000.0, "kN") for one, old in pairs if old is not None
        }
    else:
        update = {"length": _quantity(value, 1.0, "m")}
        laid = (*place[:-1], "length")
        if place[-2:] == ("rope", "gear") and value_at(rig, laid) is not None:
            rig = with_value(rig, laid, update["length"])
    return rig, replace(item, gear=item.gear.model_copy(update=update))


def _quantity(si: float, per: float, unit: str) -> Quantity:
    return Quantity(si, 0.0, f"{round(si / per, 2):g} {unit}")
