"""How much work a rig is: runs of rules, and lines put to rest, are counted, never seconds.

The numbers are those of one day with room above them, so that work which doubles, or which grows with the number of
rigs beside a rig, is noticed. A change that saves work lowers them; one that needs more says why in its own lines.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest

from riglint.findings import audit
from riglint.findings.auditing import load_rig
from riglint.findings.rule_runs import RulebookRun
from riglint.findings.variation.ranges import limits_of
from riglint.loads.states import standing, sweep
from riglint.mechanics.span import line
from riglint.rulebook import load_rulebook
from tests.benchmarks.libraries import write_library

ON = date(2026, 5, 2)
BOOK = load_rulebook()
CLUB = 23  # rigs of one club, each of another kind
ROOM = 1.15  # above what was counted
EVEN = 1.05  # times the work of one club, for each: their people and tensions differ
# What was counted: for each rig of a library, for one of its rigs (a park line), and for the limits of examples.
EACH = {"rules": 211, "solves": 794}
ONE = {"rules": 295, "solves": 1493}
LIMITS = {
    "compact/long-line": {"rules": 5335, "solves": 26236},
    "rigs/highline-webbing-backup": {"rules": 1913, "solves": 34511},
    "faulty/long-line": {"rules": 3229, "solves": 19897},
}
EXAMPLES = Path(__file__).parents[2] / "examples"
Work = Callable[[Callable[[], object]], Counter[str]]


@pytest.fixture(scope="module")
def work() -> Work:
    """Count what some work takes, with nothing known of earlier work."""

    def counted(of: Callable[[], object]) -> Counter[str]:
        seen: Counter[str] = Counter()
        for kept in (sweep._rests_along, sweep._landings, standing._webbing_for, standing._reach_for):
            kept.cache_clear()
        judge, solve = RulebookRun.judge, vars(line)["solve"]
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr(RulebookRun, "judge", lambda *given: (seen.update(["rules"]), judge(*given))[1])
            patch.setattr(
                line, "solve", lambda *given, **more: (seen.update(["solves"]), solve(*given, **more))[1]
            )
            of()
        return seen

    return counted


@pytest.fixture(scope="module")
def libraries(tmp_path_factory: pytest.TempPathFactory) -> dict[int, list[Path]]:
    """Libraries of one club and of two."""
    return {clubs: write_library(tmp_path_factory.mktemp("clubs"), clubs * CLUB) for clubs in (1, 2)}


@pytest.fixture(scope="module")
def audits(libraries: dict[int, list[Path]], work: Work) -> dict[int, Counter[str]]:
    """What an audit of each of them takes."""
    return {
        clubs: work(lambda files=files: audit([files[0].parents[2]], BOOK, ON))  # type: ignore[misc]
        for clubs, files in libraries.items()
    }


def test_twice_as_many_rigs_are_twice_the_work(audits: dict[int, Counter[str]]) -> None:
    for what, most in EACH.items():
        assert most * CLUB / 2 < audits[1][what] < ROOM * most * CLUB, what
        assert audits[2][what] < EVEN * 2 * audits[1][what], what


def test_one_rig_is_the_same_work_however_many_stand_beside_it(
    libraries: dict[int, list[Path]], work: Work
) -> None:
    few, more = (work(lambda rig=files[4]: audit([rig], BOOK, ON)) for files in libraries.values())  # type: ignore[misc]
    assert few == more
    for what, most in ONE.items():
        assert most / 2 < few[what] < ROOM * most, what


@pytest.mark.parametrize("rig", LIMITS)
def test_limits_judge_as_few_rigs_as_before(rig: str, work: Work) -> None:
    loads, told = load_rig(EXAMPLES / f"{rig}.yaml", ON, None)
    assert loads is not None, told
    seen = work(lambda: limits_of(loads, BOOK, ON))
    for what, most in LIMITS[rig].items():
        assert most / 2 < seen[what] < ROOM * most, what
