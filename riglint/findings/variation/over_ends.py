"""What an assumed value does to findings: what holds at each of its ends is a fault, what holds at some is open.

The gravest word of any end stands, so a value that is left out is never quieter than the worst that it can be.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import replace

from riglint.findings.finding import AssumedValue, Finding
from riglint.findings.telling import where
from riglint.loads.assumed.ends import Chosen
from riglint.loads.inputs import At
from riglint.model.compact.assumption import Assumption
from riglint.model.library import RigFile
from riglint.records import dataclass
from riglint.rulekit import Signal

Name = tuple[str, str, str, str | None]


@dataclass(frozen=True, slots=True)
class _Judgement:
    """What is found with each assumed value at one of its ends."""

    chosen: Chosen
    by_name: dict[Name, list[Finding]]


def over_ends(
    rig: RigFile,
    findings: list[Finding],
    others: Sequence[tuple[Chosen, list[Finding]]],
    explaining: frozenset[str],
) -> tuple[list[Finding], tuple[AssumedValue, ...]]:
    """Return the findings of a rig over all ends of what is assumed of it, and what that is.

    Args:
        rig: the rig, with its assumed values.
        findings: with each value at its first end.
        others: with other choices of ends.
        explaining: rules whose faults tell why nothing else could be judged.
    """
    assumed = rig.assumed
    judged = [_Judgement((0,) * len(assumed), _by_name(findings))]
    judged += [_Judgement(chosen, _by_name(found)) for chosen, found in others]
    decides: dict[str, set[str]] = defaultdict(set)
    found: list[Finding] = []
    for name in dict.fromkeys(name for one in judged for name in one.by_name):
        for one in _together(name, judged, assumed, rig, decides):
            # What nobody can compute at an end may be anything between the ends.
            nothing_said = one.kind == "open" and one.rule in explaining
            found.append(replace(one, signal=Signal.DANGER) if nothing_said and others else one)
    told = tuple(
        AssumedValue(
            one.name,
            one.value,
            one.why,
            one.look_up,
            one.source,
            where(_at(rig, one)),
            tuple(sorted(decides[one.name])),
        )
        for one in assumed
    )
    return found, told


def _by_name(findings: list[Finding]) -> dict[Name, list[Finding]]:
    found: dict[Name, list[Finding]] = defaultdict(list)
    for one in findings:
        found[one.rule, one.at.path, one.at.key, one.at.part].append(one)
    return dict(found)


def _together(
    name: Name,
    judged: list[_Judgement],
    assumed: tuple[Assumption, ...],
    rig: RigFile,
    decides: dict[str, set[str]],
) -> Iterator[Finding]:
    """Yield what one rule says of one place over all ends."""
    each = [one.by_name.get(name, []) for one in judged]
    worst = max(each, key=_gravity)
    if len({_verdict(one) for one in each}) == 1:
        yield from worst
        return
    deciding = [assumed[n] for n in _deciding(name, judged)] or list(assumed)
    for value in deciding:
        decides[value.name].add(name[0])
    for one in worst:
        yield one if one.kind == "open" or one.crashed else _open(one, deciding, rig)


def _verdict(findings: list[Finding]) -> tuple[tuple[str, Signal], ...]:
    """Return what decides: kinds and words, without the numbers."""
    return tuple(sorted((one.kind, one.signal) for one in findings))


def _gravity(findings: list[Finding]) -> tuple[int, int, float]:
    """Return how grave some findings are: the word first, then how many, then how far beside the limit."""
    return (
        max((one.signal for one in findings), default=0),
        len(findings),
        max((_beside(one) for one in findings), default=0.0),
    )


def _beside(one: Finding) -> float:
    if isinstance(one.value, int | float) and isinstance(one.limit, int | float):
        return abs(float(one.value) - float(one.limit))
    return 0.0


def _deciding(name: Name, judged: list[_Judgement]) -> list[int]:
    """Return the numbers of the assumptions that, moved alone, change what a rule says of a place."""
    found: set[int] = set()
    for n, one in enumerate(judged):
        for other in judged[:n]:
            apart = [m for m, (a, b) in enumerate(zip(one.chosen, other.chosen, strict=True)) if a != b]
            said = [_verdict(each.by_name.get(name, [])) for each in (one, other)]
            if len(apart) == 1 and said[0] != said[1]:
                found.add(apart[0])
    return sorted(found)


def _open(one: Finding, deciding: list[Assumption], rig: RigFile) -> Finding:
    """Return a finding as a question: it holds at some ends of what is assumed, and not at others."""
    names = _listed([f"the {each.name} ({each.value})" for each in deciding])
    more = f"It depends on {names}, which {'is' if len(deciding) == 1 else 'are'} only assumed."
    keys = _listed(list(dict.fromkeys(_key(rig, each) for each in deciding)))
    ask = _listed([each.look_up for each in deciding])
    return replace(
        one,
        kind="open",
        message=f"{one.message} {more}",
        do=f"{ask[0].upper()}{ask[1:]}, and write {keys}. If it then still counts: {one.do}",
        rules=(one.rule,),
        remedies=(),
        advice=False,
    )


def _listed(phrases: list[str]) -> str:
    return " and ".join((", ".join(phrases[:-1]), phrases[-1])) if len(phrases) > 1 else phrases[0]


def _key(rig: RigFile, one: Assumption) -> str:
    return _at(rig, one).key_text


def _at(rig: RigFile, one: Assumption) -> At:
    """Return where a value that is assumed belongs."""
    key = one.keys[0]
    if one.inside == "rig":
        return At(rig.document, key)
    item = rig.items[one.gear]
    return At(item.document, (*item.key, *key))
