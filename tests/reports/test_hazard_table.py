"""The table of hazards follows the rules, and says of each hazard how it is caught."""

import pytest

from riglint.hazards import HAZARDS
from riglint.reports.rules.hazard_table import BEGIN, END, PAGE, hazard_table, page_with
from riglint.rulebook import Rulebook, load_rulebook

BOOK = load_rulebook()
TABLE = hazard_table(BOOK)
ROWS = {line.split("`")[1]: line for line in TABLE.splitlines() if line.startswith("| `")}


def test_page_holds_the_table_of_today() -> None:
    text = PAGE.read_text(encoding="utf-8")
    assert page_with(text, TABLE) == text, "run python -m riglint.reports.rules.hazard_table"


def test_each_hazard_has_a_row_with_all_that_catches_it() -> None:
    assert list(ROWS) == list(HAZARDS)
    for hazard, row in ROWS.items():
        cells = row.split(" | ")
        assert len(cells) == 4, row
        assert ("eyes on site" in cells[1]) == bool(HAZARDS[hazard].eyes)
        for rule_id, rule in BOOK.rules.items():
            assert (f"`{rule_id}`" in cells[1]) == (hazard in rule.prevents)
        assert (cells[2] == "–") == all(hazard not in rule.prevents for rule in BOOK.rules.values())


def test_counts_come_from_the_rules() -> None:
    only_there = "haul/brake_threading"
    without = Rulebook({name: rule for name, rule in BOOK.rules.items() if name != only_there})
    assert f"{len(HAZARDS)} hazards. Rules catch {caught(BOOK)} of them" in TABLE
    assert caught(without) == caught(BOOK) - 1
    assert f"Rules catch {caught(without)} of them" in hazard_table(without)


def caught(book: Rulebook) -> int:
    return sum(any(hazard in rule.prevents for rule in book.rules.values()) for hazard in HAZARDS)


def test_page_without_marks_is_left_alone() -> None:
    with pytest.raises(ValueError, match="once each"):
        page_with("no marks", TABLE)
    with pytest.raises(ValueError, match="once each"):
        page_with(f"{BEGIN}{BEGIN}{END}", TABLE)
