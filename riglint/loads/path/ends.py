"""The ends of the main line and of its backups: what holds each, and how hard the worst state pulls there."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import partial
from math import sin
from typing import NamedTuple

from riglint.loadpath import BROKEN, LoadPath, Placed
from riglint.loads.inputs import At, NotComputable, need, within_range
from riglint.loads.states.backup import BackupLine
from riglint.loads.states.line import State
from riglint.loads.strength.points import AnchorLoads, PointLoad
from riglint.loads.strength.trees import TreePull, TreeStem, tree_stem
from riglint.model.documents.spot import Anchor
from riglint.records import dataclass


class EndPull(NamedTuple):
    """The greatest pull at an end, N, and the greatest upward part of it, over all places of the user."""

    state: str
    tension_n: float  # on the structure; on bolts, whose shares are found one by one, that of the line
    uplift_n: float
    line_n: float  # in the whole line


@dataclass(frozen=True, slots=True)
class End:
    """One end of a line."""

    number: int  # 0: the first of its chain, 1: the last
    path: LoadPath
    anchors: AnchorLoads
    states: Callable[[], list[State]]  # what it must bear: the peaks of the main line, the catch of a backup
    backup: str | None = None  # its place, such as backups[0]; None for the main line
    branch: str | None = None  # another structure that legs of this end go to, by its name on the spot

    @property
    def anchor(self) -> Placed:
        """The anchor part of its chain."""
        return self.path.anchors[self.number]

    @property
    def name(self) -> str:
        """The anchor's name on the spot; of a branch the name of what its legs go to."""
        return self.branch or self.anchor.part.at or self.anchor.id

    @property
    def structure(self) -> Anchor:
        """What the spot says of it.

        Raises:
            MissingInput: the spot does not name it.
        """
        spot = self.path.rig.spot
        return need(spot.anchors.get(self.name) if spot else None, self.on_structure)

    @property
    def carries(self) -> bool:
        """Whether the line hangs on it at all: the legs of an end may all go elsewhere."""
        return self.name in self.anchors.structures(self.anchor)

    @property
    def height_at(self) -> At:
        """The place that says how high it is held: that of a branch's leg, else of its anchor."""
        legs = self.legs
        if self.branch is not None and legs is not None:
            for n, leg in enumerate(legs.part.legs or []):
                if leg.to == self.branch and leg.height is not None:
                    return self.anchors.geometry.on_part(legs, "legs", n, "height")
        return self.anchors.geometry.on_part(self.anchor, "height")

    def height_m(self) -> float:
        """Return how high above the ground it is held; a branch that does not say as high as its anchor.

        Raises:
            MissingInput: neither is said.
        """
        legs = self.legs
        for leg in (legs.part.legs or []) if self.branch is not None and legs is not None else []:
            if leg.to == self.branch and leg.height is not None:
                return leg.height.si
        return need(self.anchor.part.height, lambda: self.height_at).si

    def on_structure(self, *key: str) -> At:
        """Return a place below the anchor structure on the spot."""
        at = self.anchors.geometry.on_spot("anchors", self.name, *key)
        return At(at.document, at.key, self.anchor.id)

    @property
    def legs(self) -> Placed | None:
        """The spread of legs at this end, where there is one."""
        return self.anchors.legs(self.anchor)

    def pull(self) -> EndPull:
        """Return the greatest pull here.

        Raises:
            MissingInput, NotComputable: the states cannot be computed, or none is planned.
        """
        found = [
            (_tension_n(state, self.number), _uplift_n(state, self.number), state.name)
            for state in self.states()
        ]
        if not found:
            raise NotComputable("no peak is planned for this rig")
        line, _, state = max(found)
        uplift = max(uplift for _, uplift, _ in found)
        if self.structure.kind == "bolts":
            return EndPull(state, line, uplift, line)
        here = self.anchors.on_structure_n(self.anchor, self.name, line)
        # Legs share the upward part as they share the pull.
        return EndPull(state, here, uplift * here / line if line else uplift, line)

    @within_range("the pull on the anchor's bolts")
    def points(self, tension_n: float) -> list[PointLoad]:
        """Return every bolt of this end under a pull (N).

        Raises:
            MissingInput: share, angle, or a bolt's strength, test or pull are not given.
            NotComputable: a value lies outside what the formulas cover.
        """
        return self.anchors.points(self.anchor, tension_n, self.name)

    @within_range("what the anchor resists")
    def resistance_n(self, uplift_n: float) -> float | None:
        """Return the pull (N) that a boulder, ground anchor or structure resists; None for trees and bolts.

        Raises:
            MissingInput: mass, friction, or the tested value are not given.
            NotComputable: a value lies outside what the formulas cover.
        """
        return self.anchors.resistance_n(self.name, self.structure, uplift_n)

    def stem(self) -> TreeStem:
        """Return the bending of the tree here; the stem only, no roots.

        Raises:
            MissingInput, NotComputable: the pull cannot be computed, or height, girth or bark are not said.
        """
        height, pull = self.height_m(), self.pull()
        return tree_stem(self.anchors.geometry, self.name, TreePull(pull.state, pull.tension_n, height))

    def point_names(self) -> list[str]:
        """Return the bolts of this structure that the line is tied to.

        Raises:
            MissingInput: a leg does not say where it goes, or one of several bolts is meant.
        """
        return self.anchors.names(self.anchor, self.name)

    def structures(self) -> int:
        """Return how many structures of the spot hold this end, counted by name."""
        return len(self.anchors.structures(self.anchor))

    def holds(self) -> list[str]:
        """Return what holds this end, each thing once: bolts by name, or the slings of its legs.

        Raises:
            MissingInput: as `point_names`.
        """
        if self.structure.kind == "bolts":
            return list(dict.fromkeys(self.anchors.names(self.anchor)))
        legs = self.legs
        if legs is None:
            return sorted(self.path.held_by(self.number))
        slings = [
            (leg.to, leg.chain[0].gear if leg.chain else None, n)
            for n, leg in enumerate(legs.part.legs or [])
        ]
        return list(dict.fromkeys(f"{to or self.name}, {gear or f'leg {n}'}" for to, gear, n in slings))


def _tension_n(state: State, number: int) -> float:
    return state.tension_b_n if number else state.tension_a_n


def _uplift_n(state: State, number: int) -> float:
    """Return the greatest upward part of the line's pull on its anchor; 0 where it pulls down."""
    places = state.positions or ((state.rest,) if state.rest is not None else ())
    # Slopes count downhill: a line that climbs from its anchor lifts it.
    ups = [-rest.tension_b_n * sin(rest.slope_b_rad) if number else rest.vertical_a_n for rest in places]
    return max(0.0, *ups) if ups else 0.0


def ends_of(
    path: LoadPath,
    anchors: AnchorLoads,
    peaks: Callable[[], list[State]],
    backups: list[BackupLine],
    catch_of: Callable[[BackupLine], list[State]],
) -> Iterator[End]:
    """Yield both ends of the main line with their branches, then those of every backup that is a line of its own.

    Raises:
        NotComputable: a chain does not run from anchor to anchor.
    """
    if not path.whole:
        raise NotComputable(BROKEN)
    for number in (0, 1):
        yield from _with_branches(End(number, path, anchors, peaks))
    for backup in backups:
        if not backup.is_line:
            continue
        if not backup.path.whole:
            raise NotComputable(f"the chain of {backup.id} does not run from anchor to anchor")
        own = AnchorLoads(backup.geometry)
        for number in (0, 1):
            yield from _with_branches(End(number, backup.path, own, partial(catch_of, backup), backup.id))


def _with_branches(end: End) -> Iterator[End]:
    """Yield an end, then each other structure that its legs go to: a branch counts like an end."""
    yield end
    for name in end.anchors.structures(end.anchor):
        if name != end.name:
            yield replace(end, branch=name)
