"""What DEVELOPERS.md names is there: files, folders, and the names of the nomenclature table."""

import re

import pytest

from tests.package.checkout import CHECKOUT

GUIDE = (CHECKOUT / "DEVELOPERS.md").read_text(encoding="utf-8")
TERMS = (CHECKOUT / "riglint/mechanics/README.md").read_text(encoding="utf-8")
CODE = "\n".join(file.read_text(encoding="utf-8") for file in (CHECKOUT / "riglint").rglob("*.py"))

RECIPES = ("rule", "limit", "unit", "kind of gear", "key", "state", "format", "command")
MOST_BYTES = 14_000
# Names in capitals of the code, and calls: `GEAR_OF_PART`, `need(…)`.
NAMED = re.compile(r"`([A-Z][A-Z_]{2,}|[A-Za-z_]+(?=\())")


def test_there_is_a_recipe_for_each_thing_that_is_added() -> None:
    assert re.findall(r"^### Add an? (.+)$", GUIDE, re.MULTILINE) == list(RECIPES)


@pytest.mark.parametrize("thing", RECIPES)
def test_every_name_of_a_recipe_stands_in_the_code(thing: str) -> None:
    recipe = re.split(r"^##", GUIDE.partition(f"### Add a {thing}\n")[2], maxsplit=1, flags=re.MULTILINE)[0]
    assert recipe.strip()
    code = CODE + "\n".join(file.read_text("utf-8") for file in (CHECKOUT / "rules").rglob("*.py"))
    gone = {name for name in NAMED.findall(recipe) if not re.search(rf"\b{name}\b", code)}
    assert gone - {"CHANGELOG"} == set()


def test_the_page_stays_short() -> None:
    assert len(GUIDE.encode()) <= MOST_BYTES


def test_every_file_and_folder_is_there() -> None:
    named = set(re.findall(r"`((?:riglint|rules|schemas|tests|\.ci)/[\w./]*)`", GUIDE))
    assert len(named) > 10
    assert {name for name in named if not (CHECKOUT / name).exists()} == set()


def test_every_name_of_the_nomenclature_is_used() -> None:
    table = TERMS.partition("## Nomenclature")[2]
    cells = [row.split("|")[4] for row in table.splitlines() if row.startswith("|")][2:]
    names = {name.rpartition(".")[2] for cell in cells for name in re.findall(r"`([\w.]+)`", cell)}
    assert len(names) > 20
    assert {name for name in names if not re.search(rf"\b{name}\b", CODE)} == set()


def test_every_room_has_its_line() -> None:
    rooms = {path.name for path in (CHECKOUT / "riglint").iterdir() if not path.name.startswith("_")}
    named = set(re.findall(r"^\| `riglint/([\w.]+)/?`", GUIDE, re.MULTILINE))
    assert rooms == named
