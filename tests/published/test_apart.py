"""People apart pull less on a line than all of them at the worst place: total potential energy at its least (scipy)."""

from math import hypot
from typing import cast

import pytest
from scipy import optimize

from riglint.mechanics.span.line import Equilibrium, Line, Reach, Webbing, hang
from riglint.mechanics.span.stretch import StretchLaw
from riglint.mechanics.valid_range import STANDARD_GRAVITY_M_S2 as G

SPAN_M, STIFFNESS_N = 60.0, 90e3
HEAVY_N, LIGHT_N = 85.0 * G, 68.0 * G
PLACES = [(0.5, 0.5), (0.45, 0.55), (0.3, 0.6), (0.2, 0.8), (0.05, 0.5), (0.48, 0.95), (0.6, 0.4)]


def tension_of_two_n(length_m: float, places: tuple[float, float]) -> float:
    """Greatest tension (N) of a weightless line with two weights that hang at shares of its unstressed length."""
    (near, first_n), (far, second_n) = sorted(zip(places, (HEAVY_N, LIGHT_N), strict=True))
    far = max(far, near + 1e-3)
    lengths = (near * length_m, (far - near) * length_m, (1.0 - far) * length_m)

    def sides(nodes: list[float]) -> list[float]:
        x1, y1, x2, y2 = nodes
        return [hypot(x1, y1), hypot(x2 - x1, y2 - y1), hypot(SPAN_M - x2, y2)]

    def energy_kj(nodes: list[float]) -> float:
        stretched = (max(a - b, 0.0) ** 2 / b for a, b in zip(sides(nodes), lengths, strict=True))
        return (0.5 * STIFFNESS_N * sum(stretched) + first_n * nodes[1] + second_n * nodes[3]) / 1e3

    start = [near * SPAN_M, -2.0, far * SPAN_M, -2.0]
    found = optimize.minimize(
        energy_kj, start, method="Nelder-Mead", options={"xatol": 1e-7, "fatol": 1e-10, "maxiter": 20_000}
    )
    found = optimize.minimize(energy_kj, found.x, method="BFGS", options={"gtol": 1e-9})
    return max(STIFFNESS_N * (a / b - 1.0) for a, b in zip(sides(found.x), lengths, strict=True))


@pytest.mark.parametrize("length_m", [58.5, 60.0, 61.5])
def test_apart_they_pull_less(length_m: float) -> None:
    webbing = Webbing(length_m, 0.01, StretchLaw.linear(STIFFNESS_N))  # a slack line needs some weight
    line = Line(SPAN_M, 0.0, Reach(0.0), (webbing,), Reach(0.0))
    crowd_n = max(
        cast("Equilibrium", hang(line, HEAVY_N + LIGHT_N, step / 40.0)).tension_n for step in range(1, 40)
    )
    apart = [tension_of_two_n(length_m, places) for places in PLACES]
    assert apart[0] == pytest.approx(crowd_n, rel=0.01)  # both in the middle
    assert max(apart) <= crowd_n * (1.0 + 1e-4)
    assert min(apart) < 0.9 * crowd_n
