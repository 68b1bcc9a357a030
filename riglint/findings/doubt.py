"""What the ± of the inputs does to findings: a verdict that would flip inside it says so.

Every rule judges the rig again with each uncertain input at both of its ends. A fail that passes at one of them stays a
fail and says so; what passes as written and fails at an end becomes a review. Words that only change their grade, and
two inputs that flip a verdict only together, are not looked for.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from riglint.findings.finding import Finding, Where
from riglint.loads.uncertain import UncertainInput, combined, moved_ones
from riglint.model.library import RigFile
from riglint.model.sources import OWN
from riglint.rulekit import Signal

Name = tuple[str, str, str, str | None]
NOISE = 1e-7  # share of a value that root searches may leave
WHY = "A verdict that hangs on less than anybody measured is no verdict."


@dataclass(frozen=True, slots=True)
class Told:
    """What the rules said of a rig, and the rules that could not judge it."""

    findings: list[Finding]
    silent: frozenset[str]


@dataclass(frozen=True, slots=True)
class _End:
    """The same for a rig with one input at one end of its ±."""

    moved: UncertainInput
    sign: str
    fails: dict[Name, Finding]
    silent: frozenset[str]


def weigh(rig: RigFile, told: Told, judge_again: Callable[[UncertainInput, float], Told]) -> list[Finding]:
    """Return the findings of a rig with the uncertainty of its inputs weighed in; the same where it states none.

    Args:
        rig: the rig as written.
        told: what the rules say of it.
        judge_again: judges it with an input moved by so many of its ±.
    """
    inputs, left_out = moved_ones(rig)
    ends = []
    for one in inputs:
        for sign, by in (("−", -1.0), ("+", 1.0)):
            again = judge_again(one, by)
            ends.append(_End(one, sign, _fails(again.findings), again.silent))
    findings = [_weighed(one, ends) if _is_fail(one) else one for one in told.findings]
    return [*findings, *_appearing(told, ends), *_not_moved(rig, left_out)]


def _name(finding: Finding) -> Name:
    return finding.rule, finding.at.path, finding.at.key, finding.at.part


def _is_fail(finding: Finding) -> bool:
    return finding.kind == "fail" and not finding.crashed


def _fails(findings: list[Finding]) -> dict[Name, Finding]:
    return {_name(one): one for one in findings if _is_fail(one)}


def _weighed(finding: Finding, ends: list[_End]) -> Finding:
    """Give a fail the ± of its value, and say so where it would pass inside the ± of an input."""
    name = _name(finding)
    values = _effects(finding, ends, lambda one: _number(one.value))
    margins = _effects(finding, ends, _margin)
    passing = [one for one in ends if name not in one.fails and finding.rule not in one.silent]
    margin = _margin(finding)
    together = margin is not None and bool(margins) and abs(margin) <= combined(list(margins.values()))
    if passing or together:
        flipping = [one.moved for one in passing] or [one.moved for one in ends if one.moved.name in margins]
        most = max(flipping, key=lambda one: margins.get(one.name, 0.0))
        message = f"{finding.message} This lies within the uncertainty of the inputs, most of all of {_words(most)}."
        do = f"{finding.do} Or measure {most.at.key_text} more closely and audit again: until then it counts as wrong."
        finding = replace(finding, message=message, do=do)
    spread = combined(list(values.values()))
    return replace(finding, plus_minus=spread) if spread > 0.0 else finding


def _effects(finding: Finding, ends: list[_End], of: Callable[[Finding], float | None]) -> dict[str, float]:
    """Return how far each input moves a number of a finding, at the end that moves it further."""
    found: dict[str, float] = {}
    here = of(finding)
    for end in ends:
        there = end.fails.get(_name(finding))
        value = None if there is None or there.unit != finding.unit else of(there)
        if here is None or value is None or abs(value - here) <= NOISE * abs(here):
            continue
        found[end.moved.name] = max(abs(value - here), found.get(end.moved.name, 0.0))
    return found


def _number(value: float | str | None) -> float | None:
    return float(value) if isinstance(value, int | float) else None


def _margin(finding: Finding) -> float | None:
    value, limit = _number(finding.value), _number(finding.limit)
    return None if value is None or limit is None else value - limit


def _appearing(told: Told, ends: list[_End]) -> list[Finding]:
    """Return a review for each thing that passes as written and fails with an input at an end of its ±."""
    here = _fails(told.findings)
    found: dict[Name, tuple[float, _End]] = {}
    for end in ends:
        for name, fault in end.fails.items():
            if name in here:
                continue
            over = abs(_margin(fault) or 0.0)
            if name not in found or over > found[name][0]:
                found[name] = over, end
    return [_review(end, end.fails[name]) for name, (_, end) in found.items()]


def _review(end: _End, fault: Finding) -> Finding:
    text = f"This passes as written, but not at the {end.sign} end of {_words(end.moved)}: {fault.message}"
    do = f"Measure {end.moved.at.key_text} more closely and audit again, or act as if it were wrong: {fault.do}"
    return replace(fault, kind="review", signal=min(fault.signal, Signal.CAUTION), message=text, do=do)


def _not_moved(rig: RigFile, left_out: list[UncertainInput]) -> list[Finding]:
    """Say which ± was not weighed."""
    if not left_out:
        return []
    names = ", ".join(one.at.key_text for one in left_out[:3]) + (", …" if len(left_out) > 3 else "")  # noqa: PLR2004
    message = f"{len(left_out)} values with a ± are too many to weigh and are taken as exact: {names}."
    do = "Take the ± off where it hardly matters."
    at = Where(rig.document.path, 1, 1, "")
    return [Finding("file/uncertainty", Signal.NOTICE, "review", message, WHY, do, at, OWN)]


def _words(moved: UncertainInput) -> str:
    return f"{moved.at.key_text} ({moved.text})"
