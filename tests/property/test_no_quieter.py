"""More doubt never sounds better: a larger ±, a value or a file that is gone, give no quieter verdict.

A verdict is quieter where the exit status falls, or where it stays and the worst word that counts for it falls; with a
larger ± also where a rule falls silent at a place where it spoke at CAUTION or above. A rule that is gone is told of
by the seal of the rulebook (`package/test_sealed.py`).

Some hundred changes of the examples are drawn here; `python -m tests.property.test_no_quieter` tries every one.
"""

import sys
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from riglint.findings import Finding, audit, judge
from riglint.loads.what_if.uncertain_inputs import leaves
from riglint.model.changed import with_value
from riglint.model.library import Library, RigFile
from riglint.model.references import resolve
from riglint.read.library import library_root
from riglint.read.quantity import Quantity
from riglint.read.yaml_text import read_yaml, resolved
from riglint.rulebook import Rulebook, load_rulebook
from riglint.rulekit import Signal
from riglint.testing import as_text
from tests.rigs import ON

EXAMPLES = Path(__file__).parents[2] / "examples"
RIGS = sorted(
    [
        *EXAMPLES.glob("rigs/*.yaml"),
        *EXAMPLES.glob("built/*.yaml"),
        *EXAMPLES.glob("faulty/*.yaml"),
        *EXAMPLES.glob("ordinary/rigs/*.yaml"),
    ]
)
SHARES = (0.0125, 0.05, 0.1, 0.2, 0.4, 0.8)  # of a value: its ±
DRAWN = settings(
    max_examples=120,
    deadline=None,
    derandomize=True,
    phases=(Phase.generate,),
    suppress_health_check=[HealthCheck.too_slow],
)
# What says more than its absence: a rig without it is another rig, and the format says which.
SAYS_MORE = {
    "at_once": "one person, where it is not said",
    "moves": "walking, where it is not said",
    "recalled": "gear that is not withdrawn",
    "stretch": "one curve: a point of it is no value of its own",
    "stage": "planned, where it is not said",
    "measured": "no reading was taken",
}

Place = tuple[str, tuple[str | int, ...]]
Verdict = tuple[int, int]


@cache
def book() -> Rulebook:
    return load_rulebook()


# A larger ±


@cache
def read(file: Path) -> RigFile:
    rig, problems, broken = resolve(Library(library_root(file, None)), file)
    assert rig is not None, (problems, broken)
    return rig


@cache
def quantities(file: Path) -> list[tuple[Place, Quantity]]:
    """Return every value above zero of a rig, its spot and the gear that it names."""
    rig = read(file)
    own = list(leaves(rig.rig.model_copy(update={"spot": None, "shelf": []})))
    named = {value for _, value in own if isinstance(value, str)}
    found: list[tuple[Place, Any]] = [(("rig", key), value) for key, value in own]
    found += [(("spot", key), value) for key, value in leaves(rig.spot)]
    for name in sorted(named & rig.items.keys()):
        found += [((name, key), value) for key, value in leaves(rig.items[name].gear)]
    return [(place, value) for place, value in found if isinstance(value, Quantity) and value.si > 0.0]


def with_spread(rig: RigFile, place: Place, value: Quantity, share: float) -> RigFile:
    wider = value._replace(plus_minus=max(value.plus_minus, share * value.si))
    where, key = place
    if where == "rig":
        return replace(rig, rig=with_value(rig.rig, key, wider))
    if where == "spot":
        return replace(rig, spot=with_value(rig.spot, key, wider))
    item = rig.items[where]
    return replace(rig, items={**rig.items, where: replace(item, gear=with_value(item.gear, key, wider))})


def judged(rig: RigFile) -> list[Finding]:
    return judge(rig, book(), ON, weighed=True, with_remedies=False).findings


def worst(findings: list[Finding]) -> int:
    return max((one.signal for one in findings if one.counts), default=0)


def spoke(findings: list[Finding]) -> dict[tuple[str, str, str, str | None], set[str]]:
    """Return where each rule speaks at CAUTION or above, and the rules that wait."""
    loud = [one for one in findings if one.counts and one.signal >= Signal.CAUTION and one.kind != "review"]
    return {(one.rule, one.at.path, one.at.key, one.at.part): set(one.rules) for one in loud}


def quieter_with_more_doubt(file: Path, place: Place, value: Quantity) -> list[str]:
    """Return what falls silent as the ± of one value grows."""
    rig, told = read(file), []
    before = judged(rig)
    for share in SHARES:
        after = judged(with_spread(rig, place, value, share))
        waiting = {rule for one in after if one.kind == "open" for rule in one.rules}
        lost = {name for name in spoke(before).keys() - spoke(after).keys() if name[0] not in waiting}
        if lost or worst(after) < worst(before) or any(one.crashed for one in after):
            told.append(f"{file.name} {place} {value.text} ± {share:.2%}: {sorted(lost, key=str)}")
        before = after
    return told


@DRAWN
@given(st.data())
def test_a_larger_plus_minus(data: st.DataObject) -> None:
    file = data.draw(st.sampled_from(RIGS))
    place, value = data.draw(st.sampled_from(quantities(file)))
    assert quieter_with_more_doubt(file, place, value) == []


# A value that is gone


@cache
def documents(file: Path) -> dict[Path, Any]:
    """Return a rig with what it refers to, as plain data."""
    found = {file: data_of(file)}
    shelves = found[file].get("shelf") or []
    for written in (found[file].get("spot"), *shelves):
        if isinstance(written, str):
            found[(file.parent / written).resolve()] = data_of((file.parent / written).resolve())
    return found


def data_of(file: Path) -> Any:
    document, problems = read_yaml(file.read_bytes(), file.name)
    assert document is not None, problems
    return resolved(document.data)


@cache
def values(file: Path) -> list[tuple[Path, tuple[str | int, ...]]]:
    """Return every key of a rig and of what it refers to, but of gear that it does not name."""
    named = set(_texts(documents(file)[file]))
    return [
        (path, way)
        for path, data in documents(file).items()
        for way in _keys(data)
        if way != ("riglint",)
        and not set(SAYS_MORE) & set(way)
        and not (len(way) > 1 and way[0] == "items" and way[1] not in named)
    ]


def _texts(node: Any) -> Iterator[str]:
    for inner in node.values() if isinstance(node, dict) else node if isinstance(node, list) else ():
        yield from _texts(inner)
    if isinstance(node, str):
        yield node


def _keys(node: Any, way: tuple[str | int, ...] = ()) -> Iterator[tuple[str | int, ...]]:
    if isinstance(node, dict):
        for key, inner in node.items():
            yield (*way, key)
            yield from _keys(inner, (*way, key))
    elif isinstance(node, list):
        for n, inner in enumerate(node):
            yield from _keys(inner, (*way, n))


def without(node: Any, way: tuple[str | int, ...]) -> Any:
    first, *rest = way
    if isinstance(node, dict):
        if not rest:
            return {key: inner for key, inner in node.items() if key != first}
        return {key: without(inner, tuple(rest)) if key == first else inner for key, inner in node.items()}
    return [without(inner, tuple(rest)) if n == first else inner for n, inner in enumerate(node)]


def verdict(file: Path, changed: dict[Path, Any]) -> Verdict:
    """Return exit status and worst word of one rig; a file that is None is gone."""
    library = Library(library_root(file, None))
    for path, data in changed.items():
        library.take(path, as_text(data).encode())
    rig, _, _ = resolve(library, file)
    if rig is None:
        return 2, Signal.WARNING
    findings = judged(rig)
    status = 3 if any(one.crashed for one in findings) else int(worst(findings) >= Signal.WARNING)
    return status, worst(findings)


@cache
def as_it_stands(file: Path) -> Verdict:
    return verdict(file, documents(file))


def quieter_without(file: Path, path: Path, way: tuple[str | int, ...]) -> str:
    all_ = documents(file)
    now = verdict(file, {**all_, path: without(all_[path], way)})
    before = as_it_stands(file)
    return f"{file.name}: {path.name} without {way}: {before} -> {now}" if now < before else ""


@DRAWN
@given(st.data())
def test_a_value_that_is_gone(data: st.DataObject) -> None:
    file = data.draw(st.sampled_from(RIGS))
    path, way = data.draw(st.sampled_from(values(file)))
    assert quieter_without(file, path, way) == ""


def test_what_is_left_aside_is_in_the_files() -> None:
    """An exception that no file shows would excuse nothing."""
    keys = {key for file in RIGS for data in documents(file).values() for way in _keys(data) for key in way}
    assert set(SAYS_MORE) - keys <= {"recalled"}


# A file that is gone


@pytest.mark.parametrize(
    "file", [one for one in RIGS if len(documents(one)) > 1], ids=lambda one: f"{one.parent.name}/{one.stem}"
)
def test_a_file_that_is_gone(file: Path, tmp_path: Path) -> None:
    """Of all that a rig refers to, whatever is taken away is missed."""
    top = library_root(file, None)
    for path, data in documents(file).items():
        there = tmp_path / path.relative_to(top)
        there.parent.mkdir(parents=True, exist_ok=True)
        there.write_text(as_text(data), encoding="utf-8")
    (tmp_path / "rig-library").touch()
    few = Rulebook({"tail/webbing": book().rules["tail/webbing"]})
    rig = tmp_path / file.relative_to(top)
    assert audit([rig], few, ON).status(Signal.WARNING) < 2
    for path in documents(file):
        there = tmp_path / path.relative_to(top)
        kept = there.read_bytes()
        there.unlink()
        assert audit([rig], few, ON).status(Signal.WARNING) == 2, path
        there.write_bytes(kept)


def main() -> int:
    """Try every change of every example."""
    told = []
    for file in RIGS:
        for place, value in quantities(file):
            told += quieter_with_more_doubt(file, place, value)
        told += filter(None, (quieter_without(file, path, way) for path, way in values(file)))
        sys.stdout.write(f"{file.name}: {len(quantities(file))} values, {len(values(file))} keys\n")
        sys.stdout.flush()
    sys.stdout.write("".join(f"{one}\n" for one in told))
    return 1 if told else 0


if __name__ == "__main__":
    sys.exit(main())
