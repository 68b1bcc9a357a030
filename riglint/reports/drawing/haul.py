"""The haul as a drawing: blocks, strands, brake, multiplier and hand with what each carries."""

from __future__ import annotations

from riglint.reports.drawing.chain import cut
from riglint.reports.drawing.svg import BLUE, GREY, INK, NARROW, PALE, figure, line, text
from riglint.views.drawing.haul import HaulView
from riglint.views.figures import number

FIXED, MOVING = 92.0, 268.0  # where the blocks stand
BLOCK, GAP, TOP = 14.0, 24.0, 64.0  # half a block's width; between strands; the first strand
FEWEST = 2  # gaps that the line and its anchor need beside the lead
HALF = 24  # letters that fit half the drawing


def haul_drawing(haul: HaulView, name: str) -> str:
    """Return the haul with its forces at standing tension; `name` of the drawing, once a page."""
    marks = [*_line_and_anchor(haul), *_strands(haul), *_blocks(haul), *_brake(haul)]
    top = _lead_y(haul) + 78
    for words in haul.notes:
        marks.append(text(4, top, words))
        top += 17
    caption = (
        "Not to scale, at standing tension. On each strand: its force as it stands after hauling, then while letting "
        "down; at rest the truth lies between. The lead is the strand that goes to the brake."
    )
    strands = [
        f"{one.name}: {number(one.hauled_kn)} kN after hauling, {number(one.let_down_kn)} kN letting down"
        for one in haul.strands
    ]
    said = "; ".join([f"line {number(haul.standing_tension_kn)} kN", *strands, *haul.notes])
    return figure(name, "Haul", said, marks, height=top, caption=caption, width=NARROW)


def _lead_y(haul: HaulView) -> float:
    """Height of the lead, the lowest strand."""
    return TOP + GAP * max(len(haul.strands) - 1, FEWEST)


def _line_and_anchor(haul: HaulView) -> list[str]:
    middle = (TOP + _lead_y(haul)) / 2
    pull = number(haul.standing_tension_kn)
    marks = [line(f"4,{middle:.1f} {FIXED},{middle:.1f}", INK, 3), _anchor(4, middle)]
    marks.append(line(f"{MOVING},{middle:.1f} {NARROW - 12},{middle:.1f}", INK, 3))
    marks.append(_arrow(NARROW - 4, middle, INK))
    marks.append(text(MOVING + BLOCK + 6, middle - 8, f"T {pull} kN", bold=True))
    return [
        *marks,
        text(16, middle - 8, "anchor", colour=GREY),
        text(MOVING + BLOCK + 6, middle + 18, "line", colour=GREY),
    ]


def _strands(haul: HaulView) -> list[str]:
    marks = [text((FIXED + MOVING) / 2, TOP - 22, "hauled / let down, kN", anchor="middle", colour=GREY)]
    last = len(haul.strands) - 1
    for n, one in enumerate(haul.strands):
        y = _lead_y(haul) - GAP * n
        look = (BLUE, 3.0) if n == 0 else (INK, 1.8)
        left = 40.0 if n == 0 else FIXED
        marks.append(line(f"{left},{y:.1f} {MOVING},{y:.1f}", *look))
        words = f"{one.name} {number(one.hauled_kn)} / {number(one.let_down_kn)}"
        marks.append(text((FIXED + MOVING) / 2, y - 5, words, anchor="middle", bold=n == 0))
        if n < last:
            marks.append(_turn(n, y))
        else:
            x = MOVING if haul.dead_end_on == "moving" else FIXED
            marks.append(f'<circle cx="{x}" cy="{y:.1f}" r="5" fill="{INK}"/>')
    return marks


def _turn(n: int, y: float) -> str:
    """Return the rope round a sheave: from the lead round the moving block first, then to and fro."""
    x, sweep = (MOVING, 0) if n % 2 == 0 else (FIXED, 1)
    arc = f"M{x} {y:.1f}A{GAP / 2} {GAP / 2} 0 0 {sweep} {x} {y - GAP:.1f}"
    return f'<path d="{arc}" fill="none" stroke="{INK}" stroke-width="1.8"/>'


def _blocks(haul: HaulView) -> list[str]:
    marks = []
    ends = (
        (FIXED, "fixed block", haul.fixed_block, "start", 4.0),
        (MOVING, "moving block", haul.moving_block, "end", NARROW - 4),
    )
    for x, words, gear, anchor, at in ends:
        top, low = TOP - 12, _lead_y(haul) + (12 if x == MOVING else -12)
        place = f'x="{x - BLOCK}" y="{top:.1f}" width="{2 * BLOCK}" height="{max(low - top, 14):.1f}" rx="6"'
        marks.append(f'<rect {place} fill="{PALE}" fill-opacity=".45" stroke="{INK}" stroke-width="1.2"/>')
        marks.append(text(at, 13, words, anchor=anchor, bold=True))
        marks.append(text(at, 28, cut(gear or "not named", HALF), anchor=anchor, colour=GREY))
    return marks


def _brake(haul: HaulView) -> list[str]:
    y = _lead_y(haul)
    words = f"brake {haul.brake or 'not named'}" if haul.has_brake else "no brake"
    marks = [
        line(f"26,{y:.1f} 10,{y:.1f} 10,{y + 52:.1f} 44,{y + 52:.1f}", BLUE, 2.2),
        _arrow(52, y + 52, BLUE),
        f'<rect x="22" y="{y - 9:.1f}" width="34" height="18" rx="3" fill="{INK}"/>',
        text(22, y + 26, cut(words, HALF), bold=True),
    ]
    if haul.has_multiplier:
        x = FIXED + BLOCK
        marks.append(
            f'<path d="M{x - 8} {y:.1f}l8 -7 8 7 -8 7Z" fill="#ffffff" stroke="{INK}" stroke-width="2"/>'
        )
        ratio = f"multiplier {haul.multiplier_ratio}:1" if haul.multiplier_ratio else "multiplier"
        pulls = f"{ratio}, grip {number(haul.grip_kn)} kN" if haul.grip_kn is not None else ratio
        marks.append(text(NARROW - 4, y + 26, pulls, anchor="end"))
    pulled = "hand" if haul.hand_kn is None else f"hand {number(haul.hand_kn)} kN"
    marks.append(text(60, y + 56, pulled, colour=BLUE, bold=True))
    return marks


def _anchor(x: float, y: float) -> str:
    return f'<rect x="{x - 4}" y="{y - 10:.1f}" width="8" height="20" fill="{INK}"/>'


def _arrow(x: float, y: float, colour: str) -> str:
    return f'<path d="M{x} {y:.1f}l-10 -5v10Z" fill="{colour}"/>'
