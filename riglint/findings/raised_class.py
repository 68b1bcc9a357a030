"""What holds only because something unknown raised the consequence class is no fault: it is an open question.

A fault that the known class gives too, with a milder word, keeps that word and says what it may be.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from riglint.findings.finding import Finding, Where
from riglint.loads import Loads

Place = tuple[str, Where]
MEANS = {"ground": "means a stumble", "fall": "means a fall", "life": "can cost a life"}


def report_raised_class(
    findings: list[Finding],
    loads: Loads,
    findings_of: Callable[[Loads], list[Finding]],
    but: frozenset[str] = frozenset(),
) -> list[Finding]:
    """Return findings, those that the class that is known does not bear out as open questions.

    Args:
        findings: of the rig.
        loads: of the rig.
        findings_of: runs the rules over other loads of it.
        but: rules that are left as they are, since they tell themselves what is not known.
    """
    if loads.consequence.unknown is None:
        return findings
    known = _faults(findings_of(loads.at_the_class_that_is_known()))
    return [
        one if one.rule in but or not _is_raised(one, known) else _at_the_known_class(one, loads, known)
        for one in findings
    ]


def _at_the_known_class(one: Finding, loads: Loads, known: dict[Place, Finding]) -> Finding:
    """Return a fault as the class that is known has it, with what the unknown may make of it."""
    consequence = loads.consequence
    milder = known.get((one.rule, one.at))
    if milder is not None:
        more = f" It may be {one.signal.name}. Nobody can tell how far a fall goes: {consequence.unknown}."
        return replace(milder, message=milder.message + more, rigs=one.rigs, part_words=one.part_words)
    more = f" It only counts if a failure {MEANS[consequence.word]}. Nobody can tell: {consequence.unknown}."
    return replace(
        one,
        kind="open",
        message=one.message + more,
        do=f"Fill in the missing value. If a failure then {MEANS[consequence.word]}: {one.do}",
        rules=(one.rule,),
        remedies=(),
    )


def _is_raised(one: Finding, known: dict[Place, Finding]) -> bool:
    milder = known.get((one.rule, one.at))
    return one.kind == "fail" and not one.crashed and (milder is None or one.signal > milder.signal)


def _faults(findings: list[Finding]) -> dict[Place, Finding]:
    """Return the gravest fault of each rule at each place."""
    found: dict[Place, Finding] = {}
    for one in findings:
        if one.kind == "fail" and one.signal > getattr(found.get((one.rule, one.at)), "signal", 0):
            found[one.rule, one.at] = one
    return found
