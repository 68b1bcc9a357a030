"""Rules that are not run again over a moved rig say what they would: the short way and the whole way agree."""

import ast
from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest

from riglint.findings import judging
from riglint.findings.judging import judge
from riglint.findings.variation import running_again
from riglint.findings.variation.objecting import Objecting
from riglint.findings.variation.ranges import limits_of
from riglint.loadpath import build
from riglint.loads import Loads
from riglint.loads.inputs import At
from riglint.loads.what_if.uncertain_inputs import UncertainInput, leaves, moved_ones, nudged, nudged_loads
from riglint.model.differences import Changes, changes
from riglint.model.library import Library, RigFile
from riglint.model.reads import reading, track_below
from riglint.model.references import resolve
from riglint.model.values.policy import Values
from riglint.model.vocabulary.fields import Form
from riglint.policy import DEFAULT
from riglint.read.quantity import Quantity
from riglint.rulebook import Rulebook, load_rulebook

ROOT = Path(__file__).parents[2] / "examples"
ON = date(2026, 5, 2)
RIGS = sorted(
    file for folder in ("rigs", "faulty", "ordinary/rigs", "open") for file in (ROOT / folder).glob("*.yaml")
)


@pytest.fixture(scope="module")
def book() -> Rulebook:
    """The rulebook, with each number that it reads taken note of."""
    track_below(Form)
    return load_rulebook()


def read(file: Path) -> RigFile:
    """A rig of the examples."""
    root = ROOT / "ordinary" if "ordinary" in file.parts else ROOT
    rig, problems, _ = resolve(Library(root), file)
    assert rig is not None, problems
    return rig


@pytest.mark.parametrize("file", RIGS[::2], ids=lambda file: f"{file.parent.name}-{file.stem}")
def test_findings_are_those_of_running_every_rule_again(
    file: Path, book: Rulebook, monkeypatch: pytest.MonkeyPatch
) -> None:
    short = judge(read(file), book, ON, weighed=True).findings
    monkeypatch.setattr(Changes, "touch", lambda *_: True)
    assert judge(read(file), book, ON, weighed=True).findings == short


def numbers_of(rig: RigFile) -> Iterator[UncertainInput]:
    """Every quantity of a rig, its spot and its gear, as if it had a ± of three tenths."""
    for inside, model in (
        ("rig", rig.rig.model_copy(update={"spot": None, "shelf": []})),
        ("spot", rig.spot),
    ):
        for key, value in leaves(model):
            if isinstance(value, Quantity):
                yield UncertainInput(At(rig.document, key), value.text, value.si, value.si * 0.3, inside, key)  # type: ignore[arg-type]
    for name, item in rig.items.items():
        for key, value in leaves(item.gear):
            if isinstance(value, Quantity):
                yield UncertainInput(
                    At(item.document, key), value.text, value.si, value.si * 0.3, "gear", key, name
                )


@pytest.mark.parametrize(
    "name", ["rigs/highline-rope-backup", "rigs/low-line", "ordinary/rigs/07-jumpline-hoist"]
)
@pytest.mark.parametrize("part", range(4))
def test_each_number_moved_by_itself_is_heard_of(name: str, part: int, book: Rulebook) -> None:
    rig = read(ROOT / f"{name}.yaml")
    first = running_again.run_rules(Loads(build(rig), Values(), ON), book, ON, DEFAULT)
    kept = 0
    for moved in list(numbers_of(rig))[part::32]:
        other = nudged(rig, moved, -1.0)
        again = running_again.run_again(first, Loads(build(other), Values(), ON), book)
        whole = running_again.run_rules(Loads(build(other), Values(), ON), book, ON, DEFAULT)
        assert judging.result_of(again, book) == judging.result_of(whole, book), moved.name
        kept += sum(not changes(rig, other).touch(one.read) for one in first.results.values())
    assert kept  # something was left out, else this shows nothing


@pytest.mark.parametrize("name", ["rigs/low-line", "ordinary/rigs/20-highline-trees"])
def test_limits_are_those_of_running_every_rule_over_every_value(
    name: str, book: Rulebook, monkeypatch: pytest.MonkeyPatch
) -> None:
    rig = read(ROOT / f"{name}.yaml")
    short = limits_of(Loads(build(rig), Values(), ON), book, ON)
    monkeypatch.setattr(Changes, "touch", lambda *_: True)
    monkeypatch.setattr(Objecting, "_objects", lambda *_: False)
    monkeypatch.setattr(Objecting, "as_written", lambda *_, **_more: False)
    assert limits_of(Loads(build(rig), Values(), ON), book, ON) == short


def test_what_a_path_keeps_reads_no_number() -> None:
    track_below(Form)
    for file in RIGS:
        path = build(read(file))
        with reading() as seen:
            for name in (
                "whole",
                "ends_in_anchors",
                "webbings",
                "haul",
                "carrying",
                "everything",
                "_spanned",
            ):
                getattr(path, name)
        assert not seen.all()


ROOMS = ("riglint/loads", "riglint/rulekit", "rules")
NOTED = {
    ("rig_loads.py", "consequence"),  # `computed` takes note
    ("rig_loads.py", "_catches_from"),  # `read_elsewhere` takes note
    ("backup.py", "row"),  # while the list of parts is made, which takes note
    ("part_list.py", "values"),
    ("part_list.py", "only_in"),
    ("pieces.py", "only_in"),
    ("solved_for.py", "_known"),  # rigs with other numbers, by these numbers
    ("case.py", "seeks_remedies"),
    ("library.py", "_companies"),  # of a whole library, which is judged once with its numbers as they are
    ("library.py", "_rule_id"),
}


def test_only_what_takes_note_keeps_what_it_computed() -> None:
    """A value that is kept without a note of what it was made of would be taken for one that read nothing."""
    kept = set()
    for file in (one for room in ROOMS for one in (ROOT.parent / room).rglob("*.py")):
        text = file.read_text("utf-8")
        assert "cached_property" not in text, file
        for function in ast.walk(ast.parse(text)):
            if isinstance(function, ast.FunctionDef) and function.name != "__init__":
                kept |= {(file.name, name) for name in attributes_set(function)}
    assert kept == NOTED


def attributes_set(function: ast.FunctionDef) -> Iterator[str]:
    """Attributes that a function sets, or fills where they are a table."""
    for node in ast.walk(function):
        targets: list[ast.expr] = []
        if isinstance(node, ast.Assign):
            targets = node.targets
        elif isinstance(node, ast.AugAssign | ast.AnnAssign):
            targets = [node.target]
        elif isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute):
            targets = [node.func.value] if node.func.attr in {"setdefault", "update"} else []
        assert not isinstance(node, ast.Global | ast.Nonlocal)
        for target in targets:
            inner = target.value if isinstance(target, ast.Subscript) else target
            if isinstance(inner, ast.Attribute):
                yield inner.attr


def test_a_rule_that_read_a_moved_number_runs_again(book: Rulebook) -> None:
    rig = read(ROOT / "rigs" / "long-line.yaml")
    loads = Loads(build(rig), Values(), ON)
    first = running_again.run_rules(loads, book, ON, DEFAULT)
    (span,) = [one for one in moved_ones(rig)[0] if one.key == ("span",)]
    different = changes(rig, nudged_loads(loads, span, 1.0).path.rig)
    assert not different.beyond
    assert different.touch(first.results["ground/clearance"].read)
    assert not different.touch(first.results["gear/age"].read)
