"""Docstrings of the mechanics come in one order: what, equation, arguments, returns, errors, validity, source."""

import ast
import re
from pathlib import Path

import pytest

import riglint.mechanics

FOLDER = Path(riglint.mechanics.__file__).parent
HEADS = ("Args:", "Returns:", "Raises:", "Valid:", "Source:", ">>>")
NEVER_RAISES = {"green_wood", "toward"}
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


def formulas() -> dict[str, ast.FunctionDef]:
    """Return each public function that is no step of another."""
    found = {}
    for file in FOLDER.rglob("*.py"):
        for node in ast.parse(file.read_text(encoding="utf-8")).body:
            if isinstance(node, ast.FunctionDef) and not node.name.startswith("_"):
                found[node.name] = node
    return {name: node for name, node in found.items() if name not in STEPS}


FORMULAS = formulas()
ALL = {name: ast.get_docstring(node) or "" for name, node in FORMULAS.items()}
ARGUMENTS = {
    name: [one.arg for one in (*node.args.args, *node.args.kwonlyargs)] for name, node in FORMULAS.items()
}


@pytest.mark.parametrize("name", ALL)
def test_its_sections_come_in_order_and_end_with_an_example_that_runs(name: str) -> None:
    pattern = "|".join(f"^{re.escape(head)}" for head in HEADS)
    heads = list(dict.fromkeys(re.findall(pattern, ALL[name], re.MULTILINE)))
    assert heads == [head for head in HEADS if head != "Raises:" or name not in NEVER_RAISES]


@pytest.mark.parametrize("name", ALL)
def test_every_argument_is_described(name: str) -> None:
    listed = ALL[name].partition("Args:\n")[2].partition("Returns:")[0]
    listed_names = re.findall(r"^    (\w+): ", listed, re.MULTILINE)
    assert listed_names == ARGUMENTS[name]


@pytest.mark.parametrize("name", ALL)
def test_it_begins_with_an_equation_or_says_that_there_is_none(name: str) -> None:
    before = ALL[name].partition("Args:")[0]
    assert re.search(r"[=√·/×^−|→]|Σ|`\w+` solved|no equation|exact elastic catenary", before), before
