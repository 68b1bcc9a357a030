"""The answer before everything else: who reads ten lines learns the gravest word, the reason and the next step.

Grouping and folding happen on the way to the reader, so each test also counts: nothing may get lost.
"""

import json
import re
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from riglint.findings import Audit, audit
from riglint.findings.finding import FileResult, Finding, NotJudged, Where
from riglint.findings.grouping import group_of, grouped
from riglint.loads.inputs import At
from riglint.loads.what_if.solved_for import Edit, Remedy
from riglint.model.values.sources import OWN
from riglint.reports.audit.json_report import audit_json
from riglint.reports.audit.lines import audit_github, audit_gitlab, audit_lines
from riglint.reports.audit.text import audit_text
from riglint.reports.layout.spans import characters
from riglint.rulebook import load_rulebook
from riglint.rulekit import Signal
from riglint.rulekit.verdicts import Kind
from riglint.views.audit.part_names import PartNames
from riglint.views.audit.reader import blocks, for_a_reader
from riglint.views.audit.verdict import NO_WORD, NOT_JUDGED, verdict_of, verdict_of_all, verdicts
from riglint.views.audit.words import CAUTION_TEXT, counting, touching
from tests.rigs import loads_of, rig_data

ON = date(2026, 5, 2)
EXAMPLES = Path(__file__).parents[2] / "examples"
HIGHLINE = EXAMPLES / "faulty" / "highline-rope-backup.yaml"
INDEX = re.compile(r"\[\d+\]")


@pytest.fixture(scope="module")
def highline() -> Audit:
    return audit([HIGHLINE], load_rulebook(), ON)


def finding(signal: Signal, kind: Kind = "fail", line: int = 3, **more: Any) -> Finding:
    at = Where("a.yaml", line, 1, f"chain[{line}].pins", f"chain[{line}]")
    return replace(
        Finding("tail/webbing", signal, kind, f"Message {line}.", "why", "Do it.", at, OWN), **more
    )


def of(*findings: Finding, **more: Any) -> Audit:
    return Audit(ON, [replace(FileResult("a.yaml", "rig", findings=list(findings)), **more)], rules=1)


def text(found: Audit, **asked: bool) -> str:
    return characters(audit_text(found, 80, **asked))


def flat(found: Audit, **asked: bool) -> str:
    return " ".join(text(found, **asked).split())


# The answer


def test_the_answer_stands_in_the_first_ten_lines(highline: Audit) -> None:
    top = " ".join("\n".join(text(highline).splitlines()[:8]).split())
    first = for_a_reader(highline).files[0].findings[0]
    assert f"DANGER Do not tension. {first.message}" in top
    assert f"next {first.do}" in top


@pytest.mark.parametrize("word", list(Signal))
@pytest.mark.parametrize("kind", ["fail", "open", "review"])
def test_the_answer_is_never_milder_than_the_gravest_finding(word: Signal, kind: Kind) -> None:
    if word == Signal.NOTICE and kind == "review":
        return
    others = [finding(one, "fail", 9) for one in Signal if one < word]
    told = verdict_of_all(of(finding(word, kind), *others), verdicts(of(finding(word, kind), *others)))
    assert (told.signal, told.word) == (word, word.name)
    assert told.next_step


def test_a_file_that_is_not_judged_never_looks_like_one_without_problems() -> None:
    for found in (
        of(judged=False),
        of(finding(Signal.WARNING, "open"), judged=False),
        of(not_judged=[NotJudged("the shelf could not be read in full", 12)]),
        of(finding(Signal.CAUTION), not_judged=[NotJudged("the shelf could not be read in full", 12)]),
    ):
        told = verdict_of(found.files[0])
        assert told.word == NOT_JUDGED
        assert told.signal is not None
        assert told.signal >= Signal.WARNING


def test_a_rule_set_that_did_not_load_is_the_answer() -> None:
    found = replace(of(), whole=False)
    assert verdict_of_all(found, verdicts(found)).word == NOT_JUDGED


def test_what_is_not_judged_is_said_once() -> None:
    """The word stands beside the sentence in every report."""
    missing = audit([Path("no-such-rig.yaml")], load_rulebook(), ON)
    lost = FileResult("a.yaml", "rig", not_judged=[NotJudged("x.yaml could not be read", 3)])
    for found in (missing, replace(of(), whole=False), Audit(ON, [lost], rules=1)):
        told = verdict_of_all(found, verdicts(found))
        assert told.word == NOT_JUDGED
        assert told.sentence
        assert "not judged" not in told.sentence.lower()
        assert characters(audit_text(found, 80)).lower().count("not judged") <= 2


def test_a_fault_in_a_shared_file_is_the_answer_for_the_rig_that_it_touches() -> None:
    shelf = FileResult("shelf.yaml", "shelf", findings=[finding(Signal.DANGER, rigs=("a.yaml",))])
    found = Audit(ON, [FileResult("a.yaml", "rig"), shelf], rules=1)
    assert verdict_of(found.files[0], counting(touching(found), found.files[0])).signal == Signal.DANGER


def test_brief_gives_one_entry_a_file_the_caution_and_a_last_sentence(highline: Audit) -> None:
    brief = flat(highline, brief=True)
    assert "Do not tension." in brief
    assert CAUTION_TEXT in brief
    assert brief.endswith(".")
    assert len(text(highline, brief=True).splitlines()) < 15


def test_the_worst_rig_comes_first() -> None:
    files = [
        FileResult(name, "rig", findings=[finding(word)])
        for name, word in (("a.yaml", Signal.CAUTION), ("b.yaml", Signal.DANGER), ("c.yaml", Signal.WARNING))
    ]
    assert [one.path for one, _ in verdicts(Audit(ON, files, rules=1))] == ["b.yaml", "c.yaml", "a.yaml"]


# Blocks and groups


def test_every_finding_stands_in_exactly_one_block(highline: Audit) -> None:
    for result in highline.files:
        held = blocks(result)
        inside = [
            one for groups in (held.faults, held.blanks, held.looks) for g in groups for one in g.findings
        ]
        assert sorted(map(id, [*inside, *held.checks, *held.accepted])) == sorted(map(id, result.findings))


def test_a_group_is_as_grave_as_its_gravest_and_names_all() -> None:
    findings = [finding(Signal.CAUTION, line=n) for n in range(4, 9)] + [finding(Signal.DANGER, line=3)]
    (group,) = grouped(findings)
    assert group.signal == Signal.DANGER
    told = flat(of(*findings))
    assert all(f"Message {n}." in told for n in range(3, 9))
    assert told.count("CAUTION: Message") == 5


def test_different_remedies_are_different_groups() -> None:
    findings = [
        finding(Signal.CAUTION, do="Turn the pin."),
        finding(Signal.CAUTION, do="Take a longer sling."),
    ]
    assert len(grouped(findings)) == 2


def test_pins_of_one_rig_are_one_line_and_the_rest_is_counted() -> None:
    pins = [finding(Signal.DANGER, "open", n, asks="every pin closed") for n in range(11)]
    others = [
        finding(Signal.WARNING, "open", n, asks=f"field {n}", at=Where("a.yaml", n, 1, f"plan.k{n}"))
        for n in range(30, 50)
    ]
    told = flat(of(*pins, *others))
    assert "To fill in (31; these decide most)" in told
    assert "pins of 11" in told
    assert "11 more: --all" in told
    assert all(f"plan.k{n}" in flat(of(*pins, *others), everything=True) for n in range(30, 50))


def test_json_keeps_one_finding_a_part_and_names_its_group(highline: Audit) -> None:
    data = json.loads(audit_json(highline))
    told = [one for file in data["files"] for one in file["findings"]]
    assert len(told) == len(highline.findings)
    assert [one["group"] for one in told] == [group_of(one) for one in highline.findings]
    assert data["caution"] == CAUTION_TEXT


# Names


def test_no_sentence_counts_parts(highline: Audit) -> None:
    assert any(INDEX.search(f"{one.message}{one.do}") for one in highline.findings)
    for one in for_a_reader(highline).findings:
        assert not INDEX.search(f"{one.message}{one.do}{one.why}")


@pytest.mark.parametrize(
    ("place", "name"),
    [
        ("backups[0]", "the backup"),
        ("backups[0].chain[0]", "the anchor at the west end of the backup"),
        ("chain[99]", None),
    ],
)
def test_a_part_has_a_name(place: str, name: str | None) -> None:
    assert PartNames(loads_of(rig_data("highline"))).name(place) == name


# For programs


def test_lines_have_the_form_of_the_gnu_coding_standards(highline: Audit) -> None:
    rows = "".join(audit_lines(highline, EXAMPLES)).splitlines()
    form = re.compile(
        r"faulty/highline-rope-backup\.yaml:\d+:\d+: (DANGER|WARNING|CAUTION|NOTICE|LOOK): .+ \(\w+/\w+\)"
    )
    placed = [row for row in rows if not row.startswith("riglint: ")]
    assert [row for row in placed if not form.fullmatch(row)] == []
    loud = [one for one in highline.findings if one.counts and one.signal > Signal.NOTICE]
    assert sum(": LOOK: " not in row for row in placed) == len(loud) > 0
    assert f"riglint: {CAUTION_TEXT}" in rows


def test_open_questions_are_errors_for_a_host(highline: Audit) -> None:
    opened = replace(of(finding(Signal.WARNING, "open", asks="a length")), rules=highline.rules)
    assert audit_github(opened, Signal.WARNING).startswith("::error file=a.yaml,line=3,col=1,")
    assert json.loads(audit_gitlab(opened))[0]["severity"] == "critical"


def test_a_code_quality_report_has_every_key_that_its_host_needs(highline: Audit) -> None:
    entries = json.loads(audit_gitlab(highline))
    assert len({one["fingerprint"] for one in entries}) == len(entries) > 2
    for one in entries:
        assert {"description", "check_name", "fingerprint", "severity", "location"} <= one.keys()
        assert one["severity"] in {"info", "minor", "major", "critical", "blocker"}
        assert one["location"]["path"] == "examples/faulty/highline-rope-backup.yaml"
        assert one["location"]["lines"]["begin"] >= 1


def test_nothing_of_a_file_becomes_a_command_of_a_host() -> None:
    hostile = finding(Signal.DANGER, message="100 %, a:b\n::error::x")
    row = audit_github(of(hostile), Signal.WARNING).splitlines()[0]
    assert "100 %25" in row
    assert row.count("::error") == 1 or "::error::x" in row.partition("::")[2]
    assert (
        len(
            [
                one
                for one in audit_github(of(hostile), Signal.WARNING).splitlines()
                if one.startswith("::error")
            ]
        )
        == 1
    )


def test_a_rig_without_problems_says_what_was_judged_and_wears_no_signal_word() -> None:
    told = verdict_of(of().files[0])
    assert told.word == NO_WORD
    assert told.signal is None
    assert "No problems found by" in told.sentence


def test_advice_for_several_findings_is_the_one_that_goes_farthest() -> None:
    """A body below the ground comes before one that stops above it, and its height is the one advised."""
    at = At(loads_of(rig_data("highline")).path.rig.document, ("chain", 0, "height"))

    def fall(room_m: float, height: str, line: int) -> Finding:
        found = finding(Signal.DANGER, line=line, do=f"Raise both anchors to {height}.")
        return replace(
            found, value=room_m, limit=2.0, remedies=(Remedy("raise", (Edit(at, "1.5 m", height),)),)
        )

    for findings in (
        [fall(1.44, "2.1 m", 3), fall(-1.81, "5.35 m", 4)],
        [fall(0.9, "5.35 m", 3), fall(0.8, "2.1 m", 4)],
    ):
        (group,) = grouped(findings)
        assert group.first.value == min(one.value for one in findings if isinstance(one.value, float))
        assert group.do == "Raise both anchors to 5.35 m."
        assert "5.35 m" in flat(of(*findings))
        assert "to 2.1 m" not in flat(of(*findings))


def test_the_last_line_counts_fields_as_the_list_of_fields_does() -> None:
    open_for_the_class = finding(
        Signal.DANGER, "open", 3
    )  # a fault if an unknown makes it one; it names no field
    fields = [finding(Signal.DANGER, "open", n, asks="the mass") for n in (4, 5)]
    told = flat(of(open_for_the_class, *fields))
    assert "To fill in (2)" in told
    assert "One question left open, two fields to fill in" in told
