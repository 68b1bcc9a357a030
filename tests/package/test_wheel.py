"""What is built holds everything, nothing more, and works far from the checkout. Needs no network."""

import re
import sys
import sysconfig
import venv
import zipfile
from pathlib import Path

import pytest

from riglint import __version__
from tests.package.checkout import CHECKOUT, program, started

ON = "2026-05-02"


@pytest.fixture(scope="module")
def python(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Install the wheel in a fresh environment that borrows only the dependencies from this one."""
    home = tmp_path_factory.mktemp("environment")
    venv.create(home, symlinks=True)
    python = home / "bin/python"
    call = [
        sys.executable,
        "-m",
        "pip",
        "--python",
        str(python),
        "install",
        "--no-index",
        "--no-deps",
        str(wheel),
    ]
    result = started(call, home)
    assert result.returncode == 0, result.stdout
    (site,) = home.glob("lib/python*/site-packages")
    # A line in a .pth file adds one folder and reads no .pth file in it: an editable riglint stays unseen.
    (site / "borrowed.pth").write_text(sysconfig.get_path("purelib") + "\n", encoding="utf-8")
    return python


def shipped(folder: str) -> set[str]:
    """Return the files of a folder of the checkout, as they are named in a wheel."""
    files = (
        path for path in (CHECKOUT / folder).rglob("*") if path.is_file() and "__pycache__" not in path.parts
    )
    inside = "" if folder == "riglint" else "riglint/"
    return {inside + path.relative_to(CHECKOUT).as_posix() for path in files}


def test_the_wheel_holds_everything_and_nothing_more(wheel: Path) -> None:
    with zipfile.ZipFile(wheel) as archive:
        names = {name for name in archive.namelist() if ".dist-info/" not in name}
    wanted = shipped("riglint") | shipped("rules") | shipped("schemas") | shipped("examples")
    assert {
        "riglint/rules/tail/webbing.py",
        "riglint/baselines/long_haul.yaml",
        "riglint/drafts/longline.yaml",
        "riglint/cli/audit.py",
    } <= wanted
    assert names == wanted


def test_it_has_one_version(wheel: Path) -> None:
    assert wheel.name == f"riglint-{__version__}-py3-none-any.whl"


def test_its_page_on_an_index_has_no_link_that_leads_nowhere(wheel: Path) -> None:
    with zipfile.ZipFile(wheel) as archive:
        (name,) = [one for one in archive.namelist() if one.endswith(".dist-info/METADATA")]
        page = archive.read(name).decode()
    links = re.findall(r"\]\(([^)]*)\)", page)
    assert links
    assert [one for one in links if not one.startswith("https://")] == []
    assert "ten-minutes.md`" in page  # the words stay, with the place in `riglint examples`


def test_it_is_one_package_and_not_the_checkout(python: Path, tmp_path: Path) -> None:
    where = started([str(python), "-c", "import riglint; print(riglint.__file__)"], tmp_path)
    assert Path(where.stdout.strip()).is_relative_to(python.parents[1])
    for name in ("rules", "schemas", "tests"):
        result = started([str(python), "-c", f"import {name}"], tmp_path)
        assert f"ModuleNotFoundError: No module named '{name}'" in result.stdout


def test_it_brings_the_examples_and_audits_the_sound_ones(python: Path, tmp_path: Path) -> None:
    brought = started([str(python.with_name("riglint")), "examples", "examples"], tmp_path)
    assert brought.returncode == 0, brought.stdout
    call = [str(python.with_name("riglint")), "audit", "examples/rigs", "--on", ON]
    result = started(call, tmp_path)
    assert result.returncode == 0, result.stdout


def test_it_runs_all_rules_of_the_checkout(python: Path, tmp_path: Path) -> None:
    code = "from riglint.rulebook import load_rulebook; print(*load_rulebook().rules)"
    result = started([str(python), "-c", code], tmp_path)
    files = (CHECKOUT / "rules").glob("*/*.py")
    ids = {f"{file.parent.name}/{file.stem}" for file in files if file.name != "__init__.py"}
    assert ids
    assert set(result.stdout.split()) == ids


def test_its_types_satisfy_a_strict_script(python: Path, tmp_path: Path) -> None:
    script = tmp_path / "table.py"
    script.write_bytes((CHECKOUT / "examples/scripts/findings_table.py").read_bytes())
    call = [program("mypy"), "--strict", "--config-file=", f"--python-executable={python}", script.name]
    result = started(call, tmp_path)
    assert result.returncode == 0, result.stdout
