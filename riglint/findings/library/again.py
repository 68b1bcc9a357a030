"""Rigs that were judged and let go: what is small is remembered, all else computed again for whoever asks.

A library of any size must fit into memory. Of each rig its text stays, so that it is always the very rig that was
judged, whatever somebody writes into the file meanwhile.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import field, replace
from datetime import date
from pathlib import Path
from typing import Any, overload
from weakref import WeakValueDictionary

from riglint.findings.finding import Finding
from riglint.loadpath import build
from riglint.loads import Loads
from riglint.loads.assumed import at_its_worst, loads_of
from riglint.loads.inputs import At
from riglint.loads.what_if.solved_for import Remedy
from riglint.model.library import Library, Loaded, RigFile
from riglint.model.references import resolve
from riglint.policy import InForce
from riglint.read.document import Document
from riglint.records import dataclass
from riglint.rulekit import Case
from riglint.rulekit.facts import Fact, plan, planned

TEXT_HELD = (
    96_000  # characters of a library; the files take some fifty times as much once they are understood
)
LOADS_HELD = 24


@dataclass(slots=True)
class Recent:
    """The rigs that were computed last, and those that somebody still looks at."""

    held: deque[Loads] = field(default_factory=lambda: deque(maxlen=LOADS_HELD))
    alive: WeakValueDictionary[Path, Loads] = field(default_factory=WeakValueDictionary)
    asked: set[object] = field(
        default_factory=set
    )  # what rules asked of rigs that were let go, since it was emptied

    def take(self, file: Path, loads: Loads) -> Loads:
        """Hold the loads of a rig for a while."""
        self.held.append(loads)
        self.alive[file] = loads
        return loads


@dataclass(frozen=True, slots=True)
class RigAgain:
    """A rig that was judged and let go."""

    library: Library
    file: Path
    force: InForce
    on: date
    recent: Recent

    def rig(self) -> RigFile:
        """Return the rig as it was judged."""
        alive = self.recent.alive.get(self.file)
        if alive is not None:
            return alive.path.rig
        rig, _, _ = resolve(self.library, self.file)
        assert rig is not None  # noqa: S101 - it was judged, and its text is kept
        return loads_of(rig, self.force.values, self.on).path.rig

    def loads(self) -> Loads:
        """Return its loads, nothing computed yet unless they were asked for a while ago."""
        alive = self.recent.alive.get(self.file)
        if alive is not None:
            return alive
        loads = Loads(build(self.rig()), self.force.values, self.on)
        return self.recent.take(self.file, at_its_worst(loads))


class CaseAgain(Case):
    """A rig that was let go as a rule for whole libraries sees it: facts are remembered, all else is computed again."""

    def __init__(
        self, again: RigAgain, facts: Mapping[Fact, Any], plan_by: Callable[[], Any] | None = None
    ) -> None:  # all else comes when it is asked for
        self.again, self.facts, self.plan_by = again, facts, plan_by
        self.on, self.recalled = again.on, again.force.recalled
        self._limits, self._rule_id, self._asked = again.force.limits, "", None
        self.would_turn = False
        self._rig: RigFile | None = None  # held once a rule has looked: it may look for each other rig

    def fact(self, look_up: Callable[[Case], Any]) -> Any:
        """Return what was looked up when the rig was judged."""
        self.again.recent.asked.add(look_up)
        if look_up is plan and self.plan_by is not None:
            return self.plan_by()
        return self.facts[look_up] if look_up in self.facts else look_up(self)

    def let_go(self) -> None:
        """Hold only what is remembered."""
        self._rig = None

    @property
    def stage(self) -> str:
        """Where the work stands."""
        return str(self.fact(planned).stage)

    def __getattr__(self, name: str) -> Any:
        """Return a part of the rig, computed again."""
        if name in {"loads", "path"}:
            self.again.recent.asked.add(name)
            return self.again.loads() if name == "loads" else self.again.loads().path
        if name == "plan":
            return self.fact(plan)
        if name not in {"file", "rig", "spot", "items"}:
            raise AttributeError(name)
        self.again.recent.asked.add(name)
        if self._rig is None:
            self._rig = self.again.rig()
        return self._rig if name == "file" else getattr(self._rig, name)


@dataclass(frozen=True, slots=True)
class CasesAgain(Sequence[Case]):
    """All rigs of a library; who looks for others than those at hand is taken note of."""

    cases: Sequence[Case]
    recent: Recent

    def __len__(self) -> int:
        self.recent.asked.add("all rigs")
        return len(self.cases)

    @overload
    def __getitem__(self, n: int) -> Case: ...
    @overload
    def __getitem__(self, n: slice) -> Sequence[Case]: ...
    def __getitem__(self, n: int | slice) -> Case | Sequence[Case]:
        self.recent.asked.add("all rigs")
        return self.cases[n]

    def __iter__(self) -> Iterator[Case]:
        self.recent.asked.add("all rigs")
        return iter(self.cases)


@dataclass(frozen=True, slots=True)
class FilesAgain(Sequence[Loaded]):
    """Files of a library, each read again from its text when it is looked at."""

    library: Library
    files: Sequence[Path]
    recent: Recent

    def __len__(self) -> int:
        self.recent.asked.add("all gear lists")
        return len(self.files)

    @property
    def paths(self) -> list[str]:
        """The path of each file as it stands in reports, none of them read."""
        return [self.library.shown(file) for file in self.files]

    def text_of(self, n: int) -> bytes | None:
        """Return the text of a file; None where it could not be read."""
        return self.library.text_of(self.files[n])

    @overload
    def __getitem__(self, n: int) -> Loaded: ...
    @overload
    def __getitem__(self, n: slice) -> Sequence[Loaded]: ...
    def __getitem__(self, n: int | slice) -> Loaded | Sequence[Loaded]:
        self.recent.asked.add("all gear lists")
        if isinstance(n, slice):
            return FilesAgain(self.library, self.files[n], self.recent)
        return self.library.load(self.files[n])


def nothing(_loads: Loads) -> None:
    """Keep nothing of a rig's loads: whoever asks has them computed again."""


def by_itself(finding: Finding) -> Finding:
    """Return a finding that holds no document: of a place where something is to be changed only that place."""
    return replace(finding, remedies=tuple(_by_itself(one) for one in finding.remedies))


def _by_itself(remedy: Remedy) -> Remedy:
    return replace(remedy, edits=tuple(edit._replace(at=_place(edit.at)) for edit in remedy.edits))


def _place(at: At) -> At:
    place = at.document.place(at.key)
    return replace(at, document=Document(at.document.path, "", {}, {at.key: place}, {}))
