"""No formula is there for its tests alone: what mechanics and loads offer, the package or a rule uses."""

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

import riglint
from riglint.rulebook import shipped

PACKAGE = Path(riglint.__file__).parent


def parsed(folder: Path) -> Iterator[ast.AST]:
    for file in sorted(folder.rglob("*.py")):
        yield ast.parse(file.read_text(encoding="utf-8"))


def offered(trees: list[ast.AST]) -> set[str]:
    """Return the names of all public functions, methods and classes."""
    kinds = ast.FunctionDef | ast.ClassDef
    return {
        node.name
        for tree in trees
        for node in ast.walk(tree)
        if isinstance(node, kinds) and not node.name.startswith("_")
    }


def named(trees: list[ast.AST]) -> set[str]:
    """Return every name that code uses; an import alone uses nothing, nor does a docstring."""
    found = set()
    for tree in trees:
        for node in ast.walk(tree):
            if isinstance(node, ast.Name):
                found.add(node.id)
            elif isinstance(node, ast.Attribute):
                found.add(node.attr)
    return found


@pytest.mark.parametrize("room", ["mechanics", "loadpath", "loads"])
def test_whatever_a_room_offers_is_used(room: str) -> None:
    users = [*parsed(PACKAGE), *parsed(Path(shipped("rules")))]
    names = offered(list(parsed(PACKAGE / room)))
    assert len(names) > 40, "the room was not found"
    assert names - named(users) == set()


def test_a_formula_that_is_only_imported_counts_as_unused() -> None:
    tree = ast.parse("from a import speed\ndef sag(): ...\nprint(sag())\n")
    assert offered([ast.parse("def speed(): ...")]) - named([tree]) == {"speed"}
