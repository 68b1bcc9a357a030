"""The second line that holds when the main line goes: its chain, its length, and the line that it is."""

from __future__ import annotations

from dataclasses import replace
from math import hypot

from riglint.loadpath import LoadPath, build_chain, gear_named
from riglint.loads.inputs import At, MissingInput, NotComputable, known, need
from riglint.loads.path.geometry import G, Geometry
from riglint.loads.path.part_list import PartList
from riglint.loads.path.parts import PartLoad
from riglint.loads.states.load_case import Alongside
from riglint.loads.states.standing import rest_of
from riglint.mechanics.span.line import Equilibrium, Line, hang
from riglint.model.documents.gear import Gear
from riglint.model.documents.rig import Backup
from riglint.model.library import RigFile
from riglint.model.load import Key
from riglint.model.reads import computed
from riglint.model.values.policy import Values
from riglint.read.quantity import Quantity

LINES = frozenset({"line", "rope"})
MOST_EXTRA = 0.05  # as long as a backup may be; see rules/backup/length


def _faces_m(gear: Gear) -> float:
    """Return how broad a piece stands in the wind."""
    facing = gear.diameter or gear.width
    return facing.si if facing else 0.0


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

    def alongside(self, span_m: float) -> Alongside:
        """Return what of it hangs on the main line that it is taped to: its weight between the ends, and the tape.

        One whose length is not known is taken a little longer than the span.

        Raises:
            MissingInput: it names no gear, or no mass of it is given.
        """
        length = known(lambda: self.unstressed_m) or (1.0 + MOST_EXTRA) * span_m
        pieces = [need(one.item, self.geometry.on_part(one, "gear")) for one in self.path.webbings]
        if not pieces:
            raise MissingInput(self.on("chain"))
        masses = [
            need(one.gear.mass_per_metre, At(one.document, (*one.key, "mass_per_metre"), self.id)).si
            for one in pieces
        ]
        # The heaviest and the broadest of its pieces stand for all of it.
        widest = max((one.gear for one in pieces), key=_faces_m)
        return Alongside((max(masses) + self.values["tape_mass"]) * G * length, length, widest)

    def gear_also_in(self, other: LoadPath) -> list[tuple[Key, str]]:
        """Return every piece of gear here that another chain names too, with the key that names it here."""
        theirs = {name for _, name in gear_named(other.parts)}
        return [(key, name) for key, name in gear_named(self.path.parts) if name in theirs]

    @computed
    def between_ends_m(self) -> float:
        """Distance between its own end fittings, the anchors' distance less what lies between."""
        self.must_be_whole()
        geometry = self.geometry
        chord = hypot(geometry.span_m, geometry.rise_m)
        return chord - geometry.side_reach_m("a") - geometry.side_reach_m("b")

    @computed
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

    @computed
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

    @computed
    def line(self) -> Line:
        """The backup as a line that stretches as listed.

        Raises:
            MissingInput: a value that it rests on is not given.
            NotComputable: it has no length, or its chain is broken.
        """
        return self._line(self.geometry)

    @computed
    def line_in_use(self) -> Line:
        """The same as stiff as it is once it has been worked; errors as `line`."""
        return self._line(self.geometry.in_use())

    def _line(self, geometry: Geometry) -> Line:
        self.must_be_whole()
        webbings = geometry.webbings()
        if len(webbings) != 1:
            raise NotComputable(f"{self.id} is made of several pieces, which we can't calculate")
        if self.unstressed_m <= 0.0:
            raise NotComputable(f"{self.id} has no length left between its ends")
        webbing = replace(webbings[0], length_m=self.unstressed_m)
        return Line(geometry.span_m, geometry.rise_m, geometry.reach("a"), (webbing,), geometry.reach("b"))

    def bare(self, fraction: float) -> Equilibrium:
        """Return the backup hanging by itself."""
        return rest_of(hang(self.line, 0.0, fraction))

    def must_be_whole(self) -> None:
        """Refuse a chain that does not run from anchor to anchor.

        Raises:
            NotComputable: it does not.
        """
        if not self.path.whole:
            raise NotComputable(f"the chain of {self.id} does not run from anchor to anchor")

    def parts(self) -> list[PartLoad]:
        """Return its parts with what is asked of a backup.

        Raises:
            NotComputable: its chain is broken.
        """
        self.must_be_whole()
        found = PartList(self.geometry, None).all()
        for load in found:
            load.row = "backup"
        return found
