"""Rules that are not run again over a moved rig say what they would: the short way and the whole way agree."""

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from riglint.findings import judging
from riglint.findings.judging import judge
from riglint.loadpath import build
from riglint.loads import Loads
from riglint.loads.what_if.uncertain_inputs import leaves, moved_ones, nudged_loads
from riglint.model.changed import with_value
from riglint.model.library import Library, RigFile
from riglint.model.reads import Changes, changes, reading, track_below
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
    """The rulebook."""
    return load_rulebook()


def read(file: Path) -> RigFile:
    """A rig of the examples."""
    root = ROOT / "ordinary" if "ordinary" in file.parts else ROOT
    rig, problems, _ = Library(root).resolve(file)
    assert rig is not None, problems
    return rig


@pytest.mark.parametrize("file", RIGS[::2], ids=lambda file: f"{file.parent.name}-{file.stem}")
def test_findings_are_those_of_running_every_rule_again(
    file: Path, book: Rulebook, monkeypatch: pytest.MonkeyPatch
) -> None:
    short = judge(read(file), book, ON, weighed=True).findings
    monkeypatch.setattr(Changes, "touch", lambda *_: True)
    assert judge(read(file), book, ON, weighed=True).findings == short


@pytest.mark.parametrize("file", RIGS[::12], ids=lambda file: f"{file.parent.name}-{file.stem}")
def test_each_number_moved_by_itself_is_heard_of(file: Path, book: Rulebook) -> None:
    """Every third quantity of the rig and its spot, one by one."""
    rig = read(file)
    first = judging._run(Loads(build(rig), Values(), ON), book, ON, DEFAULT)
    kept = 0
    for inside, model in (("rig", rig.rig), ("spot", rig.spot)):
        for key, value in list(leaves(model))[:: 3 if inside == "rig" else 1]:
            if not isinstance(value, Quantity) or (inside == "rig" and key[0] in {"spot", "shelf"}):
                continue
            moved = with_value(model, key, value._replace(si=value.si * 1.3))
            other = replace(rig, **{inside: moved})
            loads = Loads(build(other), Values(), ON)
            again = judging._again(first, loads, book)
            whole = judging._run(Loads(build(other), Values(), ON), book, ON, DEFAULT)
            assert again.told(book) == whole.told(book), key
            kept += sum(not changes(rig, other).touch(said.read) for said in first.said.values())
    assert kept  # something was left out, else this shows nothing


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
        assert not seen


def test_only_what_takes_note_keeps_what_it_computed() -> None:
    """A value that is kept without a note of what it was made of would be taken for one that read nothing."""
    for room in ("loads", "rulekit", "loadpath"):
        for file in (ROOT.parent / "riglint" / room).rglob("*.py"):
            if file.name != "path.py" or room != "loadpath":
                text = file.read_text("utf-8")
                assert "cached_property" not in text, file
                assert "lru_cache" not in text, file


def test_a_rule_that_read_a_moved_number_runs_again(book: Rulebook) -> None:
    rig = read(ROOT / "rigs" / "long-line.yaml")
    loads = Loads(build(rig), Values(), ON)
    first = judging._run(loads, book, ON, DEFAULT)
    (span,) = [one for one in moved_ones(rig)[0] if one.key == ("span",)]
    different = changes(rig, nudged_loads(loads, span, 1.0).path.rig)
    assert not different.beyond
    assert different.touch(first.said["ground/clearance"].read)
    assert not different.touch(first.said["gear/age"].read)
