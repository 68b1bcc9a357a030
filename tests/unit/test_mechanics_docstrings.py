"""Docstrings of the mechanics come in one order: what, equation, arguments, returns, errors, validity, source."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

import riglint.mechanics

FOLDER = Path(riglint.mechanics.__file__).parent
HEADS = ("Args:", "Returns:", "Raises:", "Valid:", "Source:", ">>>")
NEVER_RAISES = {"green_wood", "toward", "profile"}
# Steps of a formula that stands elsewhere with its source; and checks of ranges, which have none.
STEPS = {
    *(
        "march",
        "straightened",
        "solve",
        "guessed",
        "start_guess",
        "hang_along",
        "looked_at",
        "most_stretched_m",
        "describe",
    ),
    *("place", "stretched", "stretched_between", "crossing", "falling_root", "names", "rows"),
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


# The unit that a name ends with, longest first, as a description writes it.
UNITS = {
    "_kg_per_m3": "kg/m³",
    "_n_per_m": "N/m",
    "_per_m_n": "N/m",
    "_m_per_s": "m/s",
    "_per_m": "kg/m",
    "_rad": "rad",
    "_kg": "kg",
    "_m2": "m²",
    "_pa": "Pa",
    "_m": "m",
    "_n": "N",
    "_s": "s",
}
# What has no unit says what kind of number it is.
PURE = r"\b(shares?|factor|ratio|coefficient|turns)\b"
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


def described() -> Iterator[tuple[str, str, str]]:
    """Yield each argument that is a number, or numbers: function and name, its name, how it is described."""
    for name, node in FORMULAS.items():
        listed = ALL[name].partition("Args:\n")[2].partition("Returns:")[0]
        words = dict(re.findall(r"^    (\w+): ((?:.|\n(?!    \w+: ))*)", listed, re.MULTILINE))
        for one in (*node.args.args, *node.args.kwonlyargs):
            kind = ast.unparse(one.annotation) if one.annotation else ""
            if re.search(r"\bfloat\b", kind) or (kind.startswith("Mapping") and "float" in kind):
                yield f"{name}.{one.arg}", one.arg, words.get(one.arg, "")


def unit_of(argument: str) -> str | None:
    """Return the unit that the name of an argument ends with; an error has that of what it is an error of."""
    name = argument.removesuffix("_error")
    return next((unit for ending, unit in UNITS.items() if name.endswith(ending)), None)


NUMBERS = list(described())


@pytest.mark.parametrize(
    ("argument", "words"), [(name, words) for _, name, words in NUMBERS], ids=[n[0] for n in NUMBERS]
)
def test_every_number_names_its_unit_or_says_that_it_has_none(argument: str, words: str) -> None:
    unit = unit_of(argument)
    if unit is None:
        assert re.search(PURE, words) or re.search(r"_n\b", words), words
    else:
        assert re.search(rf"(?<![\w/])[mkMG]?{re.escape(unit)}(?![\w/³²])", words), (unit, words)


@pytest.mark.parametrize(
    ("argument", "unit"),
    [("leash_n_per_m", "N/m"), ("mass_per_m_error", "kg/m"), ("drag_area_m2", "m²"), ("fraction", None)],
)
def test_the_unit_is_read_from_the_end_of_a_name(argument: str, unit: str | None) -> None:
    assert unit_of(argument) == unit


def test_steps_are_functions_that_there_are() -> None:
    there = {
        node.name
        for file in FOLDER.rglob("*.py")
        for node in ast.parse(file.read_text(encoding="utf-8")).body
        if isinstance(node, ast.FunctionDef)
    }
    assert there >= STEPS
