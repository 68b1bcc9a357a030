"""Files, reports, memory, solver steps and libraries fail in turn, one at a time: never a quiet answer."""

import io
import math
import sys
import types
from importlib import import_module
from pathlib import Path
from typing import Any, NoReturn

import pytest

from riglint import rulebook
from riglint.findings.library import auditor
from tests.cli.calling import DAY, SHORT_TAIL, SOUND, write
from tests.injection.failing import (
    MECHANICS,
    OURS,
    Said,
    Touch,
    audited,
    by_path,
    functions_called,
    guarded,
    names,
    not_failed_closed,
    shown,
    with_failing,
)

STEPS = (ZeroDivisionError, OverflowError, RecursionError, MemoryError)
LOUD = ("WARNING", "DANGER")
EACH = 23  # every so many functions are tried here; `python -m tests.injection` tries all
FORMS = ("text=r.txt", "html=r.html", "markdown=r.md", "sarif=r.sarif", "junit=r.xml")
WRITTEN = tuple(word for form in FORMS for word in ("--write", form))


@pytest.fixture(scope="module")
def touch() -> Touch:
    return Touch()


@pytest.fixture
def here(library: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A library of two rigs, one with a fault, as the current folder."""
    write(library / "low.yaml", SHORT_TAIL)
    write(library / "sub/other.yaml", SOUND)
    monkeypatch.chdir(library)
    return library


@pytest.fixture
def whole_book(monkeypatch: pytest.MonkeyPatch) -> None:
    book = rulebook.load_rulebook()
    monkeypatch.setattr(rulebook, "load_rulebook", lambda: book)


@pytest.mark.usefixtures("by_one_rule")
def test_each_touch_of_a_file_fails_in_turn(here: Path, touch: Touch) -> None:
    whole = audited()
    for number in range(1, 1000):
        with touch.failing(here, number):
            said = audited()
        assert not not_failed_closed(whole, said), f"touch {number}"
        if touch.number < number:
            break
    assert number > 5, "nothing was touched"


@pytest.mark.usefixtures("by_one_rule")
def test_each_step_of_writing_reports_fails_in_turn(here: Path, touch: Touch) -> None:
    reports = [here / form.partition("=")[2] for form in FORMS]
    whole = audited(*WRITTEN)
    kept = [report.read_bytes() for report in reports]
    for number in range(1, 1000):
        with touch.failing(here, number):
            said = audited(*WRITTEN)
        assert not not_failed_closed(whole, said), f"touch {number}"
        halves = [path.name for path in here.iterdir() if path.name.startswith(".riglint-")]
        assert not halves, f"touch {number}"
        if said.status not in {2, 3}:
            assert [report.read_bytes() for report in reports] == kept
        if touch.number < number:
            break
    assert number > 20, "nothing was written"


class Choking(io.StringIO):
    """A stream whose writes fail from some number on."""

    def __init__(self, fails: int) -> None:
        super().__init__()
        self.left = fails

    def write(self, text: str) -> int:
        self.left -= 1
        if self.left < 0:
            raise OSError(28, "No space left on device")
        return super().write(text)


@pytest.mark.usefixtures("by_one_rule", "here")
@pytest.mark.parametrize("form", ["text", "json", "markdown", "html", "sarif", "junit"])
def test_each_write_to_standard_output_fails_in_turn(form: str, monkeypatch: pytest.MonkeyPatch) -> None:
    for fails in range(10):
        out, err = Choking(fails), io.StringIO()
        with monkeypatch.context() as patch:
            patch.setattr(sys, "stdout", out)
            patch.setattr(sys, "stderr", err)
            status = guarded(["audit", ".", *DAY, "--format", form])
        if out.left >= 0:
            break
        assert (status, err.getvalue()) == (3, "The report could not be printed: No space left on device.\n")
    assert fails >= 1


@pytest.mark.usefixtures("whole_book", "here")
def test_memory_runs_out_in_one_function_after_another() -> None:
    whole = audited()
    functions, _ = functions_called(OURS, audited)
    assert len(functions) > 800
    wrong = {shown(code): said for code in functions[::EACH] if (said := out_of_memory(whole, code))}
    assert wrong == {}


def out_of_memory(whole: Said, code: types.CodeType) -> str:
    return not_failed_closed(whole, with_failing(code, MemoryError, audited))


@pytest.mark.usefixtures("whole_book", "here")
def test_each_solver_step_fails_in_turn() -> None:
    whole = audited()
    functions, _ = functions_called(MECHANICS, audited)
    assert len(functions) > 60
    wrong = {}
    for number, code in enumerate(functions[::2]):
        error = STEPS[number % len(STEPS)]
        said = not_failed_closed(whole, with_failing(code, error, audited))
        if said:
            wrong[shown(code), error.__name__] = said
    assert wrong == {}


@pytest.mark.usefixtures("whole_book", "here")
def test_a_library_that_cannot_be_looked_at_whole_hides_no_rig(monkeypatch: pytest.MonkeyPatch) -> None:
    def fail(*_given: object) -> NoReturn:
        raise MemoryError

    whole = audited()
    monkeypatch.setattr(auditor, "look_across", fail)
    said = audited()
    assert said.status == 3
    for path, found in by_path(said).items():
        assert names(by_path(whole)[path]) <= names(found)
        assert [one["signal"] for one in found if one["crashed"]] == ["DANGER"]


# Numbers gone mad

NUMBERS = (
    "riglint.loads.strength.trees.trunk.bending_stress_pa",
    "riglint.loads.strength.trees.trunk.allowable_stress_pa",
    "riglint.loads.states.tie_back.catch_bound_n",
    "riglint.mechanics.rope.tackle.strand_sum",
)


def mad(name: str) -> tuple[Any, str]:
    """Return the module and the name in it."""
    module, _, function = name.rpartition(".")
    try:
        return import_module(module), function
    except ModuleNotFoundError:
        holder, _, inner = module.rpartition(".")
        return getattr(import_module(holder), inner), function


@pytest.mark.usefixtures("whole_book", "here")
@pytest.mark.parametrize("number", [math.nan, math.inf, -math.inf], ids=str)
@pytest.mark.parametrize("name", NUMBERS)
def test_a_number_gone_mad_is_never_a_pass(name: str, number: float, monkeypatch: pytest.MonkeyPatch) -> None:
    whole = audited()
    module, function = mad(name)
    called = []

    def gone_mad(*_given: object, **_named: object) -> float:
        called.append(function)
        return number

    monkeypatch.setattr(module, function, gone_mad)
    said = audited()
    assert called
    assert said.status >= whole.status
    for path, found in by_path(whole).items():
        more = [one for one in by_path(said)[path] if one not in found]
        assert any(
            one["kind"] == "open" or one["crashed"] or one["signal"] in {"DANGER", "WARNING"} for one in more
        ), path
