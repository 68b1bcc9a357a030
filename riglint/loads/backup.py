"""What holds when the main line goes: the second line, bare and in its catch."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property
from math import hypot

from riglint.loadpath import LoadPath, build_chain, gear_named
from riglint.loads.geometry import G, Geometry
from riglint.loads.inputs import At, MissingInput, NotComputable, need
from riglint.loads.part_list import PartList
from riglint.loads.parts import PartLoad
from riglint.loads.standing import rest_of
from riglint.loads.states import State, Sweep, governing, least_clear
from riglint.mechanics.line import Equilibrium, Line, hang, hang_along
from riglint.mechanics.peak import drop
from riglint.model.library import RigFile
from riglint.model.load import Key
from riglint.model.policy import Values
from riglint.model.rig import Backup
from riglint.model.sources import Source
from riglint.read.quantity import Quantity

CATCH = Source(
    "energy balance on the backup alone; taping, and the main line's mass and energy, left out", "own"
)
LINES = frozenset({"line", "rope"})


# Between these shares the ring may be taken as held at its place on the slack backup. Nearer to an anchor it would
# slide along the backup, away from the anchor, and a ring held there gives a bound that no line reaches.
HELD = (0.3, 0.7)


@dataclass(frozen=True, slots=True)
class Catch:
    """The backup catching the heaviest user: standing on the main when it breaks, and hanging below it."""

    state: State
    hanging: State
    near_ends: (
        State | None
    )  # the bound near the anchors, for a ring that does not slide; None in a short zone


@dataclass(frozen=True, slots=True)
class Fall:
    """How far a harness falls from the main line when it breaks to the lowest point of the catch, m."""

    main_y_m: float  # the main line under the user at rest, from its first end up
    offset_m: float  # how much higher the backup's first end lies than that
    from_line_m: float  # harness above the main line, and the leash below the backup
    backup_y_m: float  # the backup at the lowest point, from its own first end up

    @property
    def height_m(self) -> float:
        """The whole fall."""
        return self.main_y_m - self.offset_m + self.from_line_m - self.backup_y_m


class BackupLine:
    """One entry of `backups` with its own chain."""

    def __init__(self, rig: RigFile, number: int, values: Values) -> None:
        self.rig, self.number, self.values = rig, number, values
        self.entry: Backup = (rig.rig.backups or [])[number]
        self.path: LoadPath = build_chain(rig, ("backups", number, "chain"), self.entry.chain)
        self.geometry = Geometry(self.path, values)

    @property
    def id(self) -> str:
        """Its place, such as backups[0]."""
        return f"backups[{self.number}]"

    def on(self, *key: str | int) -> At:
        """Return a place inside this backup."""
        return At(self.rig.document, ("backups", self.number, *key), self.id)

    @property
    def is_line(self) -> bool:
        """Whether it is a line of its own from anchor to anchor rather than the main line's tail.

        One that names no kind and has parts is taken to be: asking for the kind must silence nothing else.
        """
        return self.entry.kind in LINES or (self.entry.kind is None and bool(self.entry.chain))

    @property
    def backs_main(self) -> bool:
        """Whether it is a line of its own that holds the main line; one that says no more is taken to."""
        return self.is_line and self.entry.holds in {None, "main"}

    def gear_also_in(self, other: LoadPath) -> list[tuple[Key, str]]:
        """Return every piece of gear here that another chain names too, with the key that names it here."""
        theirs = {name for _, name in gear_named(other.parts)}
        return [(key, name) for key, name in gear_named(self.path.parts) if name in theirs]

    @cached_property
    def between_ends_m(self) -> float:
        """Distance between its own end fittings, the anchors' distance less what lies between."""
        self._must_be_whole()
        geometry = self.geometry
        chord = hypot(geometry.span_m, geometry.rise_m)
        return chord - geometry.side_reach_m("a") - geometry.side_reach_m("b")

    @cached_property
    def lengths(self) -> tuple[tuple[At, Quantity], ...]:
        """Every length of it that the file gives, with its place: a cut, that of its one webbing, its `extra`.

        The first decides; rules hold the others against it.
        """
        entry, spanning = self.entry, self.path.webbings
        found = [(self.on("cut"), entry.cut)]
        if len(spanning) == 1:
            (one,) = spanning
            named = (("cut", one.part.cut), ("length", one.part.length))
            found += [(At(self.rig.document, (*one.key, key), self.id), value) for key, value in named]
        found.append((self.on("extra"), entry.extra))
        return tuple((at, value) for at, value in found if value is not None)

    @property
    def length_at(self) -> At:
        """The place that decides how long it is; `extra` where the file gives no length."""
        return self.lengths[0][0] if self.lengths else self.on("extra")

    def unstressed_by_m(self, at: At, given: Quantity) -> float:
        """Return its length between its end fittings, unstressed, by one of its `lengths`.

        Raises:
            MissingInput: for `extra`, the span is not given.
        """
        if at.key[-1] == "extra":
            return self.between_ends_m * (1.0 + given.si)
        return given.si - (self._in_ends_m if at.key[-1] == "cut" else 0.0)

    @cached_property
    def unstressed_m(self) -> float:
        """Its length between its end fittings, unstressed.

        Raises:
            MissingInput: no length is given, or for `extra` no span.
        """
        if not self.lengths:
            raise MissingInput(self.length_at)
        return self.unstressed_by_m(*self.lengths[0])

    @property
    def extra(self) -> float:
        """How much longer it is than the distance between its end fittings, as a share of that.

        Raises:
            MissingInput: no length is given, or with a cut no span.
        """
        if self.length_at.key[-1] == "extra":
            return need(self.entry.extra, self.length_at).si
        return self.unstressed_m / self.between_ends_m - 1.0

    def cut_for_m(self, extra: float) -> float:
        """Return the cut length that makes it longer by that share; what knots in a rope take comes on top.

        Raises:
            MissingInput: the span is not given.
        """
        return self.between_ends_m * (1.0 + extra) + self._in_ends_m

    @property
    def _in_ends_m(self) -> float:
        """Length in tails and webbing anchors."""
        anchors = [placed for placed in self.path.parts if placed.part.part == "webbing_anchor"]
        tails = sum(placed.part.webbing_tail.si for placed in self.path.parts if placed.part.webbing_tail)
        return tails + len(anchors) * self.values["webbing_anchor_wrap"]

    @cached_property
    def line(self) -> Line:
        """The backup as a line.

        Raises:
            MissingInput: a value that it rests on is not given.
            NotComputable: it has no length, or its chain is broken.
        """
        self._must_be_whole()
        geometry = self.geometry
        webbings = geometry.webbings()
        if len(webbings) != 1:
            raise NotComputable(f"{self.id} is made of several pieces, which is not computed")
        if self.unstressed_m <= 0.0:
            raise NotComputable(f"{self.id} has no length left between its ends")
        webbing = replace(webbings[0], length_m=self.unstressed_m)
        return Line(geometry.span_m, geometry.rise_m, geometry.reach("a"), (webbing,), geometry.reach("b"))

    def bare(self, fraction: float) -> Equilibrium:
        """Return the backup hanging by itself."""
        return rest_of(hang(self.line, 0.0, fraction))

    def _must_be_whole(self) -> None:
        if not self.path.whole:
            raise NotComputable(f"the chain of {self.id} does not run from anchor to anchor")

    # The catch

    def catch(self, main: Sweep, mass_kg: float, hang_m: float, give_m_per_n: float) -> Catch:
        """Return the catch of a user on a leash when the main line breaks under them.

        Standing: the harness starts above the main's loaded point and ends below the backup's. Hanging: the ring
        falls from the main to the backup, the leash already taut.
        """
        self._must_be_whole()
        above = self.values["harness_above_line"]
        words = "the main line breaks, the backup catches the heaviest user"
        before = self._before(main, mass_kg)
        standing = self._caught(before, mass_kg, above + hang_m)
        hanging = self._caught(before, mass_kg, 0.0)
        reach = hang_m + self.values["body_below_harness"]
        low, high = HELD
        near = [rest for rest in standing if not low <= rest.fraction <= high]

        def state(found: list[Equilibrium], how: str) -> State:
            held = [rest for rest in found if low <= rest.fraction <= high] or found
            return _with_body(self, _governing(held, f"{words}, {how}"), reach, give_m_per_n)

        return Catch(
            state(standing, "standing on the line"),
            state(hanging, "hanging below it"),
            _governing(near, f"{words}, near an anchor, the ring held")
            if near and len(near) < len(standing)
            else None,
        )

    def _before(self, main: Sweep, mass_kg: float) -> list[tuple[float, Equilibrium]]:
        """Return how far the main line under the user lies above the bare backup, and the backup, at each place."""
        fractions = main.peak_fractions()
        offset = self._anchor_height(self.geometry) - self._anchor_height(main.geometry)
        loaded = map(rest_of, hang_along(main.line, mass_kg * G, fractions))
        bare = map(rest_of, hang_along(self.line, 0.0, fractions))
        return [
            (above.load_y_m - offset - below.load_y_m, below)
            for above, below in zip(loaded, bare, strict=True)
        ]

    def _caught(
        self, before: list[tuple[float, Equilibrium]], mass_kg: float, from_line_m: float
    ) -> list[Equilibrium]:
        found: list[Equilibrium] = []
        for above_m, bare in before:
            height, near = above_m + from_line_m, found[-1] if found else None
            found.append(rest_of(drop(self.line, bare.fraction, mass_kg, height, reference=bare, near=near)))
        return found

    def _anchor_height(self, geometry: Geometry) -> float:
        """Height of end A above the ground; level with the other line where the files do not say."""
        try:
            return geometry.height_m(0)
        except MissingInput:
            return 0.0

    def fall(self, main: Sweep, mass_kg: float, from_line_m: float, caught: Equilibrium) -> Fall:
        """Return the fall that ends with the backup in an equilibrium, the main line having broken at that place."""
        loaded = rest_of(hang(main.line, mass_kg * G, caught.fraction))
        offset = self._anchor_height(self.geometry) - self._anchor_height(main.geometry)
        return Fall(loaded.load_y_m, offset, from_line_m, caught.load_y_m)

    def parts(self) -> list[PartLoad]:
        """Return its parts with what is asked of a backup.

        Raises:
            NotComputable: its chain is broken.
        """
        self._must_be_whole()
        found = PartList(self.geometry, None).all()
        for load in found:
            load.row = "backup"
        return found


def _governing(found: list[Equilibrium], words: str) -> State:
    worst = governing(found)
    ends = max(rest.tension_a_n for rest in found), max(rest.tension_b_n for rest in found)
    return State("backup_catch", words, CATCH, worst, worst.tension_n, *ends, positions=tuple(found))


def _with_body(backup: BackupLine, state: State, reach_m: float, give_m_per_n: float) -> State:
    """Add the height of the lowest body point above the ground."""
    ground = backup.geometry.over_ground()
    heights = []
    if ground is not None:
        for rest in state.positions:
            below = rest.load_y_m - reach_m - give_m_per_n * rest.load_n
            heights.append((ground.clearance_m(rest.load_x_m, below), rest.fraction))
    least, at = least_clear(heights)
    meets = None if least is None else least <= 0.0
    note = "clearance is that of the lowest body point"
    return replace(state, least_clearance_m=least, least_clearance_at=at, meets_ground=meets, note=note)
