"""Whole audit reports of a faulty rig, compared with those last read through; UPDATE_GOLDEN=1 rewrites them."""

import os
from datetime import date
from pathlib import Path

import pytest

from riglint.findings import Audit, audit
from riglint.reports.audit.junit import audit_junit
from riglint.reports.audit.markdown import audit_markdown
from riglint.reports.audit.sarif import audit_sarif
from riglint.rulebook import Rulebook, load_rulebook
from riglint.rulekit import Signal

CHECKOUT = Path(__file__).parents[2]
AUDITS = Path(__file__).parent / "audits"
# A few rules, so that a new one changes nothing here: three object, one asks, one has nothing to look at.
RULES = ("anchor/sling_angle", "gear/inspection", "haul/brake_locked", "tail/knot", "tail/stopper")
BOOK = Rulebook({name: rule for name, rule in load_rulebook().rules.items() if name in RULES})


@pytest.fixture(scope="module")
def found() -> Audit:
    return audit([CHECKOUT / "examples/faulty/low-line.yaml"], BOOK, date(2026, 5, 2))


def printed(found: Audit, form: str) -> str:
    if form == "md":
        return audit_markdown(found, Signal.WARNING)
    if form == "xml":
        return "".join(audit_junit(found, Signal.WARNING))
    return audit_sarif(found, BOOK, Signal.WARNING)


@pytest.mark.parametrize("form", ["sarif", "xml", "md"])
def test_the_report_is_the_one_last_read(found: Audit, form: str) -> None:
    golden = AUDITS / f"faulty-low-line.{form}"
    report = printed(found, form)
    if os.environ.get("UPDATE_GOLDEN") == "1":
        golden.parent.mkdir(exist_ok=True)
        golden.write_text(report, encoding="utf-8", newline="\n")
    assert golden.is_file(), "No such report yet: run with UPDATE_GOLDEN=1, then read it."
    assert report == golden.read_text(encoding="utf-8")
