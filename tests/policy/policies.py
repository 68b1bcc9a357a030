"""How the tests put a policy in force, and audit a small library by it."""

import json
from pathlib import Path
from typing import Any

import pytest

from riglint.cli import main
from riglint.policy import InForce, load_policy
from riglint.read.problems import Problem
from riglint.rulebook import Rulebook
from riglint.rulekit import sound
from riglint.testing import edited

DAY = ("--on", "2026-05-02")


def written(folder: Path, body: str) -> Path:
    """Write a policy file."""
    file = folder / "club.yaml"
    file.write_text(f"riglint: policy/1\ntitle: Meadow club\n{body}\n", encoding="utf-8")
    return file


def loaded(folder: Path, body: str, book: Rulebook) -> InForce:
    """Put a policy in force that has no problems."""
    force, problems = load_policy(written(folder, body), book)
    assert problems == []
    assert force is not None
    return force


def refused(folder: Path, body: str, book: Rulebook) -> list[Problem]:
    """Return the problems of a policy that must not come into force."""
    force, problems = load_policy(written(folder, body), book)
    assert force is None
    assert problems
    return problems


def rig_text(baseline: str, edits: dict[str, Any] | None = None) -> str:
    """Return the text of a sound rig with edits."""
    return edited(sound(baseline, edits or {}))


def audited(capsys: pytest.CaptureFixture[str], *arguments: str | Path) -> tuple[int, dict[str, Any]]:
    """Audit in this process; return the exit status and the JSON report."""
    status = main(["audit", *map(str, arguments), *DAY, "--format", "json"])
    said = capsys.readouterr()
    assert said.err == ""
    report: dict[str, Any] = json.loads(said.out)
    return status, report


def findings(report: dict[str, Any], rule: str) -> list[dict[str, Any]]:
    """Return the findings of one rule in a report, file by file."""
    return [one for file in report["files"] for one in file["findings"] if one["rule"] == rule]
