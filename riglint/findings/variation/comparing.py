"""What a change does to rigs: inputs, forces, ratios and findings of two audits laid side by side."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import field
from pathlib import Path
from typing import Any, Literal

from riglint.findings.finding import Audit, FileResult, Finding
from riglint.findings.identity import by_name, is_worse, measured, part_names
from riglint.findings.settled.changed import Changed
from riglint.findings.variation.moved_references import MovedReference, moved_references
from riglint.loads import Loads
from riglint.loads.inputs import known
from riglint.loads.path.used import used_items, written
from riglint.policy import DEFAULT, InForce
from riglint.read.problems import key_text
from riglint.records import dataclass
from riglint.rulekit import Signal

Fate = Literal["new", "gone", "worse", "better"]
HELD = frozenset({"riglint", "$schema", "spot", "shelf"})  # the kind, and what is compared by itself
SMALL = 5e-4  # a change of less than half a thousandth is noise of the solver, not a change of the rig


@dataclass(frozen=True, slots=True)
class Moved:
    """One value on both sides; None where it is on one side only."""

    name: str
    old: float | str | None
    new: float | str | None
    unit: str = ""


@dataclass(frozen=True, slots=True)
class FindingChange:
    """A finding that a change brought, took away, or gave another word."""

    fate: Fate
    finding: Finding  # as it is now, or as it was where it is gone
    old: Signal | None = None
    new: Signal | None = None


@dataclass(slots=True)
class RigChange:
    """What a change does to one rig."""

    path: str
    title: str | None
    status: Literal["changed", "same", "added", "removed", "unread"]
    inputs: list[Moved] = field(default_factory=list)
    states: list[Moved] = field(default_factory=list)  # greatest tension, kN
    ratios: list[Moved] = field(default_factory=list)  # least ratio of a part
    weakest: Moved | None = None  # the part that goes first, in words, where it is another one now
    findings: list[FindingChange] = field(default_factory=list)
    references: list[MovedReference] = field(default_factory=list)  # by number, that mean another part now


@dataclass(frozen=True, slots=True)
class Comparison:
    """Two audits of the same rigs."""

    old: str
    new: str
    on: str
    rigs: list[RigChange]
    judged: bool  # whether both sides could be read and judged whole
    crashed: bool = False  # whether a rule crashed on one of them
    seal: str = ""  # of the rulebook
    force: InForce = DEFAULT
    settings: tuple[Changed, ...] = ()  # what became of the settings of libraries

    def status(self, stop_at: Signal) -> int:
        """Return the exit status: 1 a finding at or above a word is new or worse, 2 unread, 3 no rule or a crash.

        A reference by number that means another part now counts like a new WARNING, and so do changed settings.
        """
        if self.crashed or self.force.none_left:
            return 3
        if not self.judged or not self.rigs or self.force.emptied:
            return 2
        if stop_at <= Signal.WARNING and (self.settings or any(rig.references for rig in self.rigs)):
            return 1  # a check that was made of one part would count for another, a rig be judged by less
        changed = (one for rig in self.rigs for one in rig.findings)
        bad = (one for one in changed if one.fate in {"new", "worse"} and one.finding.counts)
        return 1 if any(one.new is not None and one.new >= stop_at for one in bad) else 0


def compare(
    old: Audit,
    new: Audit,
    bases: tuple[Path, Path],
    words: tuple[str, str],
    settings: Sequence[Changed] = (),
) -> Comparison:
    """Return what changed between two audits.

    Args:
        old: the audit before the change.
        new: the audit after it.
        bases: what each of them looked at; rigs are the same that lie at the same place below it.
        words: how the two sides are called.
        settings: what became of the settings of libraries.
    """
    before, after = _rigs(old, bases[0]), _rigs(new, bases[1])
    changes = []
    for place in sorted(before.keys() | after.keys()):
        was, now = before.get(place), after.get(place)
        changes.append(_change(old, new, was, now))
    judged = all(result.judged for audit in (old, new) for result in audit.files) and old.whole and new.whole
    crashed = any(one.crashed for audit in (old, new) for one in audit.findings)
    return Comparison(
        *words, new.on.isoformat(), changes, judged, crashed, new.seal, new.force, tuple(settings)
    )


def _rigs(audit: Audit, base: Path) -> dict[str, FileResult]:
    found = {}
    for result in audit.files:
        if result.kind == "rig" and result.file is not None:
            # Two files that are named one by one are compared whatever they are called.
            place = (
                "" if result.file == base.resolve() else result.file.relative_to(base.resolve()).as_posix()
            )
            found[place] = result
    return found


def _change(old: Audit, new: Audit, was: FileResult | None, now: FileResult | None) -> RigChange:
    shown = now or was
    assert shown is not None  # noqa: S101 - one of the two is there
    change = RigChange(shown.path, shown.title, "same")
    if was is None or now is None:
        change.status = "added" if was is None else "removed"
    elif was.loads is None or now.loads is None:
        change.status = "unread"
    else:
        _lay_side_by_side(change, was.loads, now.loads)
    change.findings = _finding_changes(_findings(old, was), _findings(new, now))
    moved = (
        change.inputs
        or change.states
        or change.ratios
        or change.weakest
        or change.findings
        or change.references
    )
    if change.status == "same" and moved:
        change.status = "changed"
    return change


def _lay_side_by_side(change: RigChange, was: Loads, now: Loads) -> None:
    change.inputs = list(_moved(_inputs(was), _inputs(now)))
    change.states = list(_moved(_tensions(was), _tensions(now), "kN"))
    change.references = moved_references(was, now)
    old, new = _ratios(was), _ratios(now)
    change.ratios = list(_moved(old, new))
    goes_first = [min(found, key=found.__getitem__, default=None) for found in (old, new)]
    if goes_first[0] != goes_first[1]:
        change.weakest = Moved("weakest link", goes_first[0], goes_first[1])


def _moved(old: dict[str, Any], new: dict[str, Any], unit: str = "") -> Iterator[Moved]:
    for name in dict.fromkeys([*old, *new]):
        was, now = old.get(name), new.get(name)
        if isinstance(was, float) and isinstance(now, float):
            if abs(now - was) > SMALL * max(abs(was), abs(now)):
                yield Moved(name, was, now, unit)
        elif was != now:
            yield Moved(name, was, now, unit)


# What there is to compare


def _inputs(loads: Loads) -> dict[str, str]:
    """Return every value of a rig, its spot and its gear, by a name that survives a part put in between."""
    rig, names = loads.path.rig, part_names(loads)
    found = {}
    own = written(rig.document, ())
    for key, value in _leaves({name: one for name, one in own.items() if name not in HELD}):
        found[by_name(key_text(key), names)] = value
    spot = written(rig.spot_document, rig.spot_key)
    found |= {f"spot.{key_text(key)}": value for key, value in _leaves(spot) if key != ("riglint",)}
    for item in used_items(loads):
        piece = written(item.document, item.key)
        found |= {f"gear {item.id}.{key_text(key)}": value for key, value in _leaves(piece)}
    return found


def _leaves(node: Any, key: tuple[str | int, ...] = ()) -> Iterator[tuple[tuple[str | int, ...], str]]:
    if isinstance(node, dict) and node:
        for name, value in node.items():
            yield from _leaves(value, (*key, name))
    elif isinstance(node, list) and any(isinstance(one, dict | list) for one in node):
        for n, value in enumerate(node):
            yield from _leaves(value, (*key, n))
    elif isinstance(node, list):
        yield key, f"[{', '.join(map(str, node))}]"
    elif node is not None:
        yield key, str(node).lower() if isinstance(node, bool) else str(node)


def _tensions(loads: Loads) -> dict[str, float]:
    return {state.name: state.tension_n / 1000.0 for state in loads.computable()}


def _ratios(loads: Loads) -> dict[str, float]:
    """Return the least ratio of each part over all peaks."""
    names, found = part_names(loads), {}
    peaks = known(loads.peaks) or []
    for load in known(lambda: loads.parts) or []:
        worst = known(lambda load=load: load.worst(peaks))  # type: ignore[misc]
        if worst is not None:
            found[by_name(load.id, names)] = worst.order
    return found


# Findings


def _findings(audit: Audit, result: FileResult | None) -> dict[tuple[str, ...], Finding]:
    """Return the findings of a rig, those in the files that it refers to as well."""
    if result is None:
        return {}
    names = part_names(result.loads)
    shared = [one for one in audit.findings if result.path in one.rigs and one not in result.findings]
    found: dict[tuple[str, ...], Finding] = {}
    for one in [*result.findings, *shared]:
        # A rule may say several things of one place; the gravest stands for them.
        known_by = (one.rule, one.kind, by_name(one.at.key, names), by_name(one.at.part or "", names))
        worst = found.setdefault(known_by, one)
        if one.signal > worst.signal:
            found[known_by] = one
    return found


def _finding_changes(
    old: dict[tuple[str, ...], Finding], new: dict[tuple[str, ...], Finding]
) -> list[FindingChange]:
    found = []
    for name in dict.fromkeys([*old, *new]):  # a set would have another order in each call
        was, now = old.get(name), new.get(name)
        if was is None or now is None:
            one = now or was
            assert one is not None  # noqa: S101 - one of the two is there
            changed = (
                FindingChange("new", one, new=one.signal)
                if was is None
                else FindingChange("gone", one, old=one.signal)
            )
            found.append(changed)
        elif was.signal != now.signal:
            fate: Fate = "worse" if now.signal > was.signal else "better"
            found.append(FindingChange(fate, now, was.signal, now.signal))
        elif was.counts != now.counts:  # an acceptance, or a known finding, that came or ran out
            found.append(FindingChange("new" if now.counts else "gone", now, was.signal, now.signal))
        elif is_worse(measured(now), measured(was)):
            found.append(FindingChange("worse", now, was.signal, now.signal))
        elif is_worse(measured(was), measured(now)):
            found.append(FindingChange("better", now, was.signal, now.signal))
    order = ("new", "worse", "better", "gone")
    return sorted(
        found,
        key=lambda one: (order.index(one.fate), -one.finding.signal, one.finding.rule, one.finding.at.key),
    )
