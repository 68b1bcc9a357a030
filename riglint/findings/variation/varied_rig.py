"""One rig with other values in it, judged by the whole rulebook, each value once."""

from __future__ import annotations

from dataclasses import field, replace
from datetime import date

from riglint.findings.finding import Finding
from riglint.findings.judging import judge
from riglint.loadpath import build
from riglint.loads import Loads
from riglint.loads.inputs import known
from riglint.loads.what_if.solved_for import Adjustment, Edit, Search
from riglint.model.changed import with_value
from riglint.policy import InForce
from riglint.read.quantity import parse_quantity
from riglint.records import dataclass
from riglint.rulebook import Rulebook
from riglint.rulekit import Signal

LEFT_M = 0.01  # of rope tail; nobody measures it closer


@dataclass(frozen=True, slots=True)
class RangeEnd:
    """One end of a range: the last value that passes, and what the next one brings; None where the search ended."""

    last: str
    beyond: Finding | None
    # What must be written anew with the last value: the rope tail, which was read off a rope that lies otherwise.
    along: tuple[Edit, ...] = ()


@dataclass(slots=True)
class VariedRig:
    """Judges one rig with other values; each once."""

    loads: Loads
    book: Rulebook
    on: date
    force: InForce
    stop_at: Signal
    search: Search = field(init=False)
    today: list[Finding] = field(init=False)
    _known: dict[tuple[tuple[object, ...], tuple[str, ...]], list[Finding]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.search = Search(self.loads)
        self.today = self._grave(self.loads)

    def at(self, adjustment: Adjustment, steps: int) -> list[Finding]:
        """Return what is found that counts with an adjustment at a step."""
        name = adjustment.keys, self.search.texts(adjustment, steps)
        if name not in self._known:
            moved = self.search.with_texts(adjustment, name[1])
            self._known[name] = self._grave(_with(moved, self.along(moved)))
        return self._known[name]

    def edge(self, adjustment: Adjustment, steps: int, text: str, beyond: Finding | None) -> RangeEnd:
        """Return the end of a range at a step, with what must be written anew there."""
        moved = self.search.with_texts(adjustment, self.search.texts(adjustment, steps))
        return RangeEnd(text, beyond, self.along(moved))

    def along(self, moved: Loads) -> tuple[Edit, ...]:
        """Return what a moved rig leaves of the rope tail, where the file says how much is left today."""
        placed = moved.path.haul
        left = (
            placed.part.rope_tail.left if placed is not None and placed.part.rope_tail is not None else None
        )
        behind = [known(lambda one=one: _behind_brake_m(one)) for one in (self.loads, moved)]  # type: ignore[misc]
        if placed is None or left is None or behind[0] is None or behind[1] is None:
            return ()
        text = f"{max(left.si + behind[1] - behind[0], 0.0):.2f} m"
        if abs(parse_quantity(text, "length").si - left.si) < LEFT_M:
            return ()
        return (Edit(moved.geometry.on_part(placed, "tail", "left"), left.text, text),)

    def _grave(self, loads: Loads) -> list[Finding]:
        found = judge(
            loads.path.rig, self.book, self.on, self.force, loads, weighed=True, with_remedies=False
        ).findings
        # A look on site is asked for whatever the value is, so it ends no range.
        return [one for one in found if one.counts and one.kind != "review" and one.signal >= self.stop_at]


def _with(loads: Loads, edits: tuple[Edit, ...]) -> Loads:
    """Return the loads of a rig with lengths written anew."""
    rig = loads.path.rig
    for one in edits:
        rig = replace(rig, rig=with_value(rig.rig, one.at.key, parse_quantity(one.new, "length")))
    return Loads(build(rig), loads.values, loads.on) if edits else loads


def _behind_brake_m(loads: Loads) -> float | None:
    haul = loads.haul
    return None if haul is None else haul.behind_brake_m(loads.standing.block_run.standing_m)
