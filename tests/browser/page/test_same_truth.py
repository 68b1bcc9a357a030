"""Page and command line say the same, byte for byte: audits, cards and sheets of examples, faulty and broken files."""

import json
from collections.abc import Sequence
from pathlib import Path

import pytest

from riglint import __version__
from riglint.cli import main
from tests.browser.devtools import Page
from tests.browser.page.conftest import engine

CHECKOUT = Path(__file__).parents[3]
ON = "2026-05-02"
KINDS = (".yaml", ".yml", ".txt")


def library_files() -> dict[str, bytes]:
    """The files of examples and broken ones, as they are named in the library that both judge."""
    named = {
        "examples": CHECKOUT / "examples",
        "broken": CHECKOUT / "tests/broken",
    }
    return {
        f"{name}/{file.relative_to(folder).as_posix()}": file.read_bytes()
        for name, folder in named.items()
        for file in sorted(folder.rglob("*"))
        if file.is_file()
        and (file.suffix in KINDS or file.name == "rig-library")
        and "house_rules" not in file.parts
    }


FILES = library_files()
DOCUMENTS = [name for name in FILES if name.endswith(".yaml")]
RIGS = [
    name for name in DOCUMENTS if name.startswith("examples/") and FILES[name].startswith(b"riglint: rig/")
]
BROKEN = [name for name in DOCUMENTS if name.startswith("broken/")]
# Judged in each run; -m slow judges the rest.
FEW = [name for name in RIGS if name.split("/")[1] in {"rigs", "faulty", "open"}]


@pytest.fixture(scope="module")
def library(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The same files for the command line."""
    folder = tmp_path_factory.mktemp("library")
    (folder / "rig-library").touch()
    for name, raw in FILES.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_bytes(raw)
    return folder


@pytest.fixture
def filled(page: Page) -> Page:
    engine(page, "about", FILES)
    return page


def told(capsys: pytest.CaptureFixture[str], *call: str) -> tuple[int, str, str]:
    status = main(call)
    out, err = capsys.readouterr()
    return status, out, err


def differing(
    page: Page, capsys: pytest.CaptureFixture[str], calls: Sequence[tuple[str, ...]]
) -> dict[str, tuple[object, object]]:
    """The calls that page and command line answer differently; status, report and complaints all count."""
    found: dict[str, tuple[object, object]] = {}
    for call in calls:
        line = told(capsys, *call)
        said = engine(page, "command", arguments=list(call))
        if (said["status"], said["out"], said["err"]) != line:
            found[" ".join(call)] = (said, line)
    return found


def reports(command: str, names: Sequence[str]) -> list[tuple[str, ...]]:
    return [(command, name, "--on", ON, "--format", "json") for name in names]


def test_the_files_are_those_that_we_mean() -> None:
    assert len(RIGS) >= 40
    assert len(FEW) >= 14
    assert len(BROKEN) >= 90


def test_it_is_the_same_version(page: Page) -> None:
    assert engine(page, "about")["version"] == __version__


def test_the_answer_on_the_screen_comes_from_the_report_of_the_command_line(
    filled: Page, library: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(library)
    wrong = []
    for name in (*FEW, *BROKEN[::3]):
        _, out, _ = told(capsys, "audit", name, "--on", ON, "--format", "json")
        if engine(filled, "audit", paths=[name], on=ON)["report"] != out:
            wrong.append(name)
    assert wrong == []


def test_cards_and_sheets(
    filled: Page, library: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(library)
    some = (*FEW[::2], *BROKEN[::12])
    calls = [*reports("card", some), *reports("sheet", some)]
    assert differing(filled, capsys, calls) == {}


def test_a_different_answer_would_be_seen(
    filled: Page, library: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(library)
    changed = FILES | {FEW[0]: FILES[FEW[0]].replace(b" kN", b"  kN", 1)}
    engine(filled, "about", changed)
    try:
        assert len(differing(filled, capsys, reports("card", [FEW[0]]))) == 1
    finally:
        engine(filled, "about", FILES)


@pytest.mark.slow
def test_every_example_and_every_broken_file(
    filled: Page, library: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(library)
    calls = [call for command in ("audit", "card", "sheet") for call in reports(command, DOCUMENTS)]
    calls.append(("audit", "examples", "--on", ON, "--format", "json"))
    assert differing(filled, capsys, calls) == {}
    print(json.dumps({"identical": len(calls)}))  # noqa: T201 - the count that is told of
