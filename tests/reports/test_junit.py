"""The audit as JUnit XML, against an XML Schema that a widely used CI server reads by; see `schemas/README.md`."""

from pathlib import Path
from xml.etree import ElementTree as ET

import xmlschema

from riglint.findings import Audit, Finding, Where
from riglint.findings.finding import FileResult
from riglint.model.values.sources import OWN
from riglint.reports.audit.junit import audit_junit
from riglint.rulekit import Signal
from tests.reports.forms import (
    ACCEPTED,
    BOOK,
    BROKEN,
    FAULTY,
    HOSTILE,
    ON,
    OPEN,
    SHORT_TAIL,
    SOUND,
    audited,
    titled,
)

SCHEMA = xmlschema.XMLSchema10(str(Path(__file__).parent / "schemas/junit-10.xsd"))


def read(found: Audit, stop_at: Signal = Signal.WARNING) -> ET.Element:
    """Return the report as a reader sees it, once the schema has let it pass."""
    text = "".join(audit_junit(found, stop_at))
    SCHEMA.validate(text)
    return ET.fromstring(text)  # noqa: S314 - our own report


def verdicts(top: ET.Element, path: str) -> dict[str, str]:
    """Return what each case of a file says: a verdict, or pass."""
    (suite,) = [one for one in top if one.get("name") == path]
    cases = suite.findall("testcase")
    assert len({case.get("name") for case in cases}) == len(cases)
    found = {}
    for case in cases:
        said = [child.tag for child in case if child.tag in {"failure", "error", "skipped"}]
        assert len(said) <= 1
        found[str(case.get("name"))] = said[0] if said else "pass"
    return found


def test_the_schema_can_refuse() -> None:
    assert not SCHEMA.is_valid(
        "".join(audit_junit(FAULTY, Signal.WARNING)).replace("<testcase name=", "<testcase nom=")
    )


def test_what_stops_fails_and_the_sums_agree() -> None:
    top = read(FAULTY)
    for result in FAULTY.files:
        said = verdicts(top, result.path)
        for finding in result.findings:
            stops = finding.counts and finding.signal >= Signal.WARNING
            assert said[finding.rule] == "failure" or not stops
            assert said[finding.rule] != "pass"
    for name, tag in (("failures", "failure"), ("errors", "error")):
        assert int(top.get(name, "")) == len(top.findall(f".//{tag}"))
        assert int(top.get(name, "")) == sum(int(suite.get(name, "")) for suite in top)
    assert int(top.get("tests", "")) == len(top.findall(".//testcase"))
    assert top.findall(".//failure")


def test_a_rule_without_anything_to_look_at_is_no_pass(tmp_path: Path) -> None:
    said = verdicts(read(audited(tmp_path, low=SOUND)), "low.yaml")
    assert said["tail/webbing"] == "pass"
    assert "leash/rings" in BOOK.rules
    assert "leash/rings" not in said, "the low line has no leash, so there is nothing to judge"


def test_an_open_question_is_never_a_pass(tmp_path: Path) -> None:
    found = audited(tmp_path, low=OPEN)
    waiting = {rule for one in found.findings if one.kind == "open" for rule in one.rules}
    assert "tail/webbing" in waiting
    said = verdicts(read(found, Signal.NOTICE), "low.yaml")
    assert {said[rule] for rule in waiting} <= {"failure", "skipped"}
    for finding in found.findings:
        if finding.kind == "open":
            assert said[finding.rule] == "failure"


def test_the_stop_word_parts_failures_from_the_rest(tmp_path: Path) -> None:
    found = audited(tmp_path, low=SHORT_TAIL)
    assert verdicts(read(found, Signal.CAUTION), "low.yaml")["tail/webbing"] == "failure"
    assert verdicts(read(found, Signal.DANGER), "low.yaml")["tail/webbing"] == "skipped"


def test_what_was_not_read_is_an_error(tmp_path: Path) -> None:
    top = read(audited(tmp_path, broken=BROKEN))
    assert verdicts(top, "broken.yaml")["file/readable"] == "error"
    assert "pass" not in verdicts(top, "broken.yaml").values()


def test_a_crashed_rule_is_an_error() -> None:
    at = Where("low.yaml", 1, 1, "")
    crash = Finding("tail/webbing", Signal.DANGER, "fail", "It crashed.", "why", "do", at, OWN, crashed=True)
    top = read(Audit(ON, [FileResult("low.yaml", "rig", findings=[crash])]))
    assert verdicts(top, "low.yaml")["tail/webbing"] == "error"


def test_an_accepted_finding_is_skipped_with_its_reason_and_left_out_has_no_case(tmp_path: Path) -> None:
    found = audited(tmp_path, low=SHORT_TAIL + ACCEPTED)
    top = read(found, Signal.NOTICE)
    assert verdicts(top, "low.yaml")["tail/webbing"] == "skipped"
    assert "the line is lowered tonight" in ET.tostring(top, encoding="unicode")
    assert "tail/webbing" not in verdicts(read(found.without_accepted(), Signal.NOTICE), "low.yaml")


def test_a_fault_of_a_shared_file_is_no_pass_of_its_rig() -> None:
    shared = [one for one in FAULTY.findings if one.rigs and one.signal >= Signal.WARNING]
    assert shared
    top = read(FAULTY)
    for finding in shared:
        for rig in finding.rigs:
            assert verdicts(top, rig)[finding.rule] == "failure"


def test_characters_outside_xml_are_shown_by_number(tmp_path: Path) -> None:
    at = Where("a\x01\udc80.yaml", 1, 1, "")
    odd = Finding(
        "tail/webbing", Signal.DANGER, "fail", "\x00\x1b[31m\ufffe ]]> <b> & \U0001f9d7", "w", "d", at, OWN
    )
    top = read(Audit(ON, [FileResult(at.path, "rig", title=HOSTILE, findings=[odd])]))
    (case,) = [one for one in top.iter("testcase") if one.get("name") == "tail/webbing"]
    assert case[0].get("message") == "\\u0000\\u001b[31m\\ufffe ]]> <b> & \U0001f9d7"
    assert case.get("classname") == "a\\u0001\\udc80.yaml"
    assert titled(HOSTILE) != SOUND
    read(audited(tmp_path, low=titled(HOSTILE.replace("\u202e", ""))))


def test_a_rule_set_that_did_not_load_is_an_error() -> None:
    assert verdicts(read(Audit(ON, [], whole=False)), "rule sets") == {"load whole": "error"}


def test_nothing_to_audit_is_an_error(tmp_path: Path) -> None:
    assert verdicts(read(audited(tmp_path)), "files") == {"are there": "error"}
