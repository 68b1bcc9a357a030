"""Runs the rules that look at all rigs of a library together: gear in two places, spots told in two ways."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from riglint.findings.crashing import RubbishError, caught, crashed, faults_of
from riglint.findings.finding import Finding
from riglint.findings.telling import finding_of, where
from riglint.findings.waiting import Waiting
from riglint.loads.inputs import MissingInput
from riglint.model.vocabulary.words import Consequence
from riglint.policy import InForce
from riglint.rulebook import Rulebook
from riglint.rulekit import Case, LibraryCase, Rule

Cases = dict[str, Case]  # by the path of their file
GRAVITY_OF: tuple[Consequence, ...] = ("ground", "fall", "life")


def judge_library(library: LibraryCase, book: Rulebook, force: InForce) -> list[Finding]:
    """Return what the rules for whole libraries say of one."""
    found: dict[tuple[str, ...], Finding] = {}
    cases = {case.file.document.path: case for case in library.rigs}
    for rule_id, rule in book.rules.items():
        if rule.each.library and rule_id not in force.off:
            for finding in _judge(library.for_rule(rule_id), cases, rule_id, rule, force):
                # Several rigs may wait for one field.
                found.setdefault((rule_id, finding.at.path, finding.at.key, finding.message), finding)
    return list(found.values())


def _judge(library: LibraryCase, cases: Cases, rule_id: str, rule: Rule, force: InForce) -> list[Finding]:
    path = library.rigs[0].file.document.path if library.rigs else library.shelves[0].path
    found: list[Finding] = []
    with caught(lambda error: found.append(crashed(rule_id, error, path))):
        subjects: Iterable[object] = rule.each.of(library)
        for subject in subjects:
            found += _one(library, rule_id, rule, force, subject, cases=cases)
    return found


def _one(
    library: LibraryCase, rule_id: str, rule: Rule, force: InForce, subject: object, *, cases: Cases
) -> Iterator[Finding]:
    """Judge one subject; what is missing there keeps no other subject from being judged."""
    try:
        for fault in faults_of(rule.check(library, subject)):
            signal = force.word(rule_id, rule, _gravest(cases, fault.rigs), fault.signal)
            yield finding_of(rule_id, rule, fault, signal)
    except MissingInput as missing:
        if not missing.fields:
            raise RubbishError("it waits for something without a name") from missing
        for at in missing.fields:
            waiting = Waiting(at)
            message = f"{waiting.lacking}, so {rule_id} cannot be judged."
            word = max(rule.worst, force.word(rule_id, rule, "ground"))
            yield Finding(
                rule_id,
                word,
                "open",
                message,
                rule.why,
                waiting.do,
                where(at),
                rule.source,
                rule.formula,
                rules=(rule_id,),
            )


def _gravest(cases: Cases, rigs: tuple[str, ...]) -> Consequence:
    """Return the gravest consequence among the rigs that a fault touches; ground where it touches none."""
    words = [cases[path].consequence for path in rigs if path in cases]
    return max(words, key=GRAVITY_OF.index, default="ground")
