"""A class name has one meaning: whoever searches for it comes to one place."""

import ast
from collections import defaultdict

from tests.package.checkout import CHECKOUT


def classes(source: str) -> list[str]:
    """Return the names of all classes of a module, without the mark of private ones."""
    return [node.name.lstrip("_") for node in ast.walk(ast.parse(source)) if isinstance(node, ast.ClassDef)]


def test_each_class_name_stands_once() -> None:
    places = defaultdict(list)
    for room in ("riglint", "rules"):
        for path in sorted((CHECKOUT / room).rglob("*.py")):
            for name in classes(path.read_text(encoding="utf-8")):
                places[name].append(path.relative_to(CHECKOUT).as_posix())
    assert len(places) > 200, "the sources were not found"
    assert {name: found for name, found in places.items() if len(found) > 1} == {}


def test_private_and_inner_classes_count() -> None:
    source = "class A:\n    class _B: ...\ndef f():\n    class A: ...\n"
    assert sorted(classes(source)) == ["A", "A", "B"]
