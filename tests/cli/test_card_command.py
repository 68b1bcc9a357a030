"""`riglint card`: its forms, its exit status, and what it says of a rig that is not ready or cannot be read."""

import json
from pathlib import Path

import pytest

from riglint.cli import main
from tests.cli.calling import BROKEN, CHECKOUT, DAY, SOUND, write

EXAMPLES = CHECKOUT / "examples"


def card(capsys: pytest.CaptureFixture[str], rig: Path, *more: str) -> tuple[int, str]:
    status = main(["card", str(rig), *DAY, *more])
    said = capsys.readouterr()
    assert said.err == ""
    return status, said.out


def test_a_sound_rig_in_every_form(capsys: pytest.CaptureFixture[str], library: Path) -> None:
    rig = write(library / "rig.yaml", SOUND)
    html = library / "card.html"
    status, out = card(capsys, rig, "--write", f"html={html}", "--format", "json")
    assert status == 0
    told = json.loads(out)
    assert (told["riglint"], told["path"], told["verdict"]) == ("card/1", "rig.yaml", None)
    assert told["figures"]["standing_kN"] == 3
    assert html.read_text(encoding="utf-8").count("<script") == 1  # what keeps the ticks


def test_a_fault_stands_before_all_else(capsys: pytest.CaptureFixture[str]) -> None:
    rig = EXAMPLES / "faulty/long-line.yaml"
    for form in ("text", "html"):
        status, out = card(capsys, rig, "--format", form)
        assert status == 1
        assert 0 < out.index("Correct this before anyone walks.") < out.index("Chain")
    assert card(capsys, rig, "--stop-at", "DANGER")[0] == 0


def test_a_danger_says_not_to_tension(capsys: pytest.CaptureFixture[str]) -> None:
    status, out = card(capsys, EXAMPLES / "faulty/highline-rope-backup.yaml", "--format", "json")
    told = json.loads(out)
    assert status == 1
    assert told["verdict"].startswith("Do not tension. The end 'oak' hangs on one point alone")
    assert told["answer"]["word"] == "DANGER"
    assert [one["signal"] for one in told["faults"]] == ["DANGER", "DANGER", "WARNING"]


def test_open_fields_are_asked_for_and_the_rest_still_stands(capsys: pytest.CaptureFixture[str]) -> None:
    status, out = card(capsys, EXAMPLES / "open/low-line-six-open.yaml")
    assert status == 1
    assert "Do not tension yet. 6 values are missing" in out
    assert "Fill in plan.users[0].mass" in out
    assert "Not computed for want of" in out
    assert "webbing W-25: cut 25 m" in out
    assert "[ ]" in out


def test_what_cannot_be_read_is_told(capsys: pytest.CaptureFixture[str], library: Path) -> None:
    for name, text, said in (
        ("broken.yaml", BROKEN, "hich"),
        ("gear.yaml", SOUND.replace("gear: SH-1", "gear: SH-99", 1), "SH-99"),
        ("spot.yaml", "riglint: spot/1\ntitle: A spot\nanchors: {}\n", "name a rig"),
    ):
        rig = write(library / name, text)
        assert main(["card", str(rig), *DAY]) == 2
        told = capsys.readouterr()
        assert told.out == ""
        assert said in told.err
    assert main(["card", str(library / "none.yaml"), *DAY]) == 2
    assert "There is no such file" in capsys.readouterr().err


def test_what_a_policy_loosens_is_repeated(capsys: pytest.CaptureFixture[str], library: Path) -> None:
    rig = write(library / "rig.yaml", SOUND)
    policy = write(
        library / "policy.yaml",
        "riglint: policy/1\ntitle: Meadow club\n"
        "values: {model.bounce_height: {value: 0.4 m, because: beginners walk here only}}\n",
    )
    _, out = card(capsys, rig, "--policy", str(policy))
    assert "Loosened: model.bounce_height from 0.5 m to 0.4 m, because beginners" in " ".join(out.split())
