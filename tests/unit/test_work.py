"""How much work an audit is, counted in runs of rules and in texts that are read; never in seconds."""

from collections import Counter
from datetime import date
from pathlib import Path

import pytest

from riglint.findings import audit
from riglint.findings.rule_runs import RulebookRun as _Run
from riglint.mechanics.span.chain import solve
from riglint.read import quantity
from riglint.rulebook import load_rulebook
from tests.benchmarks.libraries import write_library

ON = date(2026, 5, 2)
CLUB = 23  # rigs of one club of such a library


@pytest.fixture
def work(monkeypatch: pytest.MonkeyPatch) -> Counter[str]:
    """How often a rule is run, and how often a line is put to rest."""
    seen: Counter[str] = Counter()
    judge = _Run.judge
    monkeypatch.setattr(_Run, "judge", lambda *given: (seen.update(["rules"]), judge(*given))[1])
    monkeypatch.setattr(
        "riglint.mechanics.span.line.solve",
        lambda *given, **more: (seen.update(["solves"]), solve(*given, **more))[1],
    )
    return seen


def test_a_moved_rig_is_judged_by_the_rules_that_read_what_moved(tmp_path: Path, work: Counter[str]) -> None:
    """All rules three times would be a rig and both ends of its one ±."""
    book = load_rulebook()
    (file,) = write_library(tmp_path, 1)
    assert "±" in (tmp_path / "club-0000" / "spots" / "playground-lawn.yaml").read_text("utf-8")
    audit([file], book, ON)
    assert work["rules"] < 2 * len(book.rules)


def test_twice_as_many_rigs_are_twice_the_work(tmp_path: Path, work: Counter[str]) -> None:
    book = load_rulebook()
    counts = []
    for rigs in (3, 6):
        # The same rigs twice over, in clubs of their own, so that each is as much work as its likeness.
        folder = tmp_path / str(rigs)
        for n in range(rigs // 3):
            write_library(folder / str(n), 3)
        work.clear()
        audit([folder], book, ON)
        counts.append(dict(work))
    assert {name: 2 * number for name, number in counts[0].items()} == counts[1]


def test_a_text_that_was_read_is_not_read_again(tmp_path: Path) -> None:
    book = load_rulebook()
    files = write_library(tmp_path, 3)
    audit(files, book, ON)
    read = quantity._parsed.cache_info().misses
    audit(files, book, ON)
    assert quantity._parsed.cache_info().misses == read
