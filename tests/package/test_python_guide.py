"""The guide to riglint from Python and its scripts do what they show; importing riglint stays cheap."""

import ast
import doctest
import subprocess
import sys
from pathlib import Path

import pytest

import riglint
from tests.package.checkout import CHECKOUT, program, started

GUIDE = CHECKOUT / "examples/guides/python.md"
SCRIPTS = CHECKOUT / "examples/scripts"


def test_the_guide_shows_what_is_printed(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(CHECKOUT)
    result = doctest.testfile(str(GUIDE), module_relative=False)
    assert result.attempted > 10
    assert result.failed == 0


def test_every_public_name_is_there_and_none_else_is_offered_lazily() -> None:
    assert all(getattr(riglint, name) for name in riglint.__all__)
    assert {name for names in riglint._HOMES.values() for name in names} == set(riglint.__all__) - {
        "__version__"
    }
    typed = [
        alias.name
        for node in ast.walk(ast.parse((CHECKOUT / "riglint/__init__.py").read_text(encoding="utf-8")))
        if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("riglint.")
        for alias in node.names
    ]
    assert sorted(typed) == sorted(set(riglint.__all__) - {"__version__"})


def test_importing_riglint_loads_nothing_else_of_it() -> None:
    rooms = "name for name in sys.modules if name.startswith(('riglint.', 'yaml', 'pydantic'))"
    code = f"import sys, riglint; print(*({rooms}))"
    assert started([sys.executable, "-c", code], CHECKOUT).stdout.strip() == ""


def test_the_picture_shows_three_webbings_the_stiffest_lowest(tmp_path: Path) -> None:
    file = tmp_path / "tension.svg"
    said = started([sys.executable, str(SCRIPTS / "tension_against_span.py"), str(file)], CHECKOUT).stdout
    assert file.read_text(encoding="utf-8").count("<polyline ") == 3
    at_60_m = [float(line.split()[-2]) for line in said.splitlines()]
    assert at_60_m == sorted(at_60_m, reverse=True)


def test_the_table_holds_every_finding_once() -> None:
    said = started(
        [sys.executable, str(SCRIPTS / "findings_table.py"), "examples/faulty/low-line.yaml"], CHECKOUT
    )
    found = riglint.audit(CHECKOUT / "examples/faulty/low-line.yaml")
    rules = sorted(one.rule for one in found.findings if one.counts and one.kind != "review")
    assert sorted(line.split()[1] for line in said.stdout.splitlines()) == rules


@pytest.mark.parametrize("script", sorted(SCRIPTS.glob("*.py")), ids=lambda path: path.name)
def test_a_script_passes_the_strict_type_check(script: Path) -> None:
    call = [program("mypy"), "--strict", "--config-file=", str(script)]
    result = subprocess.run(call, cwd=CHECKOUT, capture_output=True, encoding="utf-8", check=False)
    assert result.returncode == 0, result.stdout
