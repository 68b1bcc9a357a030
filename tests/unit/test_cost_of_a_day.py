"""A day at a spot costs little more than its rigs one by one: sums and meetings reuse what was computed."""

from datetime import date
from pathlib import Path

from riglint.findings import audit
from riglint.rulebook import load_rulebook
from tests.golden.test_golden_effort import counted

FESTIVAL = Path(__file__).parents[2] / "examples" / "festival"
ON, DAY = date(2026, 5, 2), date(2026, 5, 9)
MOST = 1.5


def test_a_day_marches_along_few_chains_more_than_its_rigs_one_by_one() -> None:
    book = load_rulebook()
    rigs = sorted((FESTIVAL / "rigs").glob("*.yaml"))
    with counted() as apart:
        for rig in rigs:
            audit([rig], book, ON)
    with counted() as together:
        audit([FESTIVAL], book, ON, day=DAY)
    assert apart.taken > 0
    assert together.taken <= MOST * apart.taken
