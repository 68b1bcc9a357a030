"""A rig judged with other pieces in its places: what was tried, and what the rules say against it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from riglint.findings.finding import Finding
from riglint.findings.judging import judge
from riglint.findings.variation.places import GearPlace
from riglint.findings.variation.side_effects import gravest_by_rule
from riglint.loadpath import build
from riglint.loads import Loads
from riglint.model.documents.rig import Rig
from riglint.model.library import RigFile
from riglint.policy import InForce
from riglint.records import dataclass
from riglint.rulebook import Rulebook
from riglint.rulekit import Signal


@dataclass(frozen=True, slots=True)
class Candidate:
    """Pieces that are alike, tried in one place."""

    names: tuple[str, ...]
    ratio: float | None  # of strength in place to the worst load there; None where nothing tells
    strength_n: float | None
    mass_kg: float | None  # as far as the gear list says
    against: tuple[Finding, ...]  # what keeps it from this place
    taken: Mapping[str, str]  # which of the names another line has on a day of this rig

    @property
    def does(self) -> bool:
        """Whether no rule of the word that stops says anything against it."""
        return not self.against

    @property
    def free(self) -> tuple[str, ...]:
        """The names that no other line has."""
        return tuple(name for name in self.names if name not in self.taken)


@dataclass(frozen=True, slots=True)
class Choice:
    """One place and everything that was tried there."""

    place: GearPlace
    words: str
    tried: tuple[Candidate, ...]
    not_tried: int = 0


@dataclass(frozen=True, slots=True)
class WholeSet:
    """One piece for every place, judged together; None where no such set passes."""

    words: str
    names: tuple[tuple[str, str], ...] | None
    against: tuple[Finding, ...] = ()


@dataclass(slots=True)
class Trials:
    """Judges rigs and counts them."""

    loads: Loads
    book: Rulebook
    force: InForce
    stop_at: Signal
    count: int = 0

    def judged(self, rig: Rig) -> tuple[Loads, list[Finding]]:
        """Return the loads of a rig and what stops it."""
        self.count += 1
        file: RigFile = replace(self.loads.path.rig, rig=rig)
        loads = Loads(build(file), self.force.values, self.loads.on)
        found = judge(file, self.book, self.loads.on, self.force, loads, with_remedies=False).findings
        return loads, [one for one in found if one.kind != "review" and one.signal >= self.stop_at]


def worse_than(found: list[Finding], before: list[Finding], stop_at: Signal) -> list[Finding]:
    """Return the findings of rules that say more, or worse, than before."""
    old, new = gravest_by_rule(before, stop_at), gravest_by_rule(found, stop_at)
    rules = {rule for rule, said in new.items() if rule not in old or said > old[rule]}
    return [one for one in found if one.rule in rules]
