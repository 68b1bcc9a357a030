"""`riglint draft`: every draft is short, reads, asks and never errs; filled in, it is sound; it overwrites nothing."""

import json
import re
from pathlib import Path

import pytest

from riglint.cli import main
from riglint.cli.draft import DRAFTS, KINDS
from riglint.cli.filled_draft import blanks_of, filled_in
from tests.cli.calling import DAY

FILES = ("spot", "shelf")
RIGS = tuple(kind for kind in KINDS if kind not in {*FILES, "policy", "library"})


def drafted(capsys: pytest.CaptureFixture[str], kind: str) -> str:
    assert main(["draft", kind]) == 0
    said = capsys.readouterr()
    assert said.err == ""
    return said.out


def audited(
    capsys: pytest.CaptureFixture[str], library: Path, text: str
) -> tuple[int, list[tuple[str, str, str, str]]]:
    (library / "draft.yaml").write_text(text, encoding="utf-8")
    status = main(["audit", str(library / "draft.yaml"), *DAY, "--format", "json"])
    report = json.loads(capsys.readouterr().out)
    assert [one for file in report["files"] for one in file["not_judged"]] == []
    found = [
        (one["kind"], one["signal"], one["rule"], one["message"])
        for file in report["files"]
        for one in file["findings"]
    ]
    return status, found


def test_every_draft_can_be_asked_for() -> None:
    assert {path.stem for path in DRAFTS.glob("*.yaml")} == set(KINDS)


@pytest.mark.parametrize("kind", KINDS)
def test_a_draft_is_short_with_its_caution_on_top(capsys: pytest.CaptureFixture[str], kind: str) -> None:
    lines = drafted(capsys, kind).splitlines()
    assert len(lines) <= 60
    if kind != "policy":
        assert max(map(len, lines)) <= 100
    top = " ".join(" ".join(line.lstrip("# ") for line in lines[:6]).split())
    assert "A calculation is no inspection" in top
    assert "Passing these rules does not mean that a rig may be used." in top


@pytest.mark.parametrize("kind", RIGS)
def test_a_draft_names_what_it_refers_to(capsys: pytest.CaptureFixture[str], kind: str) -> None:
    assert not re.search(r"chain\[", drafted(capsys, kind))


@pytest.mark.parametrize("kind", [*RIGS, *FILES])
def test_a_draft_only_asks(capsys: pytest.CaptureFixture[str], library: Path, kind: str) -> None:
    status, found = audited(capsys, library, drafted(capsys, kind))
    assert [one for one in found if one[0] == "fail"] == []
    assert [one for one in found if one[2].startswith("file/")] == []
    assert status == 1
    assert sum(one[0] == "open" for one in found) > (20 if kind in RIGS else 2)


@pytest.mark.parametrize("kind", [*RIGS, *FILES])
def test_the_audit_of_a_draft_fits_on_a_screen(
    capsys: pytest.CaptureFixture[str], library: Path, kind: str
) -> None:
    (library / "draft.yaml").write_text(drafted(capsys, kind), encoding="utf-8")
    main(["audit", str(library / "draft.yaml"), *DAY])  # which asks, so its status is 1
    lines = capsys.readouterr().out.splitlines()
    assert len(lines) <= 40
    assert max(map(len, lines)) <= 80


@pytest.mark.parametrize("kind", [*RIGS, *FILES])
def test_filled_in_with_the_values_shown_nothing_is_open(
    capsys: pytest.CaptureFixture[str], library: Path, kind: str
) -> None:
    text = drafted(capsys, kind)
    assert sum(len(blanks_of(line)) for line in text.splitlines()) > 10
    assert main(["draft", kind, "--example"]) == 0
    status, found = audited(capsys, library, capsys.readouterr().out)
    assert status == 0
    assert [one for one in found if one[0] != "review"] == []


def test_the_policy_is_one(capsys: pytest.CaptureFixture[str], library: Path) -> None:
    policy, rig = library / "policy.yaml", library / "rig.yaml"
    text = re.sub(r"^( *)#(?=\S)", r"\1", drafted(capsys, "policy"), flags=re.MULTILINE)
    policy.write_text(text, encoding="utf-8")
    rig.write_text(filled_in(drafted(capsys, "lowline")), encoding="utf-8")
    assert main(["audit", str(rig), *DAY, "--policy", str(policy)]) == 0
    said = " ".join(capsys.readouterr().out.split())
    assert "policy: Our policy" in said
    assert "tightens" in said


def test_the_settings_of_a_library_are_some(capsys: pytest.CaptureFixture[str], library: Path) -> None:
    (library / "rig-library").write_text(drafted(capsys, "library"), encoding="utf-8")
    (library / "rig.yaml").write_text(filled_in(drafted(capsys, "lowline")), encoding="utf-8")
    assert main(["audit", str(library), *DAY]) == 0
    assert "Settings of" not in capsys.readouterr().out
    text = re.sub(r"^( *)#(?=\S)", r"\1", drafted(capsys, "library"), flags=re.MULTILINE)
    (library / "rig-library").write_text(text, encoding="utf-8")
    (library / "policy.yaml").write_text(drafted(capsys, "policy"), encoding="utf-8")
    (library / "known.yaml").write_text("riglint: known/1\nknown: []\n", encoding="utf-8")
    assert main(["audit", str(library), *DAY]) == 0
    said = " ".join(capsys.readouterr().out.split())
    assert "policy: Our policy" in said
    assert "It leaves out drafts/, because trainees draw there." in said


def test_the_kits_of_the_drafted_gear_list_can_be_called(
    capsys: pytest.CaptureFixture[str], library: Path
) -> None:
    (library / "shelf.yaml").write_text(filled_in(drafted(capsys, "shelf")), encoding="utf-8")
    rig = filled_in(drafted(capsys, "ratchet"))
    before, _, rest = rig.partition("shelf:\n")
    rest = "shelf: [shelf.yaml]\n" + rest[rest.index("plan:") :]
    for parts, kit in (
        ("- TP-1\n- {gear: RS-1, hitch: basket}\n- SH-1\n", "- {kit: near tree}\n"),
        ("- SH-2\n- {gear: RS-2, hitch: basket}\n- TP-2\n", "- {kit: far tree}\n"),
    ):
        assert parts in rest
        rest = rest.replace(parts, kit)
    _, found = audited(capsys, library, before + rest)
    assert [one for one in found if one[2].startswith("file/")] == []


@pytest.mark.parametrize("kind", RIGS)
def test_a_draft_in_two_files_is_the_same_line(
    capsys: pytest.CaptureFixture[str], library: Path, kind: str
) -> None:
    _, found = audited(capsys, library, drafted(capsys, kind))
    for folder in ("rigs", "gear lists"):
        (library / folder).mkdir()
    rig, shelf = library / "rigs/new.yaml", library / "gear lists/new.yaml"
    assert main(["draft", kind, "--output", str(rig), "--gear-list", str(shelf)]) == 0
    assert len(rig.read_text("utf-8").splitlines()) <= 60
    assert "# A calculation is no inspection" in shelf.read_text("utf-8")
    main(["audit", str(rig), *DAY, "--format", "json"])  # which asks
    report = json.loads(capsys.readouterr().out)
    apart = [one for file in report["files"] for one in file["findings"]]
    assert sorted((one["kind"], one["signal"], one["rule"]) for one in apart) == sorted(
        one[:3] for one in found
    )


def test_a_draft_in_two_files_overwrites_neither(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    rig, shelf = tmp_path / "rig.yaml", tmp_path / "shelf.yaml"
    shelf.write_text("mine\n", encoding="utf-8")
    assert main(["draft", "ratchet", "--output", str(rig), "--gear-list", str(shelf)]) == 2
    assert (shelf.read_text("utf-8"), rig.exists()) == ("mine\n", False)
    rig.write_text("mine too\n", encoding="utf-8")
    assert main(["draft", "ratchet", "--output", str(rig), "--gear-list", str(tmp_path / "new.yaml")]) == 2
    assert (rig.read_text("utf-8"), (tmp_path / "new.yaml").exists()) == ("mine too\n", False)
    assert capsys.readouterr().err.count("stays unchanged") == 2
    both = str(tmp_path / "both.yaml")
    assert main(["draft", "ratchet", "--output", both, "--gear-list", both]) == 2
    assert main(["draft", "spot", "--gear-list", both]) == 2
    assert "goes with a line" in capsys.readouterr().err


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
    assert main(["draft", "longlin"]) == 2
    assert "Did you mean 'longline'?" in capsys.readouterr().err


@pytest.mark.parametrize("line", ["span: # 16 m, 3 m", "near: {kind: tree, girth: , bark: } # 140 cm"])
def test_blanks_and_values_that_do_not_match_are_refused(line: str) -> None:
    with pytest.raises(ValueError, match="value"):
        filled_in(line)
