"""Draws the standing tension that keeps a walker high enough against the span, for three webbings, as an SVG picture.

    python examples/scripts/tension_against_span.py tension.svg

Somebody of 80 kg stands in the middle and may sag 1.2 m. Under the walker the tension follows from span and sag alone;
how much of it has to be pulled in before depends on the webbing. The stretch curves are invented; makers print such
ones.
"""

import sys
from pathlib import Path

from riglint.mechanics.span.cut import Line, Reach, Webbing
from riglint.mechanics.span.line import Equilibrium, NoResult, hang
from riglint.mechanics.span.standing import length_for_sag
from riglint.mechanics.span.stretch import StretchLaw

SAG_M = 1.2
WALKER_N = 80 * 9.81
SPANS_M = (10, 20, 30, 40, 50, 60)
# name: stretch at tensions in newtons, weight of a metre in newtons, colour
WEBBINGS = {
    "nylon": ([(5_000.0, 0.10), (10_000.0, 0.17)], 0.65, "#1b6e53"),
    "polyester": ([(5_000.0, 0.04), (10_000.0, 0.065)], 0.60, "#20508c"),
    "UHMWPE": ([(5_000.0, 0.012), (10_000.0, 0.022)], 0.40, "#a33b20"),
}
WIDTH, HEIGHT, LEFT, RIGHT, BOTTOM, MOST_KN = 640, 400, 60, 530, 340, 12


def standing_kn(span_m: float, curve: list[tuple[float, float]], weight_n_per_m: float) -> float:
    """Return the tension with nobody on the line [kN] that lets the walker sag just so far."""
    webbing = Webbing(span_m, weight_n_per_m, StretchLaw.through(curve))
    line = Line(span_m, 0.0, Reach(0.0), (webbing,), Reach(0.0))
    fitted = length_for_sag(line, WALKER_N, 0.5, SAG_M)
    rest = fitted if isinstance(fitted, NoResult) else hang(fitted)
    if not isinstance(rest, Equilibrium):
        raise SystemExit(f"No line of {span_m} m sags {SAG_M} m: {rest.why}.")
    return rest.tension_n / 1000.0


def place(span_m: float, tension_kn: float) -> tuple[float, float]:
    """Return where a span and a tension stand in the picture."""
    return LEFT + (RIGHT - LEFT) * span_m / SPANS_M[-1], BOTTOM - (BOTTOM - 20) * tension_kn / MOST_KN


def picture() -> str:
    """Return the picture."""
    size = f'viewBox="0 0 {WIDTH} {HEIGHT}" font-family="sans-serif" font-size="13"'
    lines = [f'<svg xmlns="http://www.w3.org/2000/svg" {size}>']
    for kn in range(0, MOST_KN + 1, 2):
        _, y = place(0, kn)
        lines += [
            f'<path d="M{LEFT} {y:.0f}H{RIGHT}" stroke="#ccc"/><text x="12" y="{y + 4:.0f}">{kn} kN</text>'
        ]
    for span in SPANS_M:
        x, y = place(span, 0)
        lines += [f'<text x="{x:.0f}" y="{y + 20:.0f}" text-anchor="middle">{span} m</text>']
    for name, (curve, weight, colour) in WEBBINGS.items():
        points = [place(span, standing_kn(span, curve, weight)) for span in SPANS_M]
        along = " ".join(f"{x:.1f},{y:.1f}" for x, y in points)
        x, y = points[-1]
        lines += [f'<polyline points="{along}" fill="none" stroke="{colour}" stroke-width="2"/>']
        lines += [f'<text x="{x + 6:.0f}" y="{y + 4:.0f}" fill="{colour}">{name}</text>']
    return "\n".join([*lines, "</svg>", ""])


if __name__ == "__main__":
    Path(sys.argv[1]).write_text(picture(), encoding="utf-8")
    for name, (curve, weight, _) in WEBBINGS.items():
        print(f"{name:10}", *(f"{span} m {standing_kn(span, curve, weight):.1f} kN " for span in SPANS_M))
