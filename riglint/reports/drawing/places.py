"""Where the parts of a pulley system stand on paper: the anchor on the left, the line going off to the right."""

from __future__ import annotations

from riglint.records import dataclass
from riglint.views.drawing.haul import HaulView
from riglint.views.drawing.named import Place
from riglint.views.drawing.reeving import Node, Run

FEWEST = 2  # gaps that the line and its anchor need beside the lead


@dataclass(frozen=True, slots=True)
class Paper:
    """Where things stand: the anchor on the left, the line going off to the right."""

    width: float
    anchor: float
    plate: float
    brake: float
    fixed: float
    moving: float
    grip: float
    top: float  # of the first strand
    gap: float  # between strands
    row: float  # between the runs behind the brake
    half: float  # of a block's width
    figures: bool  # whether the strands carry their forces


PAGE = Paper(360, 30, 44, 66, 108, 284, 250, 64, 24, 20, 14, figures=True)
SMALL = Paper(158, 13, 22, 38, 62, 118, 98, 44, 13, 15, 8, figures=False)
LARGE = 15  # letters of a small picture, so that they are 8 pt high where three stand side by side on A4
Shown = tuple[Place, ...]


class ReevedPlaces:
    """The places of one picture: of all parts, or of those of one step."""

    def __init__(self, view: HaulView, paper: Paper, shows: Shown, new: Shown = ()) -> None:
        self.view, self.reeving, self.paper, self.shows, self.new = view, view.reeving, paper, shows, new
        self.numbers = {one.place: n for n, one in enumerate(view.named, 1)}
        self.wrong = {one.place for one in view.named if one.wrong}
        self.mirrored = self.reeving.brake_side == "moving"
        # The forces of many strands want room; a small picture pushes them together.
        gaps = max(len(self.reeving.strands) - 1, FEWEST)
        self.gap = paper.gap if paper.figures else min(paper.gap, 84.0 / gaps)
        self.lead_y = paper.top + self.gap * gaps
        self.middle = (paper.top + self.lead_y) / 2

    @property
    def highest(self) -> float:
        """The highest place that a mark takes: the tie-back, else the numbers of the blocks."""
        return 0.0 if "tie_back" in self.shows else self.paper.top - 31

    @property
    def bottom(self) -> float:
        """The lowest place that a mark takes."""
        if "hand" in self.shows:
            return self.row_y(self.rows() if self.pulls else 1) + 26
        return self.row_y(1) + 12 if "tail" in self.shows else self.lead_y + 20

    @property
    def pulls(self) -> bool:
        """Whether the hands haul; with the multiplier off they hold the rope behind the brake."""
        return "grip" in self.shows or self.reeving.multiplier == 1

    # ReevedPlaces

    def x(self, node: Node) -> float:
        """Return where a run ends: behind a brake on the moving block everything is mirrored."""
        paper, on_tail = self.paper, self.reeving.grip_on == "tail"
        far = paper.grip if self.reeving.multiplier == 1 else paper.anchor + 10
        places: dict[Node, float] = {
            "fixed": paper.fixed,
            "moving": paper.moving,
            "brake": paper.brake,
            "grip": paper.grip - (paper.moving - paper.fixed) * 0.35 if on_tail else paper.grip,
            "pulley": paper.moving + 6 if on_tail else paper.fixed,
            "hand": paper.moving + 20 if on_tail and self.reeving.multiplier > 1 else far,
            "bag": paper.grip - 20 if on_tail else paper.fixed + 30,
        }
        x = places[node]
        if not self.mirrored or node in {"fixed", "moving"}:
            return x
        x = paper.fixed + paper.moving - x
        return min(x, paper.width - 34) if node == "hand" else x

    def row_y(self, row: int) -> float:
        """Return the height of a run behind the brake, the lead being row 0."""
        return self.lead_y + (self.paper.row * row + 4 if row else 0)

    def rows(self) -> int:
        """How many runs there are behind the brake."""
        return len(self.reeving.tail)

    def away(self) -> float:
        """Which way the brake lies, seen from the strands: -1 to the left, 1 to the right."""
        return 1.0 if self.mirrored else -1.0

    def bulge(self, node: Node) -> float:
        """Which way the rope turns at a node: -1 to the left, 1 to the right."""
        if node == "brake":
            return self.away()
        if node in {"fixed", "moving"}:
            return 1.0 if node == "moving" else -1.0
        left = self.x(node) < (self.x("hand") + self.x("grip")) / 2
        return -1.0 if left else 1.0

    def begins(self, run: Run) -> float:
        """Return where a run begins; behind the brake at its far edge."""
        edge = self.away() * self.paper.half if run.start == "brake" else 0.0
        return self.x(run.start) + edge

    def loose_x(self) -> float:
        """Return where the rope behind the brake ends when the multiplier is off."""
        x = self.paper.fixed + 0.3 * (self.paper.moving - self.paper.fixed)
        return self.paper.fixed + self.paper.moving - x if self.mirrored else x

    # Numbers

    def number_places(self) -> dict[Place, tuple[float, float]]:
        """Return where the number of each part stands."""
        paper, last = self.paper, len(self.reeving.strands) - 1
        end = self.reeving.tied_to or self.reeving.ends_on
        out = paper.half + 10
        end_y = self.lead_y - self.gap * last
        over = paper.top - 20
        beside = -self.away() if self.reeving.grip_on == "tail" else self.away()
        row1, half = self.row_y(1), paper.half
        return {
            "fixed_block": (paper.fixed, over),
            "moving_block": (paper.moving, over),
            "dead_end": (self.x(end) + (out if end == "moving" and not self.mirrored else -out), end_y),
            "lead": (self.x("moving" if self.mirrored else "fixed"), self.lead_y),
            "brake": (self.x("brake"), self.lead_y - 18),
            "tail": (self.x("brake") - self.away() * (half * 1.2 + 14), row1),
            "tie_back": ((paper.fixed + paper.moving) / 2, 9),
            "grip": (self.x("grip") + beside * 14, (self.lead_y + row1) / 2),
            "pulley": (
                self.x("grip") - self.away() * (half + 10),
                self.row_y(max(1, self.rows() - 1)) + paper.row / 2,
            ),
            "fixed_pulley": self._fixed_pulley(),
            "hand": self._hand_place(),
            "redirect": self._redirect_place(),
        }

    def _fixed_pulley(self) -> tuple[float, float]:
        """Return where the number of the multiplier's fixed end stands: beside the turn, or the end of its own rope."""
        rows = [(n, run) for n, run in enumerate(self.reeving.tail, 1) if run.start == "pulley"]
        if not rows:
            return 0.0, 0.0
        row, run = rows[0]
        y = self.row_y(row) if run.own_rope else (self.row_y(row) + self.row_y(row - 1)) / 2
        return self.x("pulley") + self.bulge("pulley") * (self.paper.row / 2 + 9), y

    def _redirect_place(self) -> tuple[float, float]:
        x, y = self.hand_at()
        return (x + 34 if x < self.x("grip") and self.pulls else x - 30), y + 14

    def _hand_place(self) -> tuple[float, float]:
        if self.view.stand == "behind":
            return 8, self.middle + 22
        x, y = self.hand_at()
        return (x + 14 if x < self.x("grip") and self.pulls else x - 10), y + 14

    def hand_at(self) -> tuple[float, float]:
        """Return where the rope leaves the picture in somebody's hands."""
        if self.pulls:
            return self.x("hand"), self.row_y(self.rows())
        return self.loose_x(), self.row_y(1)
