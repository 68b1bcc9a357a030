"""Whole calculation sheets, compared with those that were last read through; UPDATE_GOLDEN=1 rewrites them.

Text is kept whole for each rig; markdown for one, since it holds the same cells; of JSON the figures, a line for each
state, part or backup. What JSON tells beside them are the worked lines of the sheet, compared here one by one.
"""

import json
import os
from collections.abc import Iterator
from datetime import date
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from riglint.findings import load_rig
from riglint.reports.layout.spans import characters
from riglint.reports.sheet.json_report import sheet_json
from riglint.reports.sheet.markdown import sheet_markdown
from riglint.reports.sheet.text import sheet_text
from riglint.testing import BASELINES
from riglint.views.sheet.build import build_sheet
from riglint.views.sheet.content import Sheet

CHECKOUT = Path(__file__).parents[2]
SHEETS = Path(__file__).parent / "sheets"
ON = date(2026, 5, 2)
RIGS = {
    "low-line": CHECKOUT / "examples/rigs/low-line.yaml",
    "long-line": CHECKOUT / "examples/rigs/long-line.yaml",
    "highline": BASELINES / "highline.yaml",
}
TOLD_ELSEWHERE = {
    "sections",
    "source",
    "words",
    "plain",
    "note",
    "open",
}  # words; `sections` is compared below
FORMS = [(name, form) for name in RIGS for form in ("txt", "figures")] + [("highline", "md")]


@cache
def sheet_of(name: str) -> Sheet:
    loads, problems = load_rig(RIGS[name], ON, None)
    assert loads is not None, problems
    return build_sheet(loads, ON)


def printed(name: str, form: str) -> str:
    sheet = sheet_of(name)
    if form == "txt":
        return characters(sheet_text(sheet, 80))
    if form == "md":
        return sheet_markdown(sheet)
    return "".join(f"{line}\n" for line in figures(json.loads(sheet_json(sheet))))


def figures(data: dict[str, Any]) -> Iterator[str]:
    """Yield the figures of a sheet as JSON: one line a key, and one for each entry of a list."""
    for key, value in bare(data).items():
        if isinstance(value, list) and value and isinstance(value[0], dict):
            yield from (f"{key}[{n}] {json.dumps(one, ensure_ascii=False)}" for n, one in enumerate(value))
        else:
            yield f"{key} {json.dumps(value, ensure_ascii=False)}"


def bare(data: Any) -> Any:
    """Return data without the words that the text form tells as well."""
    if isinstance(data, dict):
        return {key: bare(value) for key, value in data.items() if key not in TOLD_ELSEWHERE}
    return [bare(one) for one in data] if isinstance(data, list) else data


@pytest.mark.parametrize(("name", "form"), FORMS)
def test_the_sheet_is_the_one_last_read(name: str, form: str) -> None:
    golden = SHEETS / f"{name}.{form}"
    found = printed(name, form)
    if os.environ.get("UPDATE_GOLDEN") == "1":
        golden.parent.mkdir(exist_ok=True)
        golden.write_text(found, encoding="utf-8", newline="\n")
    assert golden.is_file(), "No such sheet yet: run with UPDATE_GOLDEN=1, then read it."
    assert found == golden.read_text(encoding="utf-8")


@pytest.mark.parametrize("name", RIGS)
def test_json_tells_every_worked_line_and_no_other(name: str) -> None:
    sheet = sheet_of(name)
    told = json.loads(sheet_json(sheet))
    assert [section["title"] for section in told["sections"]] == [section.title for section in sheet.sections]
    lines = [line for section in told["sections"] for line in section["lines"]]
    worked = [line for section in sheet.sections for line in section.worked]
    assert len(lines) == len(worked)
    for line, one in zip(lines, worked, strict=True):
        assert (line["label"], line["words"], line["part"]) == (one.label, one.words, one.part)
        assert (line["formula"] or "", line["working"] or "") == (one.formula or "", one.working or "")
        assert line["value"] == pytest.approx(one.value, rel=1e-5) if isinstance(one.value, float) else True
        assert [given["symbol"] for given in line["inputs"]] == [given.symbol for given in one.inputs]
        assert [given["words"] or "" for given in line["inputs"]] == [
            given.words or "" for given in one.inputs
        ]
        assert (line["source"]["text"], line["source"]["mark"]) == (one.source.text, one.source.mark)
    assert told["open"] == list(sheet.missing)


@pytest.mark.parametrize("name", RIGS)
def test_markdown_tells_every_worked_line(name: str) -> None:
    sheet = sheet_of(name)
    page = sheet_markdown(sheet).replace("\\", "")
    labels = {line.label for section in sheet.sections for line in section.worked}
    assert [label for label in sorted(labels) if label.replace("|", "") not in page] == []
