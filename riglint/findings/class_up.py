"""Says of a fault that it is one, or so grave, only because what is not known raised the consequence class."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from riglint.findings.finding import Finding, Where
from riglint.loads import Loads
from riglint.rulekit import Signal


def say_class_up(
    findings: list[Finding],
    loads: Loads,
    told: Callable[[Loads], list[Finding]],
    but: frozenset[str] = frozenset(),
) -> list[Finding]:
    """Return findings, those that the class that is known does not bear out with a sentence more.

    Args:
        findings: of the rig.
        loads: of the rig.
        told: runs the rules over other loads of it.
        but: rules that need none, since they tell themselves what is not known.
    """
    consequence = loads.consequence
    if consequence.unknown is None:
        return findings
    known = _faults(told(loads.at_the_class_that_is_known()))
    more = f" Judged one class up, as {consequence.word}, since {consequence.unknown}."
    return [
        replace(one, message=one.message + more) if _is_raised(one, known) and one.rule not in but else one
        for one in findings
    ]


def _is_raised(one: Finding, known: dict[tuple[str, Where], Signal]) -> bool:
    return one.kind == "fail" and not one.crashed and one.signal > known.get((one.rule, one.at), 0)


def _faults(findings: list[Finding]) -> dict[tuple[str, Where], Signal]:
    """Return the gravest word of each rule at each place."""
    found: dict[tuple[str, Where], Signal] = {}
    for one in findings:
        if one.kind == "fail":
            found[one.rule, one.at] = max(one.signal, found.get((one.rule, one.at), one.signal))
    return found
