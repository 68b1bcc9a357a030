"""The audit as JUnit XML, the shape that CI hosts read: one suite a file, one case a rule.

What counts for exit status 1 is a failure, an open question too; what could not run is an error. A case passes only
where its rule judged all that it looks at. Whatever was found below the stop word, waits, or is accepted, is `skipped`
with its reason: not a failure, and no pass either.
"""

from __future__ import annotations

from collections.abc import Iterator
from xml.etree.ElementTree import Element, SubElement, indent, tostring

from riglint.findings import Audit, FileResult, Finding
from riglint.findings.let_go.scratch import Pages
from riglint.read.problems import command_escaped, visible
from riglint.records import dataclass
from riglint.rulekit import Signal
from riglint.views.audit.files_seen import files_in_words
from riglint.views.audit.words import CAUTION_TEXT, NOT_WHOLE, Touching, closing, touching, unfit

READ = "file/readable"
TITLE = "title"


@dataclass(frozen=True, slots=True)
class _Said:
    """One thing that a case says; without any it has passed."""

    verdict: str  # failure, error, skipped
    kind: str
    message: str
    text: str


def audit_junit(audit: Audit, stop_at: Signal) -> Iterator[str]:
    """Yield the report of an audit, suite by suite.

    Args:
        audit: what was found.
        stop_at: least signal word that is a failure.
    """
    told, sums = Pages(), dict.fromkeys(("tests", "failures", "errors"), 0)
    for suite in _suites(audit, stop_at):
        for name in sums:
            sums[name] += int(suite.get(name, "0"))
        indent(suite, " ", level=1)
        told.add(f" {_text(suite)}\n")
    top = Element("testsuites", {"name": "riglint audit"} | {name: str(n) for name, n in sums.items()})
    yield '<?xml version="1.0" encoding="UTF-8"?>\n'
    if not told:
        yield f"{_text(top)}\n"
        return
    yield _text(top).removesuffix(" />") + ">\n"
    yield from told
    yield "</testsuites>\n"


def _text(element: Element) -> str:
    return command_escaped(tostring(element, encoding="unicode"), "&#35;")


def _suites(audit: Audit, stop_at: Signal) -> Iterator[Element]:
    properties, shared = list(_properties(audit, stop_at)), touching(audit)
    for result in audit.files:
        yield _suite(result, shared, stop_at, properties)
    for sentence in unfit(audit):
        name, case = ("rule sets", "load whole") if sentence == NOT_WHOLE else ("rules", "are in force")
        yield _error(name, case, sentence)
    if audit.nothing_found:
        yield _error("files", "are there", closing(audit))


def _suite(result: FileResult, shared: Touching, stop_at: Signal, same: list[tuple[str, str]]) -> Element:
    path = visible(result.path)
    cases = [_case(path, rule, outcomes) for rule, outcomes in _cases(result, shared, stop_at)]
    counted = {"tests": str(len(cases))}
    for verdict, name in (("failure", "failures"), ("error", "errors"), ("skipped", "skipped")):
        counted[name] = str(sum(case.find(verdict) is not None for case in cases))
    suite = Element("testsuite", {"name": path} | counted)
    properties = SubElement(suite, "properties")
    for name, value in same:
        told = result.title or "" if name == TITLE else value
        SubElement(properties, "property", name=f"riglint/{name}", value=visible(told))
    suite.extend(cases)
    return suite


def _error(name: str, case: str, message: str) -> Element:
    """Return a suite of one error: without it, an audit that judged little or nothing would look like one passed."""
    suite = Element("testsuite", name=name, tests="1", failures="0", errors="1", skipped="0")
    suite.append(_case(name, case, [_Said("error", "not judged", message, message)]))
    return suite


def _properties(audit: Audit, stop_at: Signal) -> Iterator[tuple[str, str]]:
    """Yield what is the same for every suite."""
    yield "on", audit.on.isoformat()
    yield "stop_at", stop_at.name
    yield "policy", audit.force.title
    for mark in audit.force.marks:
        yield "settings", " ".join((mark.path, mark.sha256, *mark.sets))
    yield "rulebook", audit.seal
    yield TITLE, ""  # each suite has its own
    yield "whole_audit", closing(audit)
    yield "files", files_in_words(audit)
    yield "caution", CAUTION_TEXT


def _case(path: str, rule: str, outcomes: list[_Said]) -> Element:
    """Return one case; of several things the gravest is its verdict, the others stand in its output."""
    case = Element("testcase", name=rule, classname=path)
    order = ("error", "failure", "skipped")
    graded = sorted(outcomes, key=lambda one: order.index(one.verdict))
    for first in graded[:1]:
        verdict = SubElement(case, first.verdict, type=first.kind, message=visible(first.message))
        verdict.text = _visible_rows(first.text)
    if graded[1:]:
        out = SubElement(case, "system-out")
        out.text = _visible_rows("\n\n".join(one.text for one in graded[1:]))
    return case


def _visible_rows(text: str) -> str:
    """Return rows in which no character is hidden, or outside what XML 1.0 allows (section 2.2)."""
    return "\n".join(visible(row) for row in text.split("\n"))


def _cases(result: FileResult, shared: Touching, stop_at: Signal) -> list[tuple[str, list[_Said]]]:
    """Return what each rule says of a file; a rule that passed says nothing."""
    cases: dict[str, list[_Said]] = {rule: [] for rule in [READ, *sorted(result.answered)]}
    for finding in _touching(result, shared):
        cases.setdefault(finding.rule, []).append(_finding(finding, stop_at))
    for rule in sorted(result.unanswered):
        if not cases.setdefault(rule, []):
            cases[rule].append(_unanswered(rule, result, shared))
    if not result.judged:
        message = "This file was not judged; what is said of it says why."
        cases[READ].insert(0, _Said("error", "not judged", message, message))
    for gap in result.not_judged:
        text = f"{gap.rules} rules not judged, because {gap.because}."
        cases[READ].append(_Said("skipped", "not judged", text, text))
    return sorted(cases.items())


def _touching(result: FileResult, shared: Touching) -> Iterator[Finding]:
    """Yield what was found in a file, and in shared files that it rests on."""
    yield from result.findings
    yield from (one for _, one in shared.get(result.path, ()))


def _finding(finding: Finding, stop_at: Signal) -> _Said:
    at, entry = finding.at, finding.accepted
    where = f"{at.path} line {at.line}" + (f", {at.key}" if at.key else "")
    rows = [finding.message, f"where: {where}", f"why: {finding.why}", f"do: {finding.do}"]
    kind = finding.signal.name if finding.kind == "fail" else f"{finding.signal.name} {finding.kind}"
    if finding.crashed:
        return _Said("error", "crashed", finding.message, "\n".join(rows))
    if entry is not None:
        accepted = finding.by_whom
        return _Said(
            "skipped",
            f"{kind} {finding.kept_as}",
            f"{finding.message} ({accepted})",
            "\n".join([*rows, accepted]),
        )
    if finding.signal < stop_at:
        below = f"below the stop word {stop_at.name}"
        return _Said("skipped", kind, f"{finding.message} ({below})", "\n".join(rows))
    return _Said("failure", kind, finding.message, "\n".join(rows))


def _unanswered(rule: str, result: FileResult, shared: Touching) -> _Said:
    """Say what a rule waits for that has no finding under its own name."""
    waits = [one for one in _touching(result, shared) if rule in one.rules]
    if waits:
        fields = ", ".join(dict.fromkeys(one.at.key or one.at.path for one in waits))
        text = (
            f"Not judged: it waits for {fields}; see {', '.join(dict.fromkeys(one.rule for one in waits))}."
        )
    else:
        text = "Not judged: it had nothing to work on."
        text += "".join(f" {gap.rules} rules: {gap.because}." for gap in result.not_judged)
    return _Said("skipped", "open", text, text)
