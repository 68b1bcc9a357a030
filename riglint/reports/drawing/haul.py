"""The haul as a drawing: blocks, strands, brake, multiplier and hand with what each carries."""

from __future__ import annotations

from dataclasses import dataclass

from riglint.loads import Loads
from riglint.loads.haul.pulleys import Haul
from riglint.loads.haul.working import HaulSheet
from riglint.loads.inputs import known
from riglint.reports.drawing.chain import cut
from riglint.reports.drawing.svg import BLUE, GREY, INK, NARROW, PALE, figure, line, text
from riglint.reports.layout.spans import number

FIXED, MOVING = 92.0, 268.0  # where the blocks stand
BLOCK, GAP, TOP = 14.0, 24.0, 64.0  # half a block's width; between strands; the first strand
FEWEST = 2  # gaps that the line and its anchor need beside the lead
HALF = 24  # letters that fit half the drawing


@dataclass(frozen=True, slots=True)
class _Case:
    """What one drawing shows."""

    haul: Haul
    sheet: HaulSheet
    tension_n: float
    up_n: tuple[float, ...]
    down_n: tuple[float, ...]

    @property
    def lead_y(self) -> float:
        return TOP + GAP * max(len(self.up_n) - 1, FEWEST)

    def strand_y(self, n: int) -> float:
        """Height of strand n, the lead being the lowest."""
        return self.lead_y - GAP * n


def haul_drawing(loads: Loads, name: str) -> str | None:
    """Return the haul with its forces at standing tension; None where there is none or they are not known."""
    sheet, haul = known(lambda: loads.haul_sheet), loads.haul
    tension = known(lambda: loads.planned_tension_n)
    if sheet is None or haul is None or tension is None:
        return None
    up, down = known(lambda: haul.at_rest(tension).strands_n), known(lambda: haul.let_down(tension).strands_n)
    if up is None or down is None:
        return None
    case = _Case(haul, sheet, tension, up, down)
    marks = [*_line_and_anchor(case), *_strands(case), *_blocks(case), *_brake(case)]
    told = _told(case)
    top = case.lead_y + 78
    for words in told:
        marks.append(text(4, top, words))
        top += 17
    caption = (
        "Not to scale, at standing tension. On each strand: its force as it stands after hauling, then while letting "
        "down; at rest the truth lies between. The lead is the strand that goes to the brake."
    )
    strands = [
        f"{_name(n)}: {number(a / 1000.0)} kN after hauling, {number(b / 1000.0)} kN letting down"
        for n, (a, b) in enumerate(zip(up, down, strict=True))
    ]
    said = "; ".join([f"line {number(tension / 1000.0)} kN", *strands, *told])
    return figure(name, "Haul", said, marks, height=top, caption=caption, width=NARROW)


def _name(n: int) -> str:
    return "lead" if n == 0 else f"strand {n}"


def _line_and_anchor(case: _Case) -> list[str]:
    middle = (TOP + case.lead_y) / 2
    pull = number(case.tension_n / 1000.0)
    marks = [line(f"4,{middle:.1f} {FIXED},{middle:.1f}", INK, 3), _anchor(4, middle)]
    marks.append(line(f"{MOVING},{middle:.1f} {NARROW - 12},{middle:.1f}", INK, 3))
    marks.append(_arrow(NARROW - 4, middle, INK))
    marks.append(text(MOVING + BLOCK + 6, middle - 8, f"T {pull} kN", bold=True))
    return [
        *marks,
        text(16, middle - 8, "anchor", colour=GREY),
        text(MOVING + BLOCK + 6, middle + 18, "line", colour=GREY),
    ]


def _strands(case: _Case) -> list[str]:
    marks = [text((FIXED + MOVING) / 2, TOP - 22, "hauled / let down, kN", anchor="middle", colour=GREY)]
    last = len(case.up_n) - 1
    for n, (up, down) in enumerate(zip(case.up_n, case.down_n, strict=True)):
        y = case.strand_y(n)
        look = (BLUE, 3.0) if n == 0 else (INK, 1.8)
        left = 40.0 if n == 0 else FIXED
        marks.append(line(f"{left},{y:.1f} {MOVING},{y:.1f}", *look))
        words = f"{_name(n)} {number(up / 1000.0)} / {number(down / 1000.0)}"
        marks.append(text((FIXED + MOVING) / 2, y - 5, words, anchor="middle", bold=n == 0))
        if n < last:
            marks.append(_turn(n, y))
        else:
            x = MOVING if case.haul.dead_end_on == "moving" else FIXED
            marks.append(f'<circle cx="{x}" cy="{y:.1f}" r="5" fill="{INK}"/>')
    return marks


def _turn(n: int, y: float) -> str:
    """Return the rope round a sheave: from the lead round the moving block first, then to and fro."""
    x, sweep = (MOVING, 0) if n % 2 == 0 else (FIXED, 1)
    arc = f"M{x} {y:.1f}A{GAP / 2} {GAP / 2} 0 0 {sweep} {x} {y - GAP:.1f}"
    return f'<path d="{arc}" fill="none" stroke="{INK}" stroke-width="1.8"/>'


def _blocks(case: _Case) -> list[str]:
    part, marks = case.haul.part, []
    ends = (
        (FIXED, "fixed block", part.fixed_block, "start", 4.0),
        (MOVING, "moving block", part.moving_block, "end", NARROW - 4),
    )
    for x, words, gear, anchor, at in ends:
        top, low = TOP - 12, case.lead_y + (12 if x == MOVING else -12)
        place = f'x="{x - BLOCK}" y="{top:.1f}" width="{2 * BLOCK}" height="{max(low - top, 14):.1f}" rx="6"'
        marks.append(f'<rect {place} fill="{PALE}" fill-opacity=".45" stroke="{INK}" stroke-width="1.2"/>')
        marks.append(text(at, 13, words, anchor=anchor, bold=True))
        marks.append(text(at, 28, cut(gear or "not named", HALF), anchor=anchor, colour=GREY))
    return marks


def _brake(case: _Case) -> list[str]:
    y, part = case.lead_y, case.haul.part
    gear = part.brake.gear if part.brake else None
    words = f"brake {gear or 'not named'}" if part.brake else "no brake"
    marks = [
        line(f"26,{y:.1f} 10,{y:.1f} 10,{y + 52:.1f} 44,{y + 52:.1f}", BLUE, 2.2),
        _arrow(52, y + 52, BLUE),
        f'<rect x="22" y="{y - 9:.1f}" width="34" height="18" rx="3" fill="{INK}"/>',
        text(22, y + 26, cut(words, HALF), bold=True),
    ]
    tackle, hand, grip = part.multiplier, case.sheet.hand_force_n, case.sheet.grip_n
    if tackle is not None:
        x = FIXED + BLOCK
        marks.append(
            f'<path d="M{x - 8} {y:.1f}l8 -7 8 7 -8 7Z" fill="#ffffff" stroke="{INK}" stroke-width="2"/>'
        )
        ratio = f"multiplier {tackle.ratio}:1" if tackle.ratio else "multiplier"
        pulls = f"{ratio}, grip {number(grip / 1000.0)} kN" if grip is not None else ratio
        marks.append(text(NARROW - 4, y + 26, pulls, anchor="end"))
    pulled = "hand" if hand is None else f"hand {number(hand / 1000.0)} kN"
    marks.append(text(60, y + 56, pulled, colour=BLUE, bold=True))
    return marks


def _told(case: _Case) -> list[str]:
    """Return what stands below the drawing."""
    sheet, brake, told = case.sheet, case.haul.part.brake, []
    if brake is not None and brake.side == "moving":
        told.append("the file has the brake on the moving block, not as drawn")
    if sheet.actual_ratio is not None and sheet.ideal_ratio is not None:
        told.append(f"line over hand {number(sheet.actual_ratio)}; {sheet.ideal_ratio} without friction")
    if sheet.overshoot_n is not None:
        told.append(f"the crew could heave the line to {number(sheet.overshoot_n / 1000.0)} kN")
    if sheet.hold_force_n is not None:
        told.append(f"letting down, the hand holds {number(sheet.hold_force_n / 1000.0)} kN")
    if sheet.tie_back_catch_n is not None:
        told.append(f"tie-back catches at most {number(sheet.tie_back_catch_n / 1000.0)} kN")
    return told


def _anchor(x: float, y: float) -> str:
    return f'<rect x="{x - 4}" y="{y - 10:.1f}" width="8" height="20" fill="{INK}"/>'


def _arrow(x: float, y: float, colour: str) -> str:
    return f'<path d="M{x} {y:.1f}l-10 -5v10Z" fill="{colour}"/>'
