"""The page of the mechanics names every module, and nothing that is not there; its figures are those of the code."""

import re
from importlib import import_module
from inspect import getdoc
from pathlib import Path

import riglint.mechanics
from riglint.mechanics.span.line import hang

FOLDER = Path(riglint.mechanics.__file__).parent
FILES = [path for path in FOLDER.rglob("*.py") if path.stem != "__init__"]
DOTTED = {
    path.stem: ".".join(("riglint.mechanics", *path.relative_to(FOLDER).with_suffix("").parts))
    for path in FILES
}
PAGE = (FOLDER / "README.md").read_text(encoding="utf-8").partition("## Nomenclature")[0]


def test_every_module_has_its_line_and_no_other() -> None:
    modules = {path.relative_to(FOLDER).with_suffix("").as_posix() for path in FILES}
    assert set(re.findall(r"^\| `([\w/]+)` \|", PAGE, re.MULTILINE)) == modules


def test_every_function_that_it_names_is_there() -> None:
    named = re.findall(r"`(\w+)\.(\w+)`", PAGE)
    assert len(named) >= 2
    for module, name in named:
        assert hasattr(import_module(DOTTED[module]), name)


def test_the_range_of_the_line_is_that_of_the_solver() -> None:
    said = " ".join((getdoc(hang) or "").split())
    assert "span 3-2000 m, rise ±40 % of it, tension 0.05-60 kN, stiffness 5 kN-5 MN, 0.1-5 N/m" in said
    page = " ".join(PAGE.split())
    assert "spans of 3 to 2000 m, a rise within ±40 % of that, 0.05 to 60 kN, 5 kN to 5 MN" in page


def test_its_links_lead_somewhere() -> None:
    links = re.findall(r"\]\(([^)#]+)\)", PAGE)
    assert links
    assert [link for link in links if not (FOLDER / link).exists()] == []
