"""What several lines together do to one anchor: their worst pulls added, as vectors where the plan is known.

Every line counts with its greatest pull there, all at once: crowds jump together. Of a main line and its backups the
one that pulls harder counts, since a backup catches only what the main line has let go. A line that pulls the other
way is a help only while it is up, so the worst is looked for among all lines and every part of them.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence

from riglint.loads.inputs import At, MissingInput, NotComputable, known, need
from riglint.loads.path.ends import End, EndPull
from riglint.loads.rig_loads import Loads
from riglint.loads.strength.points import PointLoad
from riglint.loads.strength.trees import TreePull, TreeStem, tree_stem
from riglint.mechanics.anchors.vector_sum import Vector, sum_of, toward, worst_of_any
from riglint.model.documents.spot import Anchor
from riglint.model.documents.spot_plan import place_of
from riglint.model.reads import computed
from riglint.records import dataclass


@dataclass(frozen=True, slots=True)
class LinePull:
    """The greatest pull of one line on a structure, or of a guy."""

    name: str  # of the rig
    state: str
    tension_n: float
    uplift_n: float
    standing_n: float  # with nobody on the line
    height_m: float | None
    height_at: At
    direction: Vector | None  # in plan, away from the anchor; None where the spot does not say

    @property
    def moment_nm(self) -> float:
        """Moment about the ground, T·h.

        Raises:
            MissingInput: the height is not said.
        """
        return self.tension_n * need(self.height_m, self.height_at)


@dataclass(frozen=True, slots=True)
class Together:
    """What some of the lines make together."""

    size: float  # N or Nm
    members: tuple[LinePull, ...]
    as_vectors: bool


class SharedAnchor:
    """One structure of a spot and the lines that hang on it on one day, at least two, a guy counting as one."""

    def __init__(self, name: str, structure: Anchor, lines: Sequence[Loads]) -> None:
        self.name, self.structure, self.lines = name, structure, tuple(lines)

    def on_structure(self, *key: str) -> At:
        """Return a place below the structure on the spot."""
        return self.lines[0].geometry.on_spot("anchors", self.name, *key)

    @computed
    def pulls(self) -> tuple[LinePull, ...]:
        """The pull of each line, then of each guy.

        Raises:
            MissingInput, NotComputable: one of them cannot be computed.
        """
        missing: list[At] = []
        found: list[LinePull] = []
        for loads in self.lines:
            try:
                found.append(line_pull(loads, self.name))
            except MissingInput as more:
                missing += more.fields
        if missing:
            raise MissingInput(*missing)
        return (*found, *guy_pulls(self.lines[0], self.name))

    @property
    def directed(self) -> bool:
        """Whether the plan says where each of them pulls to."""
        return all(one.direction is not None for one in self.pulls)

    def force(self) -> Together:
        """Return the greatest pull of any of the lines together, N; errors as `pulls`."""
        return self._worst([one.tension_n for one in self.pulls])

    def moment(self) -> Together:
        """Return the greatest moment of any of them about the ground, Nm; errors as `pulls`, or a height is missing."""
        return self._worst([one.moment_nm for one in self.pulls])

    def all_at_once_n(self) -> float:
        """Return the pull with all lines at their worst, N; errors as `pulls`."""
        return self._added([one.tension_n for one in self.pulls])

    def at_rest_n(self, up: Collection[str]) -> float:
        """Return the pull of guys and of the lines named, nobody on them, N; errors as `pulls`."""
        lines = {title_of(one) for one in self.lines}
        return self._added(
            [one.standing_n if one.name in up or one.name not in lines else 0.0 for one in self.pulls]
        )

    def one_at_its_worst(self) -> list[tuple[LinePull, float]]:
        """Return the pull with all lines at rest and one at its worst, N, for each of them; errors as `pulls`."""
        pulls = self.pulls
        return [
            (one, self._added([other.tension_n if other is one else other.standing_n for other in pulls]))
            for one in pulls
        ]

    def _worst(self, sizes: list[float]) -> Together:
        pulls = self.pulls
        if not self.directed:
            return Together(sum(sizes), pulls, as_vectors=False)
        worst = worst_of_any(self._vectors(sizes))
        return Together(worst.size, tuple(pulls[n] for n in worst.members), as_vectors=True)

    def _added(self, sizes: list[float]) -> float:
        return sum_of(self._vectors(sizes)) if self.directed else sum(sizes)

    def _vectors(self, sizes: list[float]) -> list[Vector]:
        return [
            (size * one.direction[0], size * one.direction[1])
            for size, one in zip(sizes, self.pulls, strict=True)
            if one.direction is not None
        ]

    def stem(self) -> TreeStem:
        """Return the bending of the tree under the greatest moment; the stem only, no roots.

        Raises:
            MissingInput, NotComputable: errors as `moment`, or girth or bark are not said.
        """
        moment = self.moment()
        tension = sum(one.tension_n for one in moment.members)
        # A pull of all of them at the height that gives their moment.
        pull = TreePull("together", tension, moment.size / tension if tension else 0.0)
        return tree_stem(self.lines[0].geometry, self.name, pull)

    def resistance_n(self) -> float | None:
        """Return what a boulder, ground anchor or structure resists under the uplift of all lines, N.

        Raises:
            MissingInput, NotComputable: errors as `pulls`, or mass, friction or the tested value are not given.
        """
        # Uplift adds up whatever way the lines pull in plan.
        uplift = sum(one.uplift_n for one in self.pulls)
        return self.lines[0].anchors.resistance_n(self.name, self.structure, uplift)

    def bolts(self) -> list[SharedBolt]:
        """Return every bolt that more than one line is tied to.

        Raises:
            MissingInput, NotComputable: share, angle, or a bolt's strength, test or pull are not given.
        """
        found: dict[str, list[tuple[str, PointLoad]]] = {}
        for loads in self.lines:
            held: dict[str, PointLoad] = {}
            for end in ends_at(loads, self.name):
                for point in end.points(end.pull().line_n):
                    # Main line and backup of one rig never pull at once: of the two the worse counts.
                    if point.name not in held or point.ratio < held[point.name].ratio:
                        held[point.name] = point
            for name, point in held.items():
                found.setdefault(name, []).append((title_of(loads), point))
        return [SharedBolt(name, tuple(uses)) for name, uses in found.items() if len(uses) > 1]


@dataclass(frozen=True, slots=True)
class SharedBolt:
    """One bolt and its share of several lines, each by the rig's title. Shares of strength add up."""

    name: str
    uses: tuple[tuple[str, PointLoad], ...]

    @property
    def force_n(self) -> float:
        """The forces of all lines, by magnitude."""
        return sum(point.force_n for _, point in self.uses)

    @property
    def ratio(self) -> float:
        """Strength over all lines at their worst, every bolt holding."""
        return _together([point.ratio for _, point in self.uses])

    @property
    def ratio_one_lost(self) -> float | None:
        """The same when another bolt has gone; None where no line has another."""
        if all(point.ratio_one_lost is None for _, point in self.uses):
            return None
        return _together(
            [point.ratio if point.ratio_one_lost is None else point.ratio_one_lost for _, point in self.uses]
        )


def _together(ratios: list[float]) -> float:
    """Return the ratio under several loads at once: the shares of strength in use, 1/ratio each, add up."""
    used = sum(1.0 / one for one in ratios if one > 0.0)
    if any(one <= 0.0 for one in ratios):
        return 0.0
    return 1.0 / used if used else float("inf")


def title_of(loads: Loads) -> str:
    """Return what a rig is called: its title."""
    return loads.path.rig.rig.title


def ends_at(loads: Loads, name: str) -> list[End]:
    """Return the ends of a rig's line and backups, branches included, that one structure holds.

    Raises:
        NotComputable: a chain does not run from anchor to anchor.
    """
    return [end for end in loads.ends() if end.name == name and end.carries]


def line_pull(loads: Loads, name: str) -> LinePull:
    """Return the greatest pull of one rig on a structure, of its main line or a backup in its catch.

    Raises:
        MissingInput, NotComputable: it cannot be computed.
    """
    ends = ends_at(loads, name)
    pulls: list[tuple[End, EndPull]] = [(end, end.pull()) for end in ends]
    if not pulls:
        raise NotComputable(f"no line of '{title_of(loads)}' hangs on '{name}'")
    end, pull = max(pulls, key=lambda one: one[1].tension_n)
    heights = [known(one.height_m) for one, _ in pulls]
    # Of several holds the highest has the longest lever; it is taken for all that pulls here.
    height = None if None in heights else max(one for one in heights if one is not None)
    # With nobody on the line the structure has the same share of it.
    standing = loads.standing.tension_n * (pull.tension_n / pull.line_n if pull.line_n else 1.0)
    return LinePull(
        title_of(loads),
        pull.state,
        pull.tension_n,
        max(one.uplift_n for _, one in pulls),
        min(standing, pull.tension_n) if end.backup is None else standing,
        height,
        end.height_at,
        _direction(loads, end),
    )


def _direction(loads: Loads, end: End) -> Vector | None:
    """Return where an end's line runs to in plan, from its structure to the anchor at the other end."""
    spot = loads.path.rig.spot
    other = end.path.anchors[1 - end.number].part.at
    if spot is None or other is None:
        return None
    here, there = place_of(spot.anchors.get(end.name)), place_of(spot.anchors.get(other))
    return toward(here, there) if here is not None and there is not None else None


def guy_pulls(loads: Loads, name: str) -> list[LinePull]:
    """Return the pull of each guy or tag line of the spot that is tied to a structure.

    Raises:
        MissingInput: its tension is not given.
    """
    spot = loads.path.rig.spot
    found: list[LinePull] = []
    for n, guy in enumerate(spot.guys if spot else []):
        if name not in guy.between:
            continue
        here = guy.between.index(name)
        tension = need(guy.tension, loads.geometry.on_spot("guys", n, "tension")).si
        places = [place_of(spot.anchors.get(one)) if spot else None for one in guy.between]
        mine, other = places[here], places[1 - here]
        found.append(
            LinePull(
                f"the guy to {guy.between[1 - here]}",
                "standing",
                tension,
                0.0,
                tension,
                guy.heights[here].si if guy.heights else None,
                loads.geometry.on_spot("guys", n, "heights"),
                toward(mine, other) if mine is not None and other is not None else None,
            )
        )
    return found
