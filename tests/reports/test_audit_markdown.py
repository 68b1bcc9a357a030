"""The audit as a comment: whole, short, and without anything of a file becoming markup.

What the host would make of it is read by a CommonMark parser with tables (markdown-it), apart from the references that
hosts add themselves: those need a word right after their sign, so no sign may stand right before a word.
"""

import re
from pathlib import Path

import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from markdown_it import MarkdownIt

from riglint.findings import Audit, Finding, Where
from riglint.findings.finding import FileResult
from riglint.model.values.sources import OWN
from riglint.reports.audit.markdown import MOST_FINDINGS, audit_markdown, plain_text
from riglint.rulekit import Signal
from riglint.rulekit.verdicts import Kind
from riglint.views.audit.reader import for_a_reader
from riglint.views.audit.words import closing
from tests.reports.forms import ACCEPTED, BROKEN, FAULTY, HOSTILE, ON, OPEN, SHORT_TAIL, STOP, audited

READER = MarkdownIt("commonmark").enable("table")
REFERENCE = re.compile(r"(?<!&)[@#!~$%^](?=\w)")
HOST_LIMIT = 65_536  # characters of a comment on a widely used host, the least that we know of; from memory


def finding(message: str, signal: Signal = Signal.DANGER, kind: Kind = "fail") -> Finding:
    return Finding("tail/webbing", signal, kind, message, "why", message, Where(message, 3, 1, "key"), OWN)


def of(*findings: Finding) -> Audit:
    return Audit(ON, [FileResult("a.yaml", "rig", findings=list(findings))])


def tags(text: str) -> set[str]:
    """Return the markup that a reader sees in a page."""
    found = set()
    for token in READER.parse(text):
        found.add(token.type)
        found.update(child.type for child in token.children or [])
    return found


def rows(text: str) -> list[str]:
    return re.findall(r"<tr>.*?</tr>", READER.render(text), re.DOTALL)


def test_the_summary_comes_first_and_every_finding_that_stops_has_a_row() -> None:
    page = audit_markdown(FAULTY, STOP)
    assert page.splitlines()[2].startswith(("**DANGER: Do not tension.", "**DANGER: Of "))
    assert plain_text(closing(FAULTY)) in page
    for one in for_a_reader(FAULTY).findings:
        if one.signal >= STOP:
            assert any(plain_text(one.message) in row for row in page.splitlines())
    assert page.index("At or above WARNING") < page.index("Below WARNING")
    assert "A calculation is no inspection." in page


def test_what_the_cap_leaves_out_is_counted_gravest_kept() -> None:
    many = [finding(f"caution {n}", Signal.CAUTION) for n in range(MOST_FINDINGS)]
    page = audit_markdown(of(*many, *(finding(f"danger {n}") for n in range(5))), STOP)
    assert page.count("| DANGER | danger") == 5
    assert page.count("| CAUTION | caution") == MOST_FINDINGS - 5
    assert "5 more findings left out here" in page


def test_one_file_is_one_file() -> None:
    assert "\n1 file seen: 1 audited" in audit_markdown(of(finding("one")), STOP)
    two = Audit(ON, [FileResult("a.yaml", "rig"), FileResult("b.yaml", "rig")])
    assert "\n2 files seen: 2 audited" in audit_markdown(two, STOP)


def test_the_longest_report_fits_into_a_comment() -> None:
    long = [finding("@|<" * 5000) for _ in range(200)]
    files = [FileResult("|" * 4000, "rig", findings=long, judged=False) for _ in range(50)]
    page = audit_markdown(Audit(ON, files), STOP)
    assert len(page) < HOST_LIMIT
    left_out = re.search(r"(\d+) more findings left out", page)
    assert left_out is not None
    shown = sum(row.startswith("| DANGER | ") for row in page.splitlines()) - 1
    assert int(left_out[1]) == 50 * 200 - shown


def test_unread_accepted_and_open_are_told(tmp_path: Path) -> None:
    found = audited(tmp_path, broken=BROKEN, low=SHORT_TAIL + ACCEPTED, open=OPEN)
    page = audit_markdown(found, STOP)
    assert "**Not judged:**\n\n- broken.yaml\n" in page
    assert "Accepted by gear keeper until 2026-06-01: the line is lowered tonight" in page
    assert "(open)" in page
    shorter = audit_markdown(found.without_accepted(), STOP)
    assert "lowered tonight" not in shorter
    assert "1 accepted findings left out." in shorter


@pytest.mark.parametrize(
    "text", [HOSTILE, "a\n\n# b\n- c", "![x](y)", "<!-- x", "/close", "\\|", "https://x.example"]
)
def test_nothing_of_a_file_becomes_markup(text: str) -> None:
    plain, odd = audit_markdown(of(finding("plain")), STOP), audit_markdown(of(finding(text)), STOP)
    assert tags(odd) == tags(plain)
    assert len(rows(odd)) == len(rows(plain))
    assert not any(line.startswith("/") for line in odd.splitlines())  # hosts take such lines as orders
    assert not REFERENCE.findall(READER.render(odd).replace("&amp;", ""))
    assert "www.evil" not in odd
    assert "://" not in odd


@given(st.text(max_size=60))
@example("!_after a sign")
def test_any_text_stays_in_its_cell(text: str) -> None:
    page = audit_markdown(of(finding(f"x{text}x")), STOP)
    assert tags(page) == tags(audit_markdown(of(finding("plain")), STOP))
    assert len(rows(page)) == len(rows(audit_markdown(of(finding("plain")), STOP)))
    assert all(len(re.findall("<td", row)) in {0, 4, 5} for row in rows(page))
    assert not REFERENCE.findall(re.sub(r"&#?\w+;", " ", READER.render(page)))


def test_a_rule_set_that_did_not_load_is_told() -> None:
    assert "did not load whole" in audit_markdown(Audit(ON, [], whole=False), STOP)
    assert "did not load whole" not in audit_markdown(FAULTY, STOP)
