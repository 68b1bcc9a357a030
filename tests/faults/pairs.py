"""Pairs of seeded faults in one rig, and what of each is no longer said beside the other."""

import re
from functools import cache
from itertools import combinations
from random import Random

from riglint.findings import Finding
from tests.faults.seeded import (
    BEFORE,
    HERE,
    PAIRS,
    Expected,
    Seeded,
    Told,
    own_rigs,
    read,
    seeded,
    text_of,
    told,
)

SEED = 20260502
# A part that is taken out or put in moves the places behind it, so its fault is not paired.
MOVES_PARTS = re.compile(rf"{BEFORE}|.*\]$")


def pairs() -> list[tuple[Seeded, Seeded]]:
    """All pairs of faults that touch different keys of one rig."""
    alone = [one for one in seeded() if not _unpaired(one)]
    return [
        (one, other) for one, other in combinations(alone, 2) if one.rig == other.rig and _apart(one, other)
    ]


def sampled(most: int) -> list[tuple[Seeded, Seeded]]:
    """So many of the pairs, always the same ones."""
    every = pairs()
    return Random(SEED).sample(every, min(most, len(every)))  # noqa: S311 - drawn for tests, not for secrets


def told_of(pair: tuple[Seeded, Seeded]) -> Told:
    """What the whole rulebook says of a rig with both faults."""
    one, other = pair
    return told(text_of(one.rig, one.patch, other.patch), (*one.recalled, *other.recalled))


def silenced(pair: tuple[Seeded, Seeded]) -> list[tuple[str, Expected]]:
    """What each of the faults is told by alone and not beside the other: rule and place; the word may rise.

    A rule that has become an open question is not silent, and neither is one of those that a rig's broken chain
    keeps from judging: the report counts them as not judged.
    """
    both = told_of(pair)
    waiting = {rule for one in both.findings if one.kind == "open" for rule in (one.rule, *one.rules)}
    return [
        (fault.name, one)
        for fault in pair
        for one in fault.expect
        if not both.not_judged
        and one.rule not in waiting
        and not any(_says(one, each) for each in both.findings)
    ]


def _says(one: Expected, finding: Finding) -> bool:
    named = one.rule in {finding.rule, *finding.rules}
    return named and one.at == finding.at.key and one.kind == finding.kind


def _unpaired(fault: Seeded) -> bool:
    moved = any(
        (MOVES_PARTS.fullmatch(key) and value is None) or key.startswith(BEFORE)
        for key, value in fault.patch.items()
    )
    return moved or bool(fault.beside) or "beside" in own_rigs().get(fault.rig, {})


def _apart(one: Seeded, other: Seeded) -> bool:
    return not any(_within(a, b) or _within(b, a) for a in one.patch for b in other.patch)


def _within(key: str, above: str) -> bool:
    return key == above or key.startswith((f"{above}.", f"{above}["))


@cache
def declared() -> frozenset[tuple[str, str]]:
    """Faults that another one takes away or covers, as name and name; the file gives a reason for each."""
    entries = read(HERE / f"{PAIRS}.yaml")["covered"]
    return frozenset((entry["fault"], by) for entry in entries for by in entry["by"])
