"""A rig judged with other pieces in its places: what was tried, and what the rules say against it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import field, replace

from riglint.findings.finding import Finding
from riglint.findings.judging import judge
from riglint.findings.variation.places import GearPlace
from riglint.findings.variation.side_effects import gravest_by_rule
from riglint.loadpath import build
from riglint.loads import Loads
from riglint.model.documents.rig import Rig
from riglint.model.library import Item, RigFile
from riglint.policy import InForce
from riglint.read.problems import key_text
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
    perhaps: Mapping[str, str] = field(
        default_factory=dict
    )  # the same, where a line doesn't say on which days it is up

    @property
    def does(self) -> bool:
        """Whether no rule of the word that stops says anything against it."""
        return not self.against

    @property
    def free(self) -> tuple[str, ...]:
        """The names that no other line has; last those that one may have."""
        left = [name for name in self.names if name not in self.taken]
        return tuple(sorted(left, key=lambda name: name in self.perhaps))


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
    perhaps: Mapping[str, str] = field(
        default_factory=dict
    )  # pieces of it that another line may have, and which


@dataclass(slots=True)
class Trials:
    """Judges rigs and counts them."""

    loads: Loads
    book: Rulebook
    force: InForce
    stop_at: Signal
    count: int = 0

    def judged(self, rig: Rig, items: dict[str, Item] | None = None) -> tuple[Loads, list[Finding]]:
        """Return the loads of a rig, with other gear if given, and what stops it."""
        self.count += 1
        file: RigFile = replace(self.loads.path.rig, rig=rig)
        if items is not None:
            file = replace(file, items=items)
        loads = Loads(build(file), self.force.values, self.loads.on)
        found = judge(file, self.book, self.loads.on, self.force, loads, with_remedies=False).findings
        return loads, [one for one in found if one.kind != "review" and one.signal >= self.stop_at]


def concerns(finding: Finding, place: GearPlace, names: Iterable[str]) -> bool:
    """Whether a finding is about the piece that stands in a place."""
    return finding.at.key == key_text(place.key) or any(
        f".{name}." in f".{finding.at.key}." for name in names
    )


def against_piece(
    place: GearPlace, found: list[Finding], beside: list[Finding], names: tuple[str, ...], stop_at: Signal
) -> tuple[Finding, ...]:
    """Return what stands against a piece in its place.

    That is what is said of the piece itself, and what any rule says more than of the rig without regard to that place.
    """
    worse = worse_than(found, beside, stop_at)
    return tuple(one for one in found if concerns(one, place, names) or one in worse)


def worse_than(found: list[Finding], before: list[Finding], stop_at: Signal) -> list[Finding]:
    """Return the findings of rules that say more, or worse, than before."""
    old, new = gravest_by_rule(before, stop_at), gravest_by_rule(found, stop_at)
    rules = {rule for rule, said in new.items() if rule not in old or said > old[rule]}
    return [one for one in found if one.rule in rules]
