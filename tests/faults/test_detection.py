"""The README carries the figure that `python -m tests.detection` counts, and the count counts."""

from pathlib import Path

from riglint.hazards import HAZARDS
from riglint.rulekit import Signal
from tests.detection import figure, found_with_its_word, table, word_of
from tests.faults.seeded import by_name, seeded

README = Path(__file__).parents[2] / "README.md"


def test_readme_carries_the_figure() -> None:
    carried = README.read_text(encoding="utf-8").partition("<!-- detection: begin -->")[2]
    assert carried.partition("<!-- detection: end -->")[0].split() == figure().split()


def test_table_counts_every_hazard_and_every_fault_once() -> None:
    *phases, every = [[int(cell) for cell in row.split("|")[2:-1]] for row in list(table())[2:]]
    assert [sum(column) for column in zip(*phases, strict=True)] == every
    assert every[0] == len(HAZARDS)
    assert every[1] >= len(seeded())


def test_a_fault_counts_only_at_its_word() -> None:
    fault = by_name()["Highline without a backup line"]
    assert word_of(fault) == Signal.DANGER
    assert found_with_its_word(fault)
