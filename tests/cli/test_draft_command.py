"""`riglint draft`: every draft reads, asks and never errs; filled in, it is a sound rig; it overwrites nothing."""

import json
import re
from pathlib import Path

import pytest

from riglint.cli import main
from riglint.cli.draft import DRAFTS, KINDS
from tests.cli.calling import DAY

RIGS = ("lowline", "longline", "highline", "slackrope")
WAITING = re.compile(
    r"^( *)#(?=\S)", re.MULTILINE
)  # a line that waits for its value; words stand behind `# `


def drafted(capsys: pytest.CaptureFixture[str], kind: str) -> str:
    assert main(["draft", kind]) == 0
    said = capsys.readouterr()
    assert said.err == ""
    return said.out


def filled_in(text: str) -> str:
    return WAITING.sub(r"\1", text).replace("items: {}", "items:")


def audited(
    capsys: pytest.CaptureFixture[str], library: Path, text: str
) -> tuple[int, list[tuple[str, str, str]]]:
    (library / "draft.yaml").write_text(text, encoding="utf-8")
    status = main(["audit", str(library / "draft.yaml"), *DAY, "--format", "json"])
    report = json.loads(capsys.readouterr().out)
    assert [one for file in report["files"] for one in file["not_judged"]] == []
    found = [
        (one["kind"], one["rule"], one["message"]) for file in report["files"] for one in file["findings"]
    ]
    return status, found


def test_every_draft_can_be_asked_for() -> None:
    assert {path.stem for path in DRAFTS.glob("*.yaml")} == set(KINDS)


@pytest.mark.parametrize("kind", KINDS)
def test_a_draft_only_asks(capsys: pytest.CaptureFixture[str], library: Path, kind: str) -> None:
    status, found = audited(capsys, library, drafted(capsys, kind))
    assert [
        one for one in found if one[0] == "fail" or (one[1].startswith("file/") and one[1] != "file/empty")
    ] == []
    assert status == (0 if kind == "policy" else 1)
    if kind in RIGS:
        assert sum(one[0] == "open" for one in found) > 20


@pytest.mark.parametrize("kind", KINDS)
def test_filled_in_with_the_values_shown_nothing_is_open(
    capsys: pytest.CaptureFixture[str], library: Path, kind: str
) -> None:
    text = drafted(capsys, kind)
    assert WAITING.search(text)
    status, found = audited(capsys, library, filled_in(text))
    assert status == 0
    assert [one for one in found if one[0] != "review"] == []


@pytest.mark.parametrize("kind", KINDS)
def test_every_value_that_waits_carries_its_unit_and_some_say_what_they_are(
    capsys: pytest.CaptureFixture[str], kind: str
) -> None:
    text = drafted(capsys, kind)
    assert len(max(text.splitlines(), key=len)) <= 120
    waiting = [line for line in text.splitlines() if WAITING.match(line)]
    assert waiting
    lengths = [
        line for line in waiting if re.search(r"#(span|girth|height|cut|length|mbs|width|tail):", line)
    ]
    assert [
        line for line in lengths if not re.search(r": \d[\d.]*( ± [\d.]+ m)? (mm|cm|m|kN|t)\b|± ", line)
    ] == []
    assert sum("  # " in line for line in waiting) >= 3


def test_the_policy_is_one(capsys: pytest.CaptureFixture[str], library: Path) -> None:
    policy, rig = library / "policy.yaml", library / "rig.yaml"
    policy.write_text(filled_in(drafted(capsys, "policy")), encoding="utf-8")
    rig.write_text(filled_in(drafted(capsys, "lowline")), encoding="utf-8")
    assert main(["audit", str(rig), *DAY, "--policy", str(policy)]) == 0
    said = " ".join(capsys.readouterr().out.split())
    assert "policy: Our policy" in said
    assert "tightens" in said


def test_nothing_that_is_there_is_lost(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    file = tmp_path / "rig.yaml"
    assert main(["draft", "lowline", "--output", str(file)]) == 0
    file.write_text("mine\n", encoding="utf-8")
    assert main(["draft", "lowline", "--output", str(file)]) == 2
    assert "stays unchanged" in capsys.readouterr().err
    assert file.read_text(encoding="utf-8") == "mine\n"
    assert main(["draft", "lowline", "--output", str(tmp_path / "none" / "rig.yaml")]) == 3
    assert "cannot be written" in capsys.readouterr().err


def test_an_unknown_kind_is_told_which_there_are(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as left:
        main(["draft", "longlin"])
    assert left.value.code == 2
    assert "longline" in capsys.readouterr().err
