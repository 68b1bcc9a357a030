"""Whole sets of pieces for a rig: the lightest and the strongest that pass every rule together."""

from __future__ import annotations

from collections.abc import Iterator

from riglint.findings.finding import Finding
from riglint.findings.variation.places import with_piece
from riglint.findings.variation.trying import Candidate, Choice, Trials, WholeSet, worse_than
from riglint.model.documents.rig import Rig

MOST_MENDED = 20  # times a whole set is tried again with a stronger piece


def whole_sets(
    judging: Trials, rig: Rig, choices: tuple[Choice, ...], apart: list[Finding]
) -> Iterator[WholeSet]:
    """Yield the lightest and the strongest set of pieces that passes together."""
    ways = (
        ("lightest", lambda one: (one.mass_kg is None, one.mass_kg or 0.0, one.strength_n or 0.0)),
        ("strongest", lambda one: (-(one.strength_n or 0.0),)),
    )
    for words, order in ways:
        options = [
            sorted((one for one in each.tried if one.does and one.free), key=order) for each in choices
        ]
        yield _mended(judging, rig, choices, options, words=words, apart=apart)


def _mended(
    judging: Trials,
    rig: Rig,
    choices: tuple[Choice, ...],
    options: list[list[Candidate]],
    *,
    words: str,
    apart: list[Finding],
) -> WholeSet:
    """Return a set that passes: where one piece doesn't, together with the others, the next in line is tried."""
    without = next((each for each, one in zip(choices, options, strict=True) if not one), None)
    if without is not None:
        nearest = without.tried[0].against if without.tried else ()
        return WholeSet(words, None, nearest)
    at = [0] * len(options)
    against: list[Finding] = []
    for _ in range(MOST_MENDED):
        names = _each_once([one[n:] for one, n in zip(options, at, strict=True)])
        if names is None:
            break
        changed = rig
        for each, name in zip(choices, names, strict=True):
            changed = with_piece(changed, each.place, name)
        _, found = judging.judged(changed)
        against = worse_than(found, apart, judging.stop_at)
        if not against:
            perhaps = {
                name: line for each in choices for one in each.tried for name, line in one.perhaps.items()
            }
            return WholeSet(
                words,
                tuple((each.words, name) for each, name in zip(choices, names, strict=True)),
                perhaps={name: perhaps[name] for name in names if name in perhaps},
            )
        worse = [
            n
            for n, each in enumerate(choices)
            if at[n] + 1 < len(options[n]) and any(one.at.part == each.place.part for one in against)
        ]
        if not worse:
            break
        for n in worse:
            at[n] += 1
    return WholeSet(words, None, tuple(against))


def _each_once(options: list[list[Candidate]]) -> list[str] | None:
    """Return one name for each place, none twice; None where the pieces run out."""
    used: set[str] = set()
    found = []
    for places in options:
        left = [(one in each.perhaps, one) for each in places for one in each.free if one not in used]
        name = next((one for _, one in sorted(left, key=lambda pair: pair[0])), None)
        if name is None:
            return None
        used.add(name)
        found.append(name)
    return found
