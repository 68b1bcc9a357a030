"""How much work an audit is, counted in runs of rules and in texts that are read; never in seconds."""

from collections import Counter
from datetime import date
from pathlib import Path
from unittest.mock import patch

import pytest

from riglint.findings import audit
from riglint.findings.auditing import load_rig
from riglint.findings.rule_runs import RulebookRun as _Run
from riglint.findings.variation.ranges import limits_of
from riglint.loads.states import standing, sweep
from riglint.loads.what_if.solved_for import Search
from riglint.mechanics.span.chain import solve
from riglint.read import quantity
from riglint.rulebook import load_rulebook
from tests.benchmarks.libraries import write_library

ON = date(2026, 5, 2)
CLUB = 23  # rigs of one club of such a library
LONG_LINE = Path(__file__).parents[2] / "examples" / "rigs" / "long-line.yaml"


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
    for rigs in (3, 6, 12):
        # The same rigs again, in clubs of their own, so that each is as much work as its likeness.
        folder = tmp_path / str(rigs)
        for n in range(rigs // 3):
            write_library(folder / str(n), 3)
        work.clear()
        for kept in (
            sweep._rests_along,
            sweep._landings,
            standing._webbing_for,
            standing._reach_for,
        ):  # what one rig has solved serves its likeness
            kept.cache_clear()
        audit([folder], book, ON)
        counts.append(dict(work))
    rules = [one["rules"] for one in counts]
    assert rules == [rules[0], 2 * rules[0], 4 * rules[0]]
    solves = [one["solves"] for one in counts]
    assert 0 < solves[1] <= 2 * solves[0]
    assert solves[2] <= 2 * solves[1]


def test_limits_runs_the_rules_that_read_what_moved(work: Counter[str]) -> None:
    """All rules at each value, and at both ends of the one ±, would be three times as many."""
    book = load_rulebook()
    loads, told = load_rig(LONG_LINE, ON, None)
    assert loads is not None, told
    tried: Counter[object] = Counter()
    with_texts = Search.with_texts
    with patch.object(
        Search, "with_texts", lambda *given: (tried.update([given[1:]]), with_texts(*given))[1]
    ):
        limits_of(loads, book, ON)
    assert work["rules"] < len(tried) * len(book.rules)


def test_a_text_that_was_read_is_not_read_again(tmp_path: Path) -> None:
    book = load_rulebook()
    files = write_library(tmp_path, 3)
    audit(files, book, ON)
    read = quantity._parsed.cache_info().misses
    audit(files, book, ON)
    assert quantity._parsed.cache_info().misses == read
