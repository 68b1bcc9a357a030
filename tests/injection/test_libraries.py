"""A library that is missing or broken: one sentence and exit 3, never a traceback, never a pass."""

import json
import os
import subprocess
from pathlib import Path

import pytest

from tests.cli.calling import CHECKOUT, DAY, SHORT_TAIL, command, environment, write


@pytest.fixture
def here(library: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A library of one rig with a fault, as the current folder."""
    write(library / "low.yaml", SHORT_TAIL)
    monkeypatch.chdir(library)
    return library


LACKING = ("yaml", "pydantic", "pydantic_core", "typing_extensions", "annotated_types")


@pytest.mark.parametrize("library_name", LACKING)
@pytest.mark.parametrize(
    "how", ["raise ImportError('gone')", "raise ValueError('odd')", "raise SystemExit(0)"]
)
def test_a_library_that_is_missing_or_broken_gives_3(here: Path, library_name: str, how: str) -> None:
    done = without(here, library_name, how, "audit", "low.yaml", *DAY)
    assert done.returncode == 3
    assert done.stdout == b""
    said = done.stderr.decode()
    assert said.count("\n") == 1
    assert "Traceback" not in said


def without(here: Path, library_name: str, how: str, *call: str) -> subprocess.CompletedProcess[bytes]:
    """Run a call where a library does something else than load."""
    write(here.parent / f"odd/{library_name}.py", f"{how}\n")
    path = f"{here.parent / 'odd'}:{CHECKOUT}"
    return subprocess.run(
        command(*call), cwd=here, env=environment() | {"PYTHONPATH": path}, capture_output=True, check=False
    )


def gone(library_name: str) -> str:
    """Return what Python does where a library is not installed."""
    return f"raise ModuleNotFoundError(\"No module named '{library_name}'\", name='{library_name}')"


CALLS = (
    ("audit", "low.yaml"),
    ("audit", "low.yaml", "--format", "json", "--write", "html=page.html"),
    ("sheet", "low.yaml"),
    ("limits", "low.yaml"),
    ("compare", "low.yaml", "low.yaml"),
    ("card", "low.yaml"),
    ("gauge", "low.yaml", "--pull", "200 N"),
    ("rulebook",),
)


@pytest.mark.parametrize("library_name", LACKING)
@pytest.mark.parametrize("call", CALLS, ids=" ".join)
def test_a_library_that_is_missing_is_named_with_what_to_do(
    here: Path, library_name: str, call: tuple[str, ...]
) -> None:
    done = without(here, library_name, gone(library_name), *call)
    assert (done.returncode, done.stdout) == (3, b"")
    assert done.stderr.decode() == (
        f"riglint needs the package {library_name}, which is missing or broken here "
        f"(No module named '{library_name}'). "
        "Install riglint again with all that it needs: python -m pip install --force-reinstall riglint\n"
    )
    assert not (here / "page.html").exists()


def test_colours_that_cannot_be_made_are_one_sentence(here: Path) -> None:
    """A terminal is what asks for colours; the other forms are made all the same."""
    write(here.parent / "odd/rich/__init__.py", gone("rich"))
    env = environment() | {"PYTHONPATH": f"{here.parent / 'odd'}:{CHECKOUT}", "TERM": "xterm"}
    master, slave = os.openpty()
    call = command("audit", "low.yaml", *DAY, "--write", "json=report.json")
    done = subprocess.run(call, cwd=here, env=env, stdout=slave, stderr=subprocess.PIPE, check=False)
    os.close(slave)
    os.close(master)
    assert done.returncode == 3
    assert done.stderr.decode().startswith("riglint needs the package rich, which is missing or broken here")
    assert json.loads((here / "report.json").read_text("utf-8"))["files"]


@pytest.mark.parametrize("library_name", ["rich", "jsonschema", "pygls", "lsprotocol"])
def test_a_library_that_a_call_does_not_need_changes_nothing(here: Path, library_name: str) -> None:
    call = ("audit", "low.yaml", *DAY)
    whole = subprocess.run(command(*call), cwd=here, env=environment(), capture_output=True, check=False)
    done = without(here, library_name, gone(library_name), *call)
    assert (done.returncode, done.stdout, done.stderr) == (whole.returncode, whole.stdout, whole.stderr)


def test_the_editor_without_its_protocol_gives_3(here: Path) -> None:
    done = without(here, "lsprotocol", gone("lsprotocol"), "serve-editor")
    assert (done.returncode, done.stdout) == (3, b"")
    assert done.stderr.decode().startswith(
        "riglint needs the package lsprotocol, which is missing or broken here"
    )
