"""What riglint rests on: its licences, its lowest versions, and every Python that is here.

Outside references: the metadata of the installed packages (Core metadata specification: License-Expression, License,
Classifier), and pip, which installs the lowest versions. Without the package index the latter are skipped.
"""

import json
import re
import shutil
import sys
import tomllib
import venv
from importlib.metadata import Distribution, distribution
from pathlib import Path
from typing import NamedTuple

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

from riglint.page.materials import MissingPartError, bring_packages, bring_scripts
from tests.package.checkout import CHECKOUT, started

PAGE = (CHECKOUT / "riglint/DEPENDENCIES.md").read_text(encoding="utf-8")
PROJECT = tomllib.loads((CHECKOUT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
DIRECT = [Requirement(one) for one in (*PROJECT["dependencies"], *PROJECT["optional-dependencies"]["editor"])]
ROW = re.compile(
    r"^\| (?P<name>[a-z-]+) \| [^|]* \| (?P<licence>[A-Za-z0-9.-]+) \| (?:`(?P<versions>[^`]*)`)? ?\|$",
    re.MULTILINE,
)
# As older metadata names a licence, and its SPDX identifier.
SPDX = {
    "MIT": "MIT",
    "MIT License": "MIT",
    "Apache Software License": "Apache-2.0",
    "BSD License": "BSD-2-Clause",
}
PYTHONS = ("3.11", "3.12", "3.13", "3.14")
ON = "2026-05-02"


class Row(NamedTuple):
    """What the page says of a package."""

    licence: str
    versions: str


LISTED = {one["name"]: Row(one["licence"], one["versions"] or "") for one in ROW.finditer(PAGE)}


def licence_of(package: Distribution) -> str:
    """Return the SPDX identifier that a package gives itself."""
    about = package.metadata
    if "License-Expression" in about:
        return str(about["License-Expression"])
    named = [
        one.rpartition(" :: ")[2] for one in about.get_all("Classifier", []) if one.startswith("License ::")
    ]
    return SPDX[named[0] if named else str(about["License"])]


def all_needed() -> dict[str, Distribution]:
    """Return every package that comes with riglint and its editor, as it is installed here."""
    found: dict[str, Distribution] = {}
    waiting = [*DIRECT]
    while waiting:
        one = waiting.pop()
        name = canonicalize_name(one.name)
        if name in found or (one.marker is not None and not one.marker.evaluate({"extra": ""})):
            continue
        found[name] = distribution(one.name)
        waiting += [Requirement(more) for more in found[name].requires or []]
    return found


def test_every_package_is_listed_with_its_licence() -> None:
    assert {name: licence_of(package) for name, package in all_needed().items()} == {
        name: row.licence for name, row in LISTED.items()
    }


def test_the_versions_are_those_of_the_project() -> None:
    wanted = {one.name: {str(one) for one in one.specifier} for one in DIRECT}
    listed = {name: set(row.versions.split(",")) for name, row in LISTED.items() if row.versions}
    assert listed == wanted


def test_no_package_asks_for_more_than_to_be_named() -> None:
    """A licence that would bind riglint itself is a decision, not an update."""
    assert {row.licence for row in LISTED.values()} <= {
        "MIT",
        "BSD-2-Clause",
        "BSD-3-Clause",
        "Apache-2.0",
        "PSF-2.0",
    }


def installed(python: Path, *what: str) -> None:
    """Install from the package index; skip the test where there is none."""
    call = [str(python), "-m", "pip", "install", "--quiet", "--disable-pip-version-check", *what]
    result = started(call, CHECKOUT)
    if result.returncode and re.search(r"No matching distribution|connection|resolve", result.stdout):
        pytest.skip("the package index does not answer, or lacks a version")
    assert result.returncode == 0, result.stdout


AUDIT = ("audit", ".", "--on", ON, "--format", "json")


def audited(python: Path | str, where: Path) -> object:
    """Return the audit of some examples as data."""
    lay_down(where)
    result = started([str(python), "-m", "riglint", *AUDIT], where)
    assert result.returncode == 1, result.stdout
    return json.loads(result.stdout)


def lay_down(where: Path) -> None:
    """Copy the examples that are audited."""
    for name in (
        "rig-library",
        "spots/orchard.yaml",
        "shelf/club.yaml",
        "rigs/low-line.yaml",
        "faulty/low-line.yaml",
    ):
        (where / name).parent.mkdir(exist_ok=True)
        shutil.copy(CHECKOUT / "examples" / name, where / name)


def lowest(one: Requirement) -> str:
    (least,) = [part.version for part in one.specifier if part.operator == ">="]
    return f"{one.name}=={least}"


def test_the_lowest_versions_say_the_same(wheel: Path, tmp_path: Path) -> None:
    venv.create(tmp_path / "low", with_pip=True, symlinks=True)
    python = tmp_path / "low/bin/python"
    installed(python, f"{wheel}[editor]", *map(lowest, DIRECT))
    for name in ("lowest", "here"):
        (tmp_path / name).mkdir()
    assert audited(python, tmp_path / "lowest") == audited(sys.executable, tmp_path / "here")
    served = started([str(python), "-m", "riglint", "serve-editor"], tmp_path)
    assert "Traceback" not in served.stdout


@pytest.mark.parametrize("version", PYTHONS)
def test_each_python_says_the_same(version: str, wheel: Path, tmp_path: Path) -> None:
    """A version is a classifier of the project once it has run here."""
    found = shutil.which(f"python{version}")
    if found is None or started([found, "--version"], tmp_path).returncode:
        pytest.skip(f"no Python {version} here")
    assert f"Programming Language :: Python :: {version}" in PROJECT["classifiers"]
    assert started([found, "-m", "venv", str(tmp_path / "env")], tmp_path).returncode == 0
    python = tmp_path / "env/bin/python"
    installed(python, str(wheel))
    for name in ("other", "here"):
        (tmp_path / name).mkdir()
    assert audited(python, tmp_path / "other") == audited(sys.executable, tmp_path / "here")


def test_python_3_14_of_the_page_says_the_same(tmp_path: Path) -> None:
    """The page carries CPython 3.14, compiled for browsers; node runs it, so no Python 3.14 needs to be installed."""
    site, club = tmp_path / "site", tmp_path / "club"
    for folder in (site, club, tmp_path / "wheels", tmp_path / "scripts", tmp_path / "here"):
        folder.mkdir()
    try:
        modules = bring_scripts(tmp_path / "scripts")
        bring_packages(tmp_path / "wheels", site)
    except MissingPartError as missing:
        pytest.skip(str(missing))
    shutil.copytree(CHECKOUT / "riglint", site / "riglint")
    shutil.copytree(CHECKOUT / "rules", site / "riglint/rules")
    lay_down(club)
    script = Path(__file__).with_name("on_wasm.mjs")
    call = ["node", str(script), str(modules / "pyodide"), str(site), str(club), *AUDIT]
    result = started(call, tmp_path)
    version, status, said = json.loads(result.stdout)
    assert version == [3, 14]
    assert status == 1
    assert json.loads(said) == audited(sys.executable, tmp_path / "here")
    assert "Programming Language :: Python :: 3.14" in PROJECT["classifiers"]
