"""The pulley system as marks on paper: each part where the rope meets it, in the room that the paper has."""

from __future__ import annotations

from collections.abc import Iterator

from riglint.reports.drawing.places import ReevedPlaces
from riglint.reports.drawing.shapes import arrow, number_mark, person, rope, turn
from riglint.reports.drawing.svg import BLUE, GREY, INK, PALE, RED, line, text
from riglint.views.drawing.named import Place
from riglint.views.drawing.reeving import Block, Run


class Reeved(ReevedPlaces):
    """The marks of one picture: all parts, or those of one step with the new ones in blue."""

    def marks(self) -> list[str]:
        """Return everything that is shown."""
        found = [*self._line_and_anchor(), *self._blocks(), *self._strands(), *self._tie_back()]
        return [*found, *self._brake(), *self._behind(), *self._hands(), *self._all_numbers()]

    def _colour(self, *places: Place) -> str:
        if any(one in self.wrong for one in places):
            return RED
        return BLUE if any(one in self.new for one in places) else INK

    # Anchor, line, blocks

    def _line_and_anchor(self) -> Iterator[str]:
        paper, y = self.paper, self.middle
        yield line(f"{paper.anchor},{y:.1f} {paper.fixed},{y:.1f}", INK, 3)
        yield f'<rect x="{paper.anchor - 4}" y="{y - 11:.1f}" width="8" height="22" fill="{INK}"/>'
        yield line(f"{paper.plate},{y:.1f} {paper.plate},{self.lead_y:.1f}", GREY, 5)
        yield line(f"{paper.moving},{y:.1f} {paper.width - 10},{y:.1f}", INK, 3)
        yield arrow(paper.width - 2, y, INK)
        if paper.figures:
            pull = self.view.standing_tension_kn
            words = "line" if pull is None else f"line {pull:.3g} kN"
            below = 15 if len(self.reeving.strands) == 1 else 22  # clear of the number of a dead end out here
            yield text(paper.width - 2, y + below, words, anchor="end", bold=True)
            if self.view.stand != "behind":
                yield text(2, y + 26, "anchor", colour=GREY)

    def _blocks(self) -> Iterator[str]:
        lead_off = self.reeving.strands[0].start
        blocks: tuple[tuple[Block, Place], ...] = (("fixed", "fixed_block"), ("moving", "moving_block"))
        for block, place in blocks:
            x, top = self.x(block), self.paper.top - 10
            low = self.lead_y + (10 if block == lead_off else -self.gap / 2)
            half, colour = self.paper.half, self._colour(place)
            box = f'x="{x - half:.1f}" y="{top:.1f}" width="{2 * half}" height="{max(low - top, 14):.1f}" rx="6"'
            yield f'<rect {box} fill="{PALE}" fill-opacity=".45" stroke="{colour}" stroke-width="1.4"/>'
            for n in range(max(0, dict(self.reeving.spare_sheaves).get(block, 0))):
                yield f'<circle cx="{x:.1f}" cy="{top + 6 + 7 * n:.1f}" r="2.5" fill="none" stroke="{GREY}"/>'

    # Rope

    def _strands(self) -> Iterator[str]:
        if "lead" not in self.shows:
            return
        runs, last = self.reeving.strands, len(self.reeving.strands) - 1
        for n, run in enumerate(runs):
            y = self.lead_y - self.gap * n
            colour = self._colour("lead") if n else BLUE
            begin, end = self.x(run.start), self.x(run.end)
            if run.end == "brake" and "brake" not in self.shows:
                end = self.x("fixed" if run.start == "moving" else "moving")  # hangs loose as yet
            yield rope(begin, end, y, colour, 3.0 if n == 0 else 1.8)
            yield from self._force(n, y)
            if n < last:
                yield turn(self.x(run.start), y, y - self.gap, self.bulge(run.start), self._turn_colour(n))
            else:
                yield from self._dead_end(run, y)

    def _force(self, n: int, y: float) -> Iterator[str]:
        if not self.paper.figures:
            return
        one = self.view.strands[n]
        known = one.hauled_kn is not None and one.let_down_kn is not None
        forces = f" {one.hauled_kn:.3g} / {one.let_down_kn:.3g}" if known else ""
        x = self.x("grip") + 16 if self.mirrored and n == 0 else self.paper.fixed + 18
        yield text(x, y - 5, f"{one.name}{forces}")

    def _turn_colour(self, n: int) -> str:
        """Return red for a turn that the block has no sheave for."""
        block = self.reeving.strands[n].start
        turns = [m for m, run in enumerate(self.reeving.strands[:-1]) if run.start == block]
        spare = next((free for one, free in self.reeving.spare_sheaves if one == block), 0)
        missing = turns[len(turns) + spare :] if spare < 0 else []
        return RED if n in missing else self._colour("lead")

    def _dead_end(self, run: Run, y: float) -> Iterator[str]:
        x = self.x(run.start)
        tied = self.reeving.tied_to
        if tied is None or tied == self.reeving.ends_on:
            yield f'<circle cx="{x:.1f}" cy="{y:.1f}" r="5" fill="{self._colour("dead_end")}"/>'
            return
        yield line(f"{x - 6:.1f},{y - 6:.1f} {x + 6:.1f},{y + 6:.1f}", RED, 2.5)
        yield line(f"{x - 6:.1f},{y + 6:.1f} {x + 6:.1f},{y - 6:.1f}", RED, 2.5)
        yield f'<circle cx="{self.x(tied):.1f}" cy="{y:.1f}" r="5" fill="#ffffff" stroke="{RED}" stroke-width="2"/>'

    def _tie_back(self) -> Iterator[str]:
        if "tie_back" not in self.shows:
            return
        paper, high = self.paper, 9.0
        out = paper.moving + (paper.width - paper.moving) * 0.55
        there, back = f"{out:.1f},{self.middle:.1f} {out:.1f},{high}", f"{paper.anchor},{high}"
        yield line(
            f"{there} {back} {paper.anchor},{self.middle - 11:.1f}", self._colour("tie_back"), 1.8, "6 3"
        )

    # Brake and what lies behind it

    def _brake(self) -> Iterator[str]:
        if "brake" not in self.shows:
            return
        x, y, half = self.x("brake"), self.lead_y, self.paper.half
        colour = self._colour("brake")
        holder = self.paper.plate if not self.mirrored else self.paper.moving
        yield line(f"{holder},{y:.1f} {x:.1f},{y:.1f}", GREY, 2.5)
        if not self.reeving.has_brake:
            look = f'fill="#ffffff" stroke="{RED}" stroke-width="2" stroke-dasharray="3 2"'
            yield f'<circle cx="{x:.1f}" cy="{y:.1f}" r="{half - 2:.1f}" {look}/>'
            return
        box = f'x="{x - half:.1f}" y="{y - 8:.1f}" width="{2 * half}" height="16" rx="3"'
        yield f'<rect {box} fill="{colour}"/>'
        way = self.away() * 5  # the way of the rope when hauled: in from the load, out to the hand
        yield f'<path d="M{x + way:.1f} {y:.1f}l{-2 * way:.1f} -4.5v9Z" fill="#ffffff"/>'

    def _behind(self) -> Iterator[str]:
        if "hand" not in self.shows and "grip" not in self.shows:
            if "tail" in self.shows:
                yield from self._tail_alone()
            return
        if "grip" not in self.shows and self.reeving.multiplier > 1:
            yield from self._tail_alone(to_hand=True)
            return
        before: Run | None = None
        for n, run in enumerate(self.reeving.tail, 1):
            y = self.row_y(n)
            colour = self._colour("hand")
            yield rope(self.begins(run), self.x(run.end), y, colour, 1.8)
            if run.start == "brake":
                yield turn(self.begins(run), self.lead_y, y, self.away(), colour)
            elif before is not None and before.end == run.start:
                yield turn(self.x(run.start), self.row_y(n - 1), y, self.bulge(run.start), colour)
            if run.own_rope and before is not None and before.end == "bag":
                yield f'<circle cx="{self.x(run.start):.1f}" cy="{y:.1f}" r="4" fill="{INK}"/>'
            before = run
        yield from self._grip()
        yield from self._stopper()

    def _tail_alone(self, *, to_hand: bool = False) -> Iterator[str]:
        """Return the rope behind the brake when the multiplier is off."""
        x, y = self.x("brake") + self.away() * self.paper.half, self.row_y(1)
        colour = self._colour("hand" if to_hand else "tail")
        yield turn(x, self.lead_y, y, self.away(), colour)
        yield rope(x, self.loose_x(), y, colour, 1.8)
        if not to_hand:
            yield from self._stopper()

    def _stopper(self) -> Iterator[str]:
        if "tail" not in self.shows:
            return
        x = self.x("brake") - self.away() * (self.paper.half * 1.2)
        colour = self._colour("tail")
        yield f'<circle cx="{x:.1f}" cy="{self.row_y(1):.1f}" r="4.5" fill="{colour}" stroke="#ffffff"/>'

    def _grip(self) -> Iterator[str]:
        if "grip" not in self.shows:
            return
        x, tail = self.x("grip"), self.reeving.grip_on == "tail"
        y = self.row_y(1) if tail else self.lead_y
        rows = [n for n, run in enumerate(self.reeving.tail, 1) if "grip" in (run.start, run.end)]
        low = (self.row_y(rows[-1]) + self.row_y(rows[-2])) / 2
        yield line(f"{x:.1f},{y:.1f} {x:.1f},{low:.1f}", INK, 1.4)
        for n in rows[::2]:
            middle = (self.row_y(n) + self.row_y(n + 1)) / 2
            yield f'<circle cx="{x:.1f}" cy="{middle:.1f}" r="3.5" fill="{self._colour("pulley")}"/>'
        # Its point shows the way it bites. The load lies beyond the block, and on the tail beyond the brake.
        way = -8.0 if tail != self.mirrored else 8.0
        way = -way if self.reeving.grip_turned else way
        shape = f"M{x + way:.1f} {y:.1f}l{-2 * way:.1f} -7v14Z"
        yield f'<path d="{shape}" fill="#ffffff" stroke="{self._colour("grip")}" stroke-width="2"/>'

    # People

    def _hands(self) -> Iterator[str]:
        if "hand" not in self.shows:
            return
        pulls, (x, y) = self.pulls, self.hand_at()
        colour = self._colour("hand")
        left = x < self.x("grip") and pulls
        yield arrow(x - 8 if left else x + 8, y, colour, left=left)
        if self.view.redirected and pulls:
            yield f'<circle cx="{x:.1f}" cy="{y:.1f}" r="4.5" fill="#ffffff" stroke="{INK}" stroke-width="2"/>'
        if self.view.stand == "behind":
            yield from person(8, self.middle, RED)
        else:
            yield from person(x - 18 if left else x + 18, y + 2, colour)

    # Numbers

    def _all_numbers(self) -> Iterator[str]:
        for place, (x, y) in self.number_places().items():
            if place in self.shows and place in self.numbers:
                yield from number_mark(
                    x, y, self.numbers[place], self._colour(place), large=not self.paper.figures
                )
