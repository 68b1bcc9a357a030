"""What DEVELOPERS.md names is there: files, folders, and the names of the nomenclature table."""

import re

from tests.package.checkout import CHECKOUT

GUIDE = (CHECKOUT / "DEVELOPERS.md").read_text(encoding="utf-8")
TERMS = (CHECKOUT / "riglint/mechanics/README.md").read_text(encoding="utf-8")
CODE = "\n".join(file.read_text(encoding="utf-8") for file in (CHECKOUT / "riglint").rglob("*.py"))


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
