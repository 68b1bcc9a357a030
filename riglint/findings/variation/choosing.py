"""Which pieces of a gear list would do in each place of a rig: every one of them judged there by all rules.

Nothing is computed here: a piece is put in its place, the rulebook judges the whole rig, and what it says more than of
nothing in particular decides. Pieces that are alike are judged once. The number of rigs judged has a bound.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from datetime import date

from riglint.findings.finding import Finding
from riglint.findings.variation.least_piece import MOST_SOUGHT, LookFor, is_of, look_for
from riglint.findings.variation.places import GearPlace, places_of, with_piece
from riglint.findings.variation.trying import (
    Candidate,
    Choice,
    Trials,
    WholeSet,
    against_piece,
    concerns,
)
from riglint.findings.variation.whole_sets import MOST_MENDED, whole_sets
from riglint.loads import Loads
from riglint.loads.day.days_up import days_up
from riglint.loads.inputs import known
from riglint.model.documents.gear import Gear
from riglint.model.library import RigFile
from riglint.policy import InForce
from riglint.records import dataclass
from riglint.rulebook import Rulebook
from riglint.rulekit import Signal

MOST_JUDGED = 300  # rigs; more on a list of many kinds takes minutes
OWN_WORDS = {"title", "note", "serial"}  # tell alike pieces apart and change no verdict


@dataclass(frozen=True, slots=True)
class Choosing:
    """What a gear list has for one rig."""

    title: str
    path: str
    on: date
    force: InForce
    seal: str
    choices: tuple[Choice, ...]
    sets: tuple[WholeSet, ...]
    judged: int
    apart: tuple[Finding, ...]  # what stands whatever pieces are chosen
    look_for: LookFor  # where a place is left without a piece that would do


def choose(
    loads: Loads,
    book: Rulebook,
    force: InForce,
    others: Iterable[RigFile] = (),
    *,
    stop_at: Signal = Signal.CAUTION,
    most: int = MOST_JUDGED,
) -> Choosing:
    """Return which pieces of its gear lists would do in each place of a rig.

    Args:
        loads: the rig.
        book: the rules.
        force: limits, words and values in force.
        others: other rigs of its library, whose gear may be taken on its days.
        stop_at: the lowest word that keeps a piece from its place; what passes a rule gives none.
        most: how many rigs may be judged.
    """
    rig = loads.path.rig
    judging = Trials(loads, book, force, stop_at)
    places = list(places_of(rig.rig))
    _, today = judging.judged(rig.rig)
    kept = {one.name for one in places}
    taken, perhaps = _taken(rig, others, loads.on)
    share = max((most - MOST_MENDED * 2 - min(MOST_SOUGHT, most // 3)) // max(len(places), 1), 1)
    tried: list[list[tuple[Candidate, list[Finding]]]] = []
    not_tried = []
    for place in places:
        alike = _alike(rig, place, kept)
        tried.append([_tried(judging, place, names, taken, perhaps) for names in alike[:share]])
        not_tried.append(sum(map(len, alike[share:])))
    choices = tuple(
        Choice(place, _words(loads, place), _sorted(place, found, _beside(today, place), stop_at), left)
        for place, found, left in zip(places, tried, not_tried, strict=True)
    )
    apart = today
    for place in places:
        apart = _beside(apart, place)
    sets = tuple(whole_sets(judging, rig.rig, choices, apart))
    short = _places_short(choices, sets, apart)
    looked_for = (
        look_for(judging, short, today, min(most - judging.count, MOST_SOUGHT)) if short else LookFor()
    )
    return Choosing(
        rig.rig.title,
        rig.document.path,
        loads.on,
        force,
        book.seal,
        choices,
        sets,
        judging.count,
        tuple(apart),
        looked_for,
    )


def _places_short(
    choices: tuple[Choice, ...], sets: tuple[WholeSet, ...], apart: list[Finding]
) -> list[Choice]:
    """Return the places where no piece would do, or something grave stands anyway; else where a set falls short."""
    grave = [one for one in apart if one.signal >= Signal.WARNING]
    found = [
        one
        for one in choices
        if any(is_of(each, one.place) for each in grave) or not any(each.does for each in one.tried)
    ]
    if found or any(one.names is not None for one in sets):
        return found
    against = [each for one in sets for each in one.against]
    return [one for one in choices if any(is_of(each, one.place) for each in against)]


def _beside(findings: list[Finding], place: GearPlace) -> list[Finding]:
    """Return what is said of anything but the piece in a place."""
    return [one for one in findings if not concerns(one, place, (place.name,))]


def _alike(rig: RigFile, place: GearPlace, kept: set[str]) -> list[tuple[str, ...]]:
    """Return the pieces that may stand in a place, those that are alike together; the one that is there first."""
    found: dict[str, list[str]] = {}
    for name, item in rig.items.items():
        if item.gear.kind in place.kinds and (name == place.name or name not in kept):
            found.setdefault(_as_judged(item.gear), []).append(name)
    return sorted(map(tuple, found.values()), key=lambda names: place.name not in names)


def _as_judged(gear: Gear) -> str:
    return repr(gear.model_dump(exclude=OWN_WORDS))


def _tried(
    judging: Trials,
    place: GearPlace,
    names: tuple[str, ...],
    taken: Mapping[str, str],
    perhaps: Mapping[str, str],
) -> tuple[Candidate, list[Finding]]:
    rig = judging.loads.path.rig
    free = next((name for name in names if name not in taken), names[0])
    loads, found = judging.judged(with_piece(rig.rig, place, free))
    parts = [one for one in known(lambda: loads.parts) or [] if one.id == place.part]
    states = known(lambda: loads.judged_by("peak")) or []
    worst = [load for one in parts if (load := known(lambda one=one: one.worst(states)))]  # type: ignore[misc]
    strengths = [load for one in parts if (load := known(lambda one=one: one.strength))]  # type: ignore[misc]
    gear = rig.items[free].gear
    candidate = Candidate(
        names,
        min((one.ratio for one in worst), default=None),
        min((one.strength_n for one in strengths), default=None),
        _mass_kg(gear),
        (),
        {name: taken[name] for name in names if name in taken},
        {name: perhaps[name] for name in names if name in perhaps},
    )
    return candidate, found


def _mass_kg(gear: Gear) -> float | None:
    if gear.mass is not None:
        return gear.mass.si
    if gear.mass_per_metre is None or gear.length is None:
        return None
    return gear.mass_per_metre.si * gear.length.si


def _sorted(
    place: GearPlace,
    tried: list[tuple[Candidate, list[Finding]]],
    beside: list[Finding],
    stop_at: Signal,
) -> tuple[Candidate, ...]:
    """Return what was tried in one place, best first, with what stands against each there."""
    judged = [
        replace(one, against=against_piece(place, found, beside, one.names, stop_at)) for one, found in tried
    ]
    return tuple(sorted(judged, key=lambda one: (not one.does, -(one.ratio or 0.0), one.names)))


def _words(loads: Loads, place: GearPlace) -> str:
    placed = next((one for one in loads.path.parts if one.id == place.part), None)
    inside = place.part.rpartition("].")[2] if "]." in place.part else ""
    told = loads.path.count_words(placed) if placed is not None else ""
    return told or (inside or place.part).replace("_", " ").replace(".", " ")


def _taken(rig: RigFile, others: Iterable[RigFile], on: date) -> tuple[dict[str, str], dict[str, str]]:
    """Return the pieces that other lines have on a day of this one, those that they may have, and which line.

    A line that doesn't say on which days it is up may have its gear on any.
    """
    mine = days_up(rig.rig, on)
    found: dict[str, str] = {}
    perhaps: dict[str, str] = {}
    for other in others:
        theirs = days_up(other.rig, on)
        if other.document.path == rig.document.path or mine is None or theirs is None:
            continue
        if mine.first > theirs.last or theirs.first > mine.last:
            continue
        here = found if mine.told and theirs.told else perhaps
        for place in places_of(other.rig):
            item, own = other.items.get(place.name), rig.items.get(place.name)
            if item and own and (item.document.path, item.id) == (own.document.path, own.id):
                here.setdefault(place.name, other.document.path)
    return found, {name: line for name, line in perhaps.items() if name not in found}
