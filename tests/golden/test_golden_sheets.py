"""Whole calculation sheets, compared with those that were last read through; UPDATE_GOLDEN=1 rewrites them."""

import os
from datetime import date
from pathlib import Path

import pytest

from riglint.findings import load_rig
from riglint.reports.layout.spans import characters
from riglint.reports.sheet.json_report import sheet_json
from riglint.reports.sheet.markdown import sheet_markdown
from riglint.reports.sheet.text import sheet_text
from riglint.testing import BASELINES
from riglint.views.sheet.build import build_sheet

CHECKOUT = Path(__file__).parents[2]
SHEETS = Path(__file__).parent / "sheets"
ON = date(2026, 5, 2)
RIGS = {
    "low-line": CHECKOUT / "examples/rigs/low-line.yaml",
    "long-line": CHECKOUT / "examples/rigs/long-line.yaml",
    "highline": BASELINES / "highline.yaml",
}


def printed(rig: Path, form: str) -> str:
    loads, problems = load_rig(rig, ON, None)
    assert loads is not None, problems
    sheet = build_sheet(loads, ON)
    if form == "txt":
        return characters(sheet_text(sheet, 80))
    return sheet_markdown(sheet) if form == "md" else sheet_json(sheet)


@pytest.mark.parametrize("form", ["txt", "md", "json"])
@pytest.mark.parametrize("name", RIGS)
def test_the_sheet_is_the_one_last_read(name: str, form: str) -> None:
    golden = SHEETS / f"{name}.{form}"
    found = printed(RIGS[name], form)
    if os.environ.get("UPDATE_GOLDEN") == "1":
        golden.parent.mkdir(exist_ok=True)
        golden.write_text(found, encoding="utf-8", newline="\n")
    assert golden.is_file(), "No such sheet yet: run with UPDATE_GOLDEN=1, then read it."
    assert found == golden.read_text(encoding="utf-8")
