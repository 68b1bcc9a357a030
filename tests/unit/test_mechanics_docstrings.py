"""Docstrings of the mechanics come in one order: what and equation, arguments, returns, errors, source, example."""

import ast
import re
from pathlib import Path

import pytest

import riglint.mechanics

FOLDER = Path(riglint.mechanics.__file__).parent
HEADS = ("Args:", "Returns:", "Raises:", "Source:", ">>>")
# Steps of a formula that stands elsewhere with its source; and checks of ranges, which have none.
STEPS = {
    *(
        "march",
        "straightened",
        "solve",
        "guessed",
        "start_guess",
        "cut",
        "hang_along",
        "places",
        "profile",
        "describe",
    ),
    *("place", "crossing", "falling_root", "names", "rows"),
    *("require_within", "require_force", "plain", "number"),
}


def formulas() -> dict[str, str]:
    """Return the docstring of each public function that is no step of another."""
    found = {}
    for file in FOLDER.rglob("*.py"):
        for node in ast.parse(file.read_text(encoding="utf-8")).body:
            if isinstance(node, ast.FunctionDef) and not node.name.startswith("_"):
                found[node.name] = ast.get_docstring(node) or ""
    return {name: text for name, text in found.items() if name not in STEPS}


ALL = formulas()


@pytest.mark.parametrize("name", ALL)
def test_its_sections_come_in_order_and_end_with_an_example_that_runs(name: str) -> None:
    heads = re.findall(r"Args:|Returns:|Raises:|Source:|^>>>", ALL[name], re.MULTILINE)
    assert heads == sorted(heads, key=HEADS.index)
    assert ">>>" in heads
    assert "Source:" in heads
