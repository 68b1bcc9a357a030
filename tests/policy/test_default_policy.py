"""The default policy that `riglint rulebook --format policy` prints: whole, and without any effect."""

from pathlib import Path
from typing import Any

import pytest

from riglint.cli import main
from riglint.model.values.defaults import DEFAULTS
from riglint.model.values.ratios import PEAK
from riglint.policy import load_policy
from riglint.read.yaml_text import read_yaml, resolved
from riglint.reports.rules.default_policy import WIDTH, default_policy
from riglint.rulebook import Rulebook, load_rulebook
from tests.policy.policies import audited, rig_text

TEXT = default_policy(load_rulebook())


@pytest.fixture
def file(tmp_path: Path) -> Path:
    path = tmp_path / "default-policy.yaml"
    path.write_text(TEXT, encoding="utf-8")
    return path


def test_the_command_prints_it(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["rulebook", "--format", "policy"]) == 0
    assert capsys.readouterr().out == TEXT
    assert main(["rulebook", "--format", "sources"]) == 0
    assert capsys.readouterr().out.startswith("# Sources\n")
    assert main(["rulebook", "tail/webbing", "--format", "policy"]) == 2


def test_it_holds_every_value_once(book: Rulebook) -> None:
    document, problems = read_yaml(TEXT.encode(), "default-policy.yaml")
    assert problems == []
    assert document is not None
    data: Any = resolved(document.data)
    limits = {f"{name}.{one.name}" for name, rule in book.rules.items() for one in rule.limits}
    assert set(data["values"]) == limits | {f"model.{name}" for name in DEFAULTS}
    assert {row["part"] for row in data["required"]} == set(PEAK)
    assert [name for name in book.rules if f"\n# {name} " not in TEXT] == []


def test_every_value_has_its_trail_above_it() -> None:
    blocks = TEXT.partition("\nvalues:")[2].partition("\nrequired:")[0].split("\n\n")
    values = [
        block for block in blocks if not all(line.strip().startswith("#") for line in block.splitlines())
    ]
    assert len(values) > 100
    for block in values:
        told = " ".join(line.strip().lstrip("# ") for line in block.splitlines()[:-1])
        assert " is tighter. " in told, block
        assert "source" in told.casefold(), block


def test_it_can_be_read_on_a_screen() -> None:
    named = [line for line in TEXT.splitlines() if line.startswith("# ") and "/" in line.split()[1]]
    assert max(len(line) for line in TEXT.splitlines() if line not in named) <= WIDTH


def test_it_loads_and_changes_nothing(book: Rulebook, file: Path) -> None:
    force, problems = load_policy(file, book)
    assert problems == []
    assert force is not None
    assert force.changes == ()
    assert (force.limits, force.values.changed, force.values.ratios, force.words) == ({}, {}, {}, {})
    assert (force.off, force.recalled) == (frozenset(), frozenset())


def test_the_same_findings_with_it_and_without(
    tmp_path: Path, file: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    rig = tmp_path / "rig.yaml"
    rig.write_text(rig_text("low", {"chain[4].tail": "0.4 m", "spot.span": None}), encoding="utf-8")
    status, without = audited(capsys, rig)
    again, report = audited(capsys, rig, "--policy", file)
    assert report["policy"]["changed"] == []
    assert (status, without["files"], without["count"]) == (again, report["files"], report["count"])
    assert without["files"][0]["findings"]
