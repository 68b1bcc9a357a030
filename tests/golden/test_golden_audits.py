"""Whole audit reports of a faulty rig, compared with those last read through; UPDATE_GOLDEN=1 rewrites them."""

import json
import os
from datetime import date
from pathlib import Path

import pytest

from riglint.findings import Audit, audit
from riglint.reports.audit_markdown import audit_markdown
from riglint.reports.junit import audit_junit
from riglint.reports.sarif import audit_sarif
from riglint.rulebook import load_rulebook
from riglint.rulekit import Signal

CHECKOUT = Path(__file__).parents[2]
AUDITS = Path(__file__).parent / "audits"
BOOK = load_rulebook()
KEPT = "tail/stopper"


@pytest.fixture(scope="module")
def found() -> Audit:
    return audit([CHECKOUT / "examples/faulty/low-line.yaml"], BOOK, date(2026, 5, 2))


def printed(found: Audit, form: str) -> str:
    """Return a report; of the rules in SARIF only one, since `rules/README.md` shows them all."""
    if form == "md":
        return audit_markdown(found, Signal.WARNING)
    if form == "xml":
        return audit_junit(found, Signal.WARNING)
    log = json.loads(audit_sarif(found, BOOK, Signal.WARNING))
    driver = log["runs"][0]["tool"]["driver"]
    driver["rules"] = [rule for rule in driver["rules"] if rule["id"] == KEPT]
    for result in log["runs"][0]["results"]:
        del result["ruleIndex"]  # changes with every new rule
    return json.dumps(log, indent=1, ensure_ascii=False) + "\n"


@pytest.mark.parametrize("form", ["sarif", "xml", "md"])
def test_the_report_is_the_one_last_read(found: Audit, form: str) -> None:
    golden = AUDITS / f"faulty-low-line.{form}"
    report = printed(found, form)
    if os.environ.get("UPDATE_GOLDEN") == "1":
        golden.parent.mkdir(exist_ok=True)
        golden.write_text(report, encoding="utf-8", newline="\n")
    assert golden.is_file(), "No such report yet: run with UPDATE_GOLDEN=1, then read it."
    assert report == golden.read_text(encoding="utf-8")
