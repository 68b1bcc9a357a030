"""The audit as SARIF 2.1.0, against the OASIS schema and the rules of the standard that no schema can hold.

Sections are those of "Static Analysis Results Interchange Format (SARIF) Version 2.1.0", OASIS Standard, 27 March 2020.
"""

import json
from datetime import date
from pathlib import Path
from typing import Any
from urllib.parse import unquote

import pytest
from jsonschema import Draft4Validator

from riglint.findings import Audit, Finding, Where, audit
from riglint.findings.finding import FileResult
from riglint.model.values.sources import OWN
from riglint.policy import load_policy
from riglint.reports.audit.sarif import audit_sarif
from riglint.reports.audit.sarif_places import end_column, fingerprints
from riglint.rulekit import Signal
from tests.package.checkout import CHECKOUT
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
    STOP,
    audited,
    library_of,
    titled,
)

SCHEMA = json.loads((Path(__file__).parent / "schemas/sarif-2.1.0-rtm.5.json").read_text("utf-8"))
VALIDATOR = Draft4Validator(SCHEMA, format_checker=Draft4Validator.FORMAT_CHECKER)


def run_of(found: Audit, stop_at: Signal = STOP) -> dict[str, Any]:
    """Return the only run of a log, once the schema has let it pass."""
    log = json.loads(audit_sarif(found, BOOK, stop_at))
    assert [f"{list(error.path)}: {error.message}" for error in VALIDATOR.iter_errors(log)] == []
    (run,) = log["runs"]
    assert isinstance(run, dict)
    return run


def of_rule(run: dict[str, Any], rule: str) -> dict[str, Any]:
    (result,) = [one for one in run["results"] if one["ruleId"] == rule]
    assert isinstance(result, dict)
    return result


def test_the_schema_can_refuse() -> None:
    log = json.loads(audit_sarif(FAULTY, BOOK, STOP))
    log["runs"][0]["results"][0]["kind"] = "wrong"
    assert not VALIDATOR.is_valid(log)


def test_every_finding_is_a_result_with_the_rule_that_its_index_names() -> None:
    run = run_of(FAULTY)
    assert len(run["results"]) == len(FAULTY.findings)
    rules = run["tool"]["driver"]["rules"]
    assert len({rule["id"] for rule in rules}) == len(rules)
    for result in run["results"]:
        assert rules[result["ruleIndex"]]["id"] == result["ruleId"]  # 3.27.6, 3.52.4


def test_only_a_fail_has_a_level(tmp_path: Path) -> None:
    """3.27.10: where `kind` is not `fail`, `level` SHALL be `none`."""
    run = run_of(audited(tmp_path, open=OPEN, short=SHORT_TAIL))
    kinds = {result["kind"] for result in run["results"]}
    assert kinds == {"fail", "open", "review"}
    for result in run["results"]:
        assert (result["level"] == "none") == (result["kind"] != "fail")


def test_level_and_rank_follow_the_signal_word() -> None:
    order = ["none", "note", "warning", "error"]
    fails = [one for one in run_of(FAULTY)["results"] if one["kind"] == "fail"]
    assert {one["properties"]["riglint/signal"] for one in fails} == {"DANGER", "WARNING", "CAUTION"}
    told = {
        (Signal[one["properties"]["riglint/signal"]], order.index(one["level"]), one["rank"]) for one in fails
    }
    assert len(told) == 3  # one level and one rank a word
    assert [sorted(row[n] for row in told) for n in (1, 2)] == [
        [row[n] for row in sorted(told)] for n in (1, 2)
    ]


def test_places_are_those_of_the_finding() -> None:
    for finding, result in zip(FAULTY.findings, run_of(FAULTY)["results"], strict=True):
        (place,) = result["locations"]
        physical = place["physicalLocation"]
        assert physical["artifactLocation"] == {"uri": finding.at.path, "uriBaseId": "SRCROOT"}
        region = physical["region"]
        assert (region["startLine"], region["startColumn"]) == (finding.at.line, finding.at.column)
        names = {one["fullyQualifiedName"] for one in place.get("logicalLocations", [])}
        assert names == {name for name in (finding.at.key, finding.at.part) if name}


def test_a_region_holds_the_text_that_it_names() -> None:
    """3.30.6 and 3.30.13: columns count characters from 1, the end is behind the last; 3.30.13 snippet."""
    regions = [
        (one["locations"][0]["physicalLocation"]["artifactLocation"]["uri"], region)
        for one in run_of(FAULTY)["results"]
        if "endColumn" in (region := one["locations"][0]["physicalLocation"]["region"])
    ]
    assert len(regions) > len(FAULTY.findings) / 2
    for uri, region in regions:
        row = (CHECKOUT / unquote(uri)).read_text(encoding="utf-8").splitlines()[region["startLine"] - 1]
        assert row[region["startColumn"] - 1 : region["endColumn"] - 1] == region["snippet"]["text"] != ""


@pytest.mark.parametrize(
    ("row", "column", "text"),
    [
        ("  tail: 0.1 m   # short", 9, "0.1 m"),
        ("  tail: 0.1 m", 3, "tail"),
        ("plan:", 1, "plan"),
        ("  - {part: sling, at: {x: 1, y: ']'}, z: 2}", 23, "{x: 1, y: ']'}"),
        ("  at: [1,", 7, None),
        ("  at: 'it goes on", 7, None),
        ("", 1, None),
        ("x", 9, None),
        ("  name: a,b", 9, "a,b"),
        ("  {name: grün, b: 1}", 10, "grün"),
    ],
)
def test_the_end_of_what_is_meant(row: str, column: int, text: str | None) -> None:
    end = end_column(row, column)
    assert (row[column - 1 : end - 1] if end else None) == text


def test_inputs_read_elsewhere_are_related_places() -> None:
    run = run_of(FAULTY)
    asked = [one for one in FAULTY.findings if any(i.where for i in one.inputs)]
    assert asked, "no example has such an input: the test would assert nothing"
    for finding, result in zip(FAULTY.findings, run["results"], strict=True):
        lines = [
            f"{one['physicalLocation']['artifactLocation']['uri']}:{one['physicalLocation']['region']['startLine']}"
            for one in result.get("relatedLocations", [])
            if "region" in one["physicalLocation"]
        ]
        assert lines == [one.where for one in finding.inputs if one.where]


def prints(found: Audit) -> list[str]:
    return [one["partialFingerprints"]["riglint/place/v1"] for one in run_of(found)["results"]]


def test_fingerprints_stay_when_lines_move_and_differ_between_findings(tmp_path: Path) -> None:
    before = audited(tmp_path, low=SHORT_TAIL)
    after = audited(tmp_path, low="# a remark\n\n" + SHORT_TAIL.replace("chain:", "# more\n\nchain:", 1))
    assert [one.at.line for one in before.findings] != [one.at.line for one in after.findings]
    assert sorted(prints(before)) == sorted(prints(after))
    assert len(set(prints(FAULTY))) == len(FAULTY.findings)


def test_another_figure_keeps_the_fingerprint_another_file_does_not(tmp_path: Path) -> None:
    def of_tail(found: Audit) -> str:
        result = of_rule(run_of(found), "tail/webbing")
        name: str = result["partialFingerprints"]["riglint/place/v1"]
        return name

    first = of_tail(audited(tmp_path, low=SHORT_TAIL))
    assert of_tail(audited(tmp_path, low=SHORT_TAIL.replace("tail: 0.1 m", "tail: 0.2 m"))) == first
    (tmp_path / "low.yaml").unlink()
    assert of_tail(audited(tmp_path, other=SHORT_TAIL)) != first


def test_an_accepted_finding_is_suppressed_with_its_reason(tmp_path: Path) -> None:
    """3.27.23: if one result tells of its suppressions, all do; an empty list is one that has none."""
    found = audited(tmp_path, low=SHORT_TAIL + ACCEPTED)
    run = run_of(found)
    assert all("suppressions" in one for one in run["results"])
    (entry,) = of_rule(run, "tail/webbing")["suppressions"]
    assert (entry["kind"], entry["status"]) == ("inSource", "accepted")  # 3.35.2: a construct of the language
    assert "the line is lowered tonight" in entry["justification"]
    assert "gear keeper until 2026-06-01" in entry["justification"]
    assert [one["ruleId"] for one in run["results"] if one["suppressions"]] == ["tail/webbing"]

    shorter = run_of(found.without_accepted())
    assert len(shorter["results"]) == len(run["results"]) - 1
    assert not any("suppressions" in one for one in shorter["results"])
    assert shorter["properties"]["riglint/acceptedLeftOut"] == 1


def test_what_was_not_judged_is_told_and_is_no_success(tmp_path: Path) -> None:
    run = run_of(audited(tmp_path, broken=BROKEN, low=SOUND))
    (call,) = run["invocations"]
    assert (call["executionSuccessful"], call["exitCode"]) == (False, 2)
    notes = [one["descriptor"]["id"] for one in call["toolExecutionNotifications"]]
    assert "file/not-judged" in notes
    known = run["tool"]["driver"]["notifications"]
    for one in call["toolExecutionNotifications"]:
        assert known[one["descriptor"]["index"]]["id"] == one["descriptor"]["id"]
    (key,) = [one for one in run["results"] if one["ruleId"] == "file/key"]
    assert (key["kind"], key["level"]) == ("open", "none")


def test_a_crashed_rule_is_told_with_its_name() -> None:
    at = Where("low.yaml", 1, 1, "")
    crash = Finding("tail/webbing", Signal.DANGER, "fail", "It crashed.", "why", "do", at, OWN, crashed=True)
    run = run_of(Audit(ON, [FileResult("low.yaml", "rig", findings=[crash])], rules=1))
    (call,) = run["invocations"]
    assert (call["executionSuccessful"], call["exitCode"]) == (False, 3)
    (note,) = call["toolExecutionNotifications"]
    assert note["descriptor"]["id"] == "rule/crashed"
    rule = run["tool"]["driver"]["rules"][note["associatedRule"]["index"]]
    assert rule["id"] == note["associatedRule"]["id"] == "tail/webbing"


def test_what_a_policy_changed_stands_in_the_invocation_and_in_the_properties(tmp_path: Path) -> None:
    file = tmp_path / "policy.yaml"
    file.write_text(
        "riglint: policy/1\ntitle: Meadow club\nvalues:\n  tail/webbing.least_tail: 2 m\n"
        "  model.bounce_height: {value: 0.4 m, because: beginners walk here only}\n"
        "signals: [{rule: tail/webbing, consequence: ground, signal: DANGER}]\n"
        "off: [{rule: haul/people_ratio, because: one caller on every haul}]\n",
        encoding="utf-8",
    )
    force, problems = load_policy(file, BOOK)
    assert force is not None, problems
    run = run_of(audit([library_of(tmp_path, low=SOUND)], BOOK, ON, force=force))
    changed = {one["descriptor"]["id"]: one for one in run["invocations"][0]["ruleConfigurationOverrides"]}
    assert set(changed) == {"tail/webbing", "haul/people_ratio"}
    rules = run["tool"]["driver"]["rules"]
    assert all(rules[one["descriptor"]["index"]]["id"] == name for name, one in changed.items())
    assert changed["haul/people_ratio"]["configuration"]["enabled"] is False
    tail = changed["tail/webbing"]["configuration"]
    assert tail["level"] == "error"
    assert tail["parameters"]["riglint/limits"] == {"tail/webbing.least_tail": "2 m"}
    assert {one["name"] for one in run["properties"]["riglint/policy"]["changed"]} >= {
        "tail/webbing.least_tail",
        "model.bounce_height",
    }


@pytest.mark.parametrize(
    "name", ["Lärche am Übergang №2", "a b#c?d%41", "colon: here", "\u202e rig \U0001f9d7"]
)
def test_file_names_are_uris(tmp_path: Path, name: str) -> None:
    found = audited(tmp_path, **{name: titled(HOSTILE.replace("\u202e", ""), SHORT_TAIL)})
    for result in run_of(found)["results"]:
        uri = result["locations"][0]["physicalLocation"]["artifactLocation"]["uri"]
        assert uri.isascii()
        assert unquote(uri) == f"{name}.yaml"


def test_two_runs_give_the_same_bytes(tmp_path: Path) -> None:
    library_of(tmp_path, low=SHORT_TAIL, open=OPEN)
    first, second = (audit_sarif(audit([tmp_path], BOOK, ON), BOOK, STOP) for _ in range(2))
    assert first == second
    assert str(tmp_path) not in first
    assert date.today().isoformat() not in first or date.today() == ON  # noqa: DTZ011 - that no clock got in


def test_a_rule_set_that_did_not_load_is_told() -> None:
    (call,) = run_of(Audit(ON, [], rules=1, whole=False))["invocations"]
    assert (call["executionSuccessful"], call["exitCode"]) == (False, 3)
    assert [one["descriptor"]["id"] for one in call["toolExecutionNotifications"]] == ["rules/not-loaded"]


@pytest.mark.parametrize(("part", "same"), [("far end", True), ("chain[4]", False), (None, False)])
def test_only_a_part_with_an_id_keeps_its_name_among_more_parts(part: str | None, same: bool) -> None:
    """Without an id there is no telling whether part 5 of the chain is the one that was part 4."""

    def at(place: int) -> Finding:
        named = part if part is None or not part.startswith("chain") else f"chain[{place}]"
        where = Where("low.yaml", 9, 3, f"chain[{place}].tail", named)
        return Finding("tail/webbing", Signal.CAUTION, "fail", "m", "w", "d", where, OWN)

    before, after = fingerprints([at(4)]), fingerprints([at(5)])
    assert (before == after) is same


def test_two_findings_of_one_rule_at_one_place_have_two_fingerprints() -> None:
    one = Finding("a/b", Signal.CAUTION, "fail", "m", "w", "d", Where("low.yaml", 9, 3, "k"), OWN)
    first, second = fingerprints([one, one])
    assert first != second
