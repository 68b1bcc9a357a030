"""Reads the seeded faults, puts each into its rig, and judges rig and twin with the whole rulebook."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from copy import deepcopy
from dataclasses import dataclass
from datetime import date
from functools import cache, lru_cache
from pathlib import Path
from typing import Any

from riglint.findings import Finding, judge
from riglint.findings.library.across_rigs import judge_library
from riglint.model.vocabulary.words import Consequence
from riglint.policy import InForce
from riglint.read.yaml_text import read_yaml, resolved
from riglint.rulebook import load_rulebook
from riglint.rulekit import REMOVE, Case, Signal, insert_before, sound
from riglint.testing import as_text, baseline_names, edit_value, edited_data, library_of, loads_of, rig_of

HERE = Path(__file__).parent
EXAMPLES = HERE.parents[1] / "examples"
BOOK = load_rulebook()
ON = date(2026, 5, 2)
BEFORE = "before "
OWN_RIGS = "rigs"  # the file with rigs that no baseline and no example has
LIMITS = "limits"  # the file with what lies just inside and just outside each limit
WORDS = "words"  # the file with the word of each rule at each consequence
PAIRS = "pairs"  # the file with faults that cover one another
ABSENT = "absent"  # the file with values that are missing


@dataclass(frozen=True, slots=True)
class Expected:
    """What must be said of a seeded fault; `because` says why it comes with another."""

    rule: str
    signal: str
    kind: str
    at: str
    because: str = ""

    def is_told_by(self, one: Finding) -> bool:
        """Whether a finding says this; an open question is that of every rule that waits for it."""
        said = (one.signal.name, one.kind, one.at.key) == (self.signal, self.kind, self.at)
        return said and self.rule in {one.rule, *one.rules}


@dataclass(frozen=True, slots=True)
class Seeded:
    """One fault put into one sound rig."""

    name: str
    phase: str  # its file
    hazards: tuple[str, ...]
    rig: str
    patch: dict[str, Any]
    expect: tuple[Expected, ...]
    also: tuple[Expected, ...]
    recalled: tuple[str, ...]
    beside: tuple[dict[str, Any], ...]
    both: dict[
        str, Any
    ]  # changes of the rig and of every one beside it, such as those of a spot that they share
    not_judged: bool  # whether rules must say that they cannot be judged because of it

    @property
    def all_expected(self) -> tuple[Expected, ...]:
        """What is looked for and what comes with it."""
        return (*self.expect, *self.also)


@dataclass(frozen=True, slots=True)
class Told:
    """What the whole rulebook says of one rig."""

    findings: tuple[Finding, ...]
    not_judged: int


@cache
def seeded() -> tuple[Seeded, ...]:
    """All seeded faults, in the order of the work."""
    files = sorted(path for path in HERE.glob("*.yaml") if path.stem not in {OWN_RIGS, LIMITS, PAIRS, WORDS})
    return tuple(_fault(path.stem, one) for path in files for one in read(path)["faults"])


def _fault(phase: str, one: dict[str, Any]) -> Seeded:
    hazards = one["hazard"] if isinstance(one["hazard"], list) else [one["hazard"]]
    expect, also = (tuple(Expected(**each) for each in one.get(key, ())) for key in ("expect", "also"))
    return Seeded(
        one["name"],
        phase,
        tuple(hazards),
        one["rig"],
        one.get("patch", {}),
        expect,
        also,
        tuple(one.get("recalled", ())),
        tuple(one.get("beside", ())),
        one.get("both", {}),
        one.get("not_judged", False),
    )


def text_of(rig: str, *patches: dict[str, Any]) -> str:
    """The text of a rig with patches written into it.

    A value of null takes the key away, `before chain[5]` puts parts in.
    """
    return as_text(_patched(rig, *patches))


def _patched(rig: str, *patches: dict[str, Any]) -> Any:
    data = data_of(rig)
    for patch in patches:
        for key, value in patch.items():
            if key.startswith(BEFORE):
                edit_value(data, key.removeprefix(BEFORE), insert_before(*value))
            else:
                edit_value(data, key, REMOVE if value is None else value)
    return data


def data_of(rig: str) -> Any:
    """The data of a rig, for the caller to change."""
    return deepcopy(_sound(rig))


@cache
def _sound(rig: str) -> Any:
    if rig in own_rigs():
        own = own_rigs()[rig]
        return _patched(own["of"], {**own.get("both", {}), **own["patch"]})
    return edited_data(rig, ()) if rig in baseline_names() else _example(rig)


@cache
def own_rigs() -> dict[str, Any]:
    """Sound rigs that stand here only: a rig with changes that keep it sound."""
    rigs: dict[str, Any] = read(HERE / f"{OWN_RIGS}.yaml")
    return rigs


def _example(rig: str) -> Any:
    """A rig of the examples with its spot and the gear that it uses inside, so that a patch reaches all of it."""
    path = EXAMPLES / f"{rig}.yaml"
    data = read(path)
    spot = read(path.parent / data["spot"])
    items = {name: one for shelf in data["shelf"] for name, one in read(path.parent / shelf)["items"].items()}
    words = set(_words(data))
    data["spot"] = {key: value for key, value in spot.items() if key != "riglint"}
    data["shelf"] = [{"items": {name: one for name, one in items.items() if name in words}}]
    return data


def _words(data: Any) -> list[str]:
    if isinstance(data, dict):
        return [word for one in data.values() for word in _words(one)]
    if isinstance(data, list):
        return [word for one in data for word in _words(one)]
    return [data] if isinstance(data, str) else []


def read(path: Path) -> Any:
    """Return the data of a YAML file."""
    return read_text(path.read_text(encoding="utf-8"), path.name)


def read_text(text: str, name: str = "text") -> Any:
    """Return the data of a text in YAML."""
    document, problems = read_yaml(text.encode(), name)
    if document is None or problems:
        raise ValueError(f"{name} cannot be read: {problems}")
    return resolved(document.data)


@lru_cache(4000)
def told(text: str, recalled: tuple[str, ...] = ()) -> Told:
    """What the whole rulebook says of a rig."""
    force = InForce(recalled=frozenset(recalled))
    judged = judge(rig_of(text), BOOK, ON, force, loads_of(text, ON), with_remedies=False)
    return Told(tuple(judged.findings), sum(one.rules for one in judged.not_judged))


def consequence_of(text: str) -> Consequence:
    """The consequence class of a rig."""
    return Case(loads_of(text, ON), ON, {}).consequence


def of_twin(fault: Seeded) -> Told:
    """What is said of a fault's rig without it."""
    return _with_library(fault, {}, {}, (), ())


def of_fault(fault: Seeded) -> Told:
    """What is said of a fault's rig with it."""
    return _with_library(fault, fault.patch, fault.both, fault.beside, fault.recalled)


def _with_library(
    fault: Seeded,
    patch: dict[str, Any],
    both: dict[str, Any],
    beside: tuple[dict[str, Any], ...],
    recalled: tuple[str, ...],
) -> Told:
    """What is said of a rig, and of it together with the rigs beside it."""
    alone = told(text_of(fault.rig, {**both, **patch}), recalled)
    own = own_rigs().get(fault.rig, {})
    if "beside" not in own:
        return alone
    others = [{**both, **one} for one in beside or own["beside"]]
    more = told_of_library(fault.rig, {**both, **patch}, others, recalled)
    return Told((*alone.findings, *more), alone.not_judged)


def told_of_library(
    rig: str, patch: dict[str, Any], beside: Iterable[dict[str, Any]], recalled: tuple[str, ...] = ()
) -> list[Finding]:
    """What the rules for whole libraries say of one of our own rigs and of those beside it."""
    own, force = own_rigs()[rig], InForce(recalled=frozenset(recalled))
    shared = own.get("both", {})
    edits = [_edits({**shared, **one}) for one in ({**own["patch"], **patch}, *beside)]
    return judge_library(library_of(sound(own["of"], edits[0], beside=edits[1:]), force), BOOK, force)


def _edits(patch: dict[str, Any]) -> dict[str, Any]:
    """Return a patch as the edits of an example."""
    return {key: REMOVE if value is None else value for key, value in patch.items()}


def new(before: Told, after: Told) -> list[Finding]:
    """What is said of a rig with a fault and not of its twin.

    A review of NOTICE is one that every rig has; it counts where its rule asks for more of them than before,
    since parts put in or taken out move all places behind them.
    """
    known = {_place(one) for one in before.findings}
    reviews = Counter(one.rule for one in before.findings if usual(one))
    now = Counter(one.rule for one in after.findings if usual(one))
    found = [one for one in after.findings if _place(one) not in known]
    return [one for one in found if not usual(one) or now[one.rule] > reviews[one.rule]]


def usual(one: Finding) -> bool:
    """Whether a finding is a review that every rig has."""
    return one.kind == "review" and one.signal == Signal.NOTICE


def _place(one: Finding) -> tuple[object, ...]:
    return one.rule, one.signal, one.kind, one.at.key, one.at.part, one.rules


@cache
def said_of(name: str) -> tuple[Finding, ...]:
    """What the fault of that name adds to what is said of its rig."""
    fault = by_name()[name]
    return tuple(new(of_twin(fault), of_fault(fault)))


@cache
def by_name() -> dict[str, Seeded]:
    """The seeded faults by their names."""
    return {one.name: one for one in seeded()}


def missed(fault: Seeded) -> list[Expected]:
    """What should have been said of a fault and was not."""
    return [
        one for one in fault.all_expected if not any(one.is_told_by(each) for each in said_of(fault.name))
    ]


def unrelated(fault: Seeded) -> list[Finding]:
    """What was said of a fault and stands neither under `expect` nor under `also`."""
    return [
        one for one in said_of(fault.name) if not any(each.is_told_by(one) for each in fault.all_expected)
    ]
