"""The program counts too: an edited rule, another version of a package, something in the way of a module."""

import shutil
import sys
import time
from pathlib import Path

import pytest
import yaml

from riglint.remembered import calls
from riglint.remembered.modules import COARSEST_NS, in_the_way, settled
from tests.cli.calling import CHECKOUT
from tests.remembered.asking import Memory


@pytest.fixture
def copied(memory: Memory, tmp_path: Path) -> Path:
    """Let the calls run a copy of riglint; return its folder."""
    folder = tmp_path / "program"
    for name in ("riglint", "rules"):
        shutil.copytree(CHECKOUT / name, folder / name)
    shutil.copy(CHECKOUT / "pyproject.toml", folder)
    memory.more = {"PYTHONPATH": str(folder)}
    time.sleep(COARSEST_NS / 1e9)
    return folder


@pytest.mark.parametrize(
    "file", ["rules/tail/webbing.py", "riglint/reports/audit/json_report.py", "rules/manifest.txt"]
)
def test_an_own_file_is_edited(memory: Memory, copied: Path, file: str) -> None:
    before = memory.fill()
    with (copied / file).open("a", encoding="utf-8") as stream:
        stream.write("\n\n# more\n")
    memory.is_not_deceived(before, changes=file.startswith("rules"))  # rules are not as they came


def test_an_own_rule_appears(memory: Memory, copied: Path) -> None:
    before = memory.fill()
    shutil.copy(copied / "rules/tail/webbing.py", copied / "rules/tail/another.py")
    memory.is_not_deceived(before)


def test_a_package_that_decides_is_another_one(memory: Memory, tmp_path: Path) -> None:
    folder = tmp_path / "packages"
    shutil.copytree(Path(yaml.__file__).parent, folder / "yaml")
    memory.more = {"PYTHONPATH": f"{CHECKOUT}:{folder}"}
    time.sleep(COARSEST_NS / 1e9)
    before = memory.fill()
    init = folder / "yaml/__init__.py"
    init.write_text(init.read_text("utf-8").replace("__version__ = '", "__version__ = '9"), "utf-8")
    memory.is_not_deceived(before, changes=False)
    memory.fill()
    shutil.copytree(folder / "yaml", memory.where / "yaml")  # -m takes modules of the working folder first
    memory.ask()
    assert not memory.remembered


def test_a_file_that_is_younger_than_the_call_is_not_relied_on() -> None:
    look, began = (b"code", b"/a.py"), 5_000_000_000
    assert settled({look: b"1 2 3 4 %d" % (began - COARSEST_NS - 1)}, began)
    assert not settled({look: b"1 2 3 4 %d" % (began - COARSEST_NS)}, began)
    assert not settled({look: b"refused 2"}, began)


def test_what_comes_in_the_way_of_a_module_is_seen(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.syspath_prepend(tmp_path)
    before = in_the_way(b"yaml rich")
    (tmp_path / "other.py").touch()
    assert in_the_way(b"yaml rich") == before
    (tmp_path / "yaml.py").touch()
    assert in_the_way(b"yaml rich") != before


@pytest.mark.parametrize(
    ("name", "value"),
    [("version", "3.99.0"), ("executable", "/other"), ("path", ["/other"]), ("flags", "-O")],
)
def test_another_python_is_another_call(name: str, value: object, monkeypatch: pytest.MonkeyPatch) -> None:
    before = calls.key(["audit", "."])
    assert calls.key(["audit", "."]) == before
    monkeypatch.setattr(sys, name, value)
    assert calls.key(["audit", "."]) != before


@pytest.mark.parametrize(
    "name", ["NO_COLOR", "COLUMNS", "TERM", "LC_ALL", "GIT_DIR", "HOME", "PYTHONUTF8", "TZ"]
)
def test_another_environment_is_another_call(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv(name, raising=False)
    before = calls.key(["audit", "."])
    monkeypatch.setenv(name, "anything")
    assert calls.key(["audit", "."]) != before


def test_no_words_run_into_each_other() -> None:
    said = [["audit", "a", "b"], ["audit", "a b"], ["audit", "ab"], ["audit", "a\n", "b"], ["audita", "b"]]
    assert len({calls.key(one) for one in said}) == len(said)


@pytest.mark.parametrize(
    "words",
    [
        "draft rig",
        "ask a.yaml",
        "tick a.yaml",
        "page site",
        "audit - --as a.yaml",
        "audit a.yaml --output a.txt",
        "audit a.yaml --output=a.txt",
        "audit a.yaml --write json=a.json",
        "audit a.yaml --house-rules=ours",
        "audit a.yaml --afresh",
        "",
    ],
)
def test_what_is_not_remembered(words: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv(calls.VARIABLE, raising=False)
    assert calls.may_be_remembered(["audit", "a.yaml"])
    assert not calls.may_be_remembered(words.split())
