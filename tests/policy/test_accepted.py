"""What somebody answers for leaves the exit status, with its reason in sight; nothing else does."""

from pathlib import Path
from typing import Any

import pytest

from riglint.cli import main
from tests.policy.policies import DAY, audited, findings, rig_text

pytestmark = pytest.mark.usefixtures("by_few_rules")

LATE = {"shelf[0].items.SH-1.inspected": "2024-05"}  # a WARNING of gear/inspection
SHORT = {"chain[4].tail": "0.4 m"}  # a CAUTION of tail/webbing
INSPECTION = {
    "rule": "gear/inspection",
    "reason": "new pin ordered",
    "role": "gear keeper",
    "until": "2026-06-01",
}
TAIL = {**INSPECTION, "rule": "tail/webbing"}


@pytest.fixture
def audit(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Any:
    """Return how to audit a long line with edits and one accepted entry."""

    def run(edits: dict[str, Any], *entries: dict[str, Any]) -> tuple[int, dict[str, Any]]:
        file = tmp_path / "line.yaml"
        file.write_text(rig_text("long_haul", {**edits, "accepted": list(entries)}), encoding="utf-8")
        return audited(capsys, file)

    return run


def faults(report: dict[str, Any], rule: str) -> list[dict[str, Any]]:
    return [one for one in findings(report, rule) if one["kind"] == "fail"]


def test_a_warning_leaves_the_exit_status(audit: Any) -> None:
    status, report = audit(LATE)
    assert (status, report["count"]["WARNING"], report["count"]["accepted"]) == (1, 1, 0)
    status, report = audit(LATE, INSPECTION)
    assert (status, report["count"]["WARNING"], report["count"]["accepted"]) == (0, 0, 1)
    (fault,) = faults(report, "gear/inspection")
    assert fault["signal"] == "WARNING"
    assert fault["accepted"] == {"reason": "new pin ordered", "role": "gear keeper", "until": "2026-06-01"}
    assert findings(report, "file/accepted") == []


def test_it_has_a_section_of_its_own(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = tmp_path / "line.yaml"
    file.write_text(rig_text("long_haul", {**LATE, "accepted": [INSPECTION]}), encoding="utf-8")
    assert main(["audit", str(file), *DAY]) == 0
    section = " ".join(capsys.readouterr().out.split()).partition(
        "Accepted, so they do not count for the exit status:"
    )[2]
    assert "Accepted by gear keeper until 2026-06-01: new pin ordered (gear/inspection)" in section


def test_a_review_can_be_accepted(audit: Any) -> None:
    _, report = audit({"chain[4].tail_tied": None}, TAIL)
    (review,) = findings(report, "tail/webbing")
    assert (review["kind"], review["signal"]) == ("review", "NOTICE")
    assert review["accepted"] is not None


@pytest.mark.parametrize("part", ["chain[4]", "tail end"])
def test_a_part_is_named_by_id_and_by_place(audit: Any, part: str) -> None:
    _, report = audit({**SHORT, "chain[4].id": "tail end"}, {**TAIL, "part": part})
    (fault,) = faults(report, "tail/webbing")
    assert fault["at"]["part"] == "tail end"
    assert fault["accepted"] is not None


def test_another_part_is_not_covered(audit: Any) -> None:
    _, report = audit(SHORT, {**TAIL, "part": "chain[3]"})
    (fault,) = faults(report, "tail/webbing")
    assert fault["accepted"] is None
    (stale,) = findings(report, "file/accepted")
    assert "tail/webbing of chain[3] matches no finding" in stale["message"]
    assert stale["at"]["key"] == "accepted[0]"


@pytest.mark.parametrize("part", ["SH-1", "chain[3]", "north shackle"])
def test_gear_is_named_by_its_part_and_by_its_shelf_name(audit: Any, part: str) -> None:
    named = {**LATE, "chain[3].id": "north shackle", "chain[3].gear": "SH-1"}
    status, report = audit(named, {**INSPECTION, "part": part})
    (fault,) = faults(report, "gear/inspection")
    assert fault["accepted"] is not None
    assert status == 0


def test_a_danger_stays(audit: Any) -> None:
    weak = {"shelf[0].items.SE-1.mbs": "12.2 kN"}  # far below the force: DANGER of ratio/peak
    status, report = audit(weak, {**INSPECTION, "rule": "ratio/peak"})
    assert status == 1
    dangers = [one for one in faults(report, "ratio/peak") if one["signal"] == "DANGER"]
    assert [one["accepted"] for one in dangers] == [None]


def test_an_open_question_stays_and_the_entry_is_told(audit: Any) -> None:
    _, report = audit({"chain[4].tail": None}, TAIL)
    opened = [one for one in findings(report, "tail/webbing") if one["kind"] == "open"]
    assert opened
    assert all(one["accepted"] is None for one in opened)
    (stale,) = findings(report, "file/accepted")
    assert "only meets findings that nobody can accept" in stale["message"]


def test_a_crash_stays(audit: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    from riglint.rulekit import Case  # noqa: PLC0415 - only this test breaks it

    def broken(_case: Case, _limit: object) -> float:
        raise ZeroDivisionError

    monkeypatch.setattr(Case, "limit", broken)
    status, report = audit(SHORT, TAIL)
    assert status == 3
    (crashed,) = faults(report, "tail/webbing")
    assert crashed["crashed"]
    assert crashed["accepted"] is None


def test_the_last_day_counts_and_the_next_is_too_late(audit: Any) -> None:
    status, report = audit(LATE, {**INSPECTION, "until": "2026-05-02"})
    assert (status, findings(report, "file/accepted")) == (0, [])
    status, report = audit(LATE, {**INSPECTION, "until": "2026-05-01"})
    assert status == 1
    (stale,) = findings(report, "file/accepted")
    assert "gear/inspection ran out on 2026-05-01" in stale["message"]
    assert (stale["signal"], stale["kind"]) == ("CAUTION", "fail")


A_YEAR = "Nobody can answer for more than a year."


@pytest.mark.parametrize(
    ("until", "covers"), [("2027-05-03", True), ("2027-05-04", False), ("2040-01-01", False)]
)
def test_nobody_answers_for_longer_than_a_year(audit: Any, until: str, *, covers: bool) -> None:
    status, report = audit(LATE, {**INSPECTION, "until": until})
    assert status == (0 if covers else 1)
    told = [one["message"] for one in findings(report, "file/accepted")]
    assert told == ([] if covers else [f"The accepted finding gear/inspection holds until {until}. {A_YEAR}"])


@pytest.mark.parametrize(
    ("key", "value", "says"),
    [
        ("until", "9999-12-31", "'9999-12-31' is too far off for anyone to answer for"),
        ("until", "2100-01-01", "'2100-01-01' is too far off for anyone to answer for"),
        ("reason", "", "Nothing is written here. Expected words."),
        ("reason", "   ", "Nothing is written here. Expected words."),
        ("role", "", "Nothing is written here. Expected words."),
        ("role", None, "Expected text, found nothing."),
    ],
)
def test_an_entry_that_nobody_answers_for_is_an_error(audit: Any, key: str, value: Any, says: str) -> None:
    status, report = audit(LATE, {**INSPECTION, key: value})
    assert status == 2
    (said,) = (one for file in report["files"] for one in file["findings"])
    assert said["at"]["key"] == f"accepted[0].{key}"
    assert said["message"].startswith(says)


# One place is not another that begins with the same letters.


@pytest.mark.parametrize(
    ("part", "covers"),
    [("RS-20", True), ("chain[10]", True), ("RS-2", False), ("chain[1]", False), ("chain[1", False)],
)
def test_the_second_part_is_not_the_eleventh(audit: Any, part: str, *, covers: bool) -> None:
    sling = {"kind": "round_sling", "material": "polyester", "wll": "3 t", "length": "3 m", "width": "55 mm"}
    late = {
        "shelf[0].items.RS-20": {
            **sling,
            "made": "2023-05",
            "inspected": "2024-05",
            "label": "readable",
        },
        "chain[10].gear": "RS-20",
    }
    _, report = audit(late, {**INSPECTION, "part": part})
    (fault,) = faults(report, "gear/inspection")
    assert fault["at"]["key"].startswith("shelf[0].items.RS-20")
    assert (fault["accepted"] is not None) == covers
    assert bool(findings(report, "file/accepted")) != covers


@pytest.mark.parametrize(
    ("named", "covers"), [("tail", False), ("tail end", True), ("tail end 2", False), ("chain[4]", True)]
)
def test_an_id_is_not_another_that_it_begins(audit: Any, named: str, *, covers: bool) -> None:
    _, report = audit({**SHORT, "chain[4].id": "tail end"}, {**TAIL, "part": named})
    (fault,) = faults(report, "tail/webbing")
    assert (fault["accepted"] is not None) == covers


@pytest.mark.parametrize(
    ("name", "do"), [("gear/inspecton", "Write `gear/inspection`"), ("pins", "lists all rules")]
)
def test_an_unknown_rule_is_told_with_the_nearest(audit: Any, name: str, do: str) -> None:
    _, report = audit(LATE, {**INSPECTION, "rule": name})
    (stale,) = findings(report, "file/accepted")
    assert f"There is no rule '{name}'" in stale["message"]
    assert do in stale["do"]
    assert stale["at"]["line"] > 1


def test_of_a_shared_file_one_rig_answers_for_itself(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Two rigs hang on one late shackle; one accepts it. The other still counts."""
    import yaml  # noqa: PLC0415 - only this test takes a rig apart

    data = yaml.safe_load(rig_text("long_haul", LATE))
    shelf = {"riglint": "shelf/1", "items": data["shelf"][0]["items"]}
    (tmp_path / "rig-library").touch()
    (tmp_path / "shelf.yaml").write_text(yaml.safe_dump(shelf, sort_keys=False), encoding="utf-8")
    data["shelf"] = ["shelf.yaml"]
    for name, accepted in (("a", [{**INSPECTION, "part": "SH-1"}]), ("b", [])):
        text = yaml.safe_dump({**data, "accepted": accepted}, sort_keys=False, width=1000)
        (tmp_path / f"{name}.yaml").write_text(text, encoding="utf-8")
    status, report = audited(capsys, tmp_path)
    told = {tuple(one["rigs"]): one["accepted"] is not None for one in faults(report, "gear/inspection")}
    assert told == {("a.yaml",): True, ("b.yaml",): False}
    assert status == 1
    assert audited(capsys, tmp_path / "a.yaml")[0] == 0


def test_the_leash_is_its_own_gear_and_no_other(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Whoever answers for the leash does not answer for a shackle of the same rig."""
    late = {f"shelf[0].items.{name}.inspected": "2024-05" for name in ("LE-1", "RI-1", "SH-1")}
    entry = {**INSPECTION, "part": "leash"}
    file = tmp_path / "high.yaml"
    file.write_text(rig_text("highline", {**late, "accepted": [entry]}), encoding="utf-8")
    _, report = audited(capsys, file)
    found = {one["at"]["key"]: one["accepted"] is not None for one in findings(report, "gear/inspection")}
    by_name = {name: [of for key, of in found.items() if name in key] for name in ("LE-1", "RI-1", "SH-1")}
    assert by_name == {"LE-1": [True], "RI-1": [True], "SH-1": [False]}
