"""Rows of the table of what is left when one part goes, of the three main examples, worked by hand and apart."""

from __future__ import annotations

from datetime import date
from math import cos, hypot, radians, sin, sqrt
from pathlib import Path

import numpy as np
import pytest
from scipy.optimize import root

from riglint.findings.auditing import load_rig
from riglint.loads import Loads
from riglint.loads.states.let_out import FIRST_DIP, sunk
from riglint.loads.what_if.left import Left, Removal
from riglint.loads.what_if.removal import all_that_may_go

EXAMPLES = Path(__file__).parents[2] / "examples" / "rigs"
RIG_DAY = date(2026, 5, 2)
G = 9.80665


def loads(name: str) -> Loads:
    computed, problems = load_rig(EXAMPLES / f"{name}.yaml", RIG_DAY, None)
    assert computed is not None, problems
    return computed


def rows(name: str) -> dict[str, Removal]:
    return {row.gone: row for one in all_that_may_go(loads(name)) for row in one.rows()}


def left(row: Removal) -> Left:
    assert row.left is not None
    return row.left


def test_low_line_when_the_pulley_system_goes() -> None:
    """All that the line held arrives: ½·T²/k_L = ½·F²/k, so F = T·√(k/k_L).

    T 3.000 kN; the tie-back, 5 m of rope with 3 % at 1.5 kN (EN 1891 test load): k = 1.5 / (0.03 · 5) = 10.0 kN/m. The
    line gives up k_L = 13.21 kN for each metre (sheet). Slack after 3.000 / 13.21 = 0.227 m, so the catch is over.
    F = 3.000 · √(10.0 / 13.21) = 2.610 kN. 32 kN of rope hold 70 % at a figure-eight: 22.4 / 2.610 = 8.58.
    """
    row = left(rows("low-line")["the pulley system (rope, brake, a block or its anchor sling)"])
    assert row.force_n == pytest.approx(3000.0 * sqrt(10.0 / 13.21), rel=1e-3)
    assert row.ratio == pytest.approx(0.7 * 32.0 / 2.610, rel=1e-3)


def test_low_line_when_the_tie_back_goes() -> None:
    """The pulley system holds on as before: its moving block of 50 kN under the bounce's 9.25 kN, 50 / 9.25 = 5.41."""
    row = left(rows("low-line")["the tie-back TB-5"])
    assert (round(row.force_n / 1e3, 2), round(row.ratio, 2)) == (9.25, 5.41)
    assert row.ratio == pytest.approx(50.0 / 9.25, rel=1e-3)


def test_long_line_when_the_pulley_system_goes() -> None:
    """Energy balance T·(s + δ) − ½·k_L·(s + δ)² = ½·k·δ², F = k·δ.

    T 6.000 kN, s 0.100 m, k = 1.5 / (0.03 · 8) = 6.25 kN/m, k_L 3.643 kN/m (sheet).
    T' = 6.000 − 3.643 · 0.1 = 5.636 kN; released over the slack (6.000 − ½ · 3.643 · 0.1) · 0.1 = 0.5818 kJ;
    δ = (5.636 + √(5.636² + 2 · 9.893 · 0.5818)) / 9.893 = (5.636 + 6.578) / 9.893 = 1.2346 m; F = 6.25 · 1.2346 =
    7.716 kN. 22.4 / 7.716 = 2.90.
    """
    row = left(rows("long-line")["the pulley system (rope, brake, a block or its anchor sling)"])
    assert row.force_n == pytest.approx(
        6.25e3 * (5.636 + sqrt(5.636**2 + 2 * 9.893 * 0.5818)) / 9.893, rel=1e-3
    )
    assert row.ratio == pytest.approx(22.4 / 7.716, rel=1e-3)


def test_long_line_when_the_tie_back_goes() -> None:
    """A moving block of 50 kN under the bounce's 9.00 kN: 50 / 9.00 = 5.55."""
    row = left(rows("long-line")["the tie-back TB-8"])
    assert (round(row.force_n / 1e3, 2), round(row.ratio, 2)) == (9.00, 5.55)
    assert row.ratio == pytest.approx(50.0 / 9.005, rel=1e-3)


def test_highline_when_a_leg_goes() -> None:
    """Of three legs two are left, 25° from the line each: 8.285 / (2 · cos 25°) = 4.571 kN; 45 / 4.571 = 9.84."""
    row = left(rows("highline-rope-backup")["one leg at 'wall'"])
    assert row.force_n == pytest.approx(8285.0 / (2.0 * cos(radians(25.0))), rel=1e-3)
    assert row.ratio == pytest.approx(45.0 / 4.571, rel=1e-3)


def test_highline_when_a_bolt_goes() -> None:
    """Two bolts at 4.571 kN each, 10° out of their plane: axial / 15 + radial / 25 (EN 959:2018) = 0.233, 1 / 0.233."""
    row = left(rows("highline-rope-backup")["any one bolt of the main line at 'wall'"])
    share = 4.571 * (sin(radians(10.0)) / 15.0 + cos(radians(10.0)) / 25.0)
    assert row.ratio == pytest.approx(1.0 / share, rel=1e-3)


# How deep the walker sinks, beside a line without weight, solved apart


def _apex(rig: Loads, at: float, side: str, by_m: float, give_m_per_n: float) -> float:
    """The height of the walker on two straight strands without weight: forces balance at the feet."""
    line = rig.band.soft.standing.line
    points = rig.path.webbings[0].item.gear.stretch  # type: ignore[union-attr]
    assert points is not None
    forces, strains = [0.0, *(one for one, _ in points)], [0.0, *(one for _, one in points)]
    weight, span, rise = rig.band.case.heaviest_kg * G, line.span_m, line.rise_m

    def lengths(tensions: tuple[float, float]) -> list[float]:
        found = []
        for name, share, tension in (("a", at, tensions[0]), ("b", 1.0 - at, tensions[1])):
            reach = line.reach_a if name == "a" else line.reach_b
            more = by_m + give_m_per_n * tension if name == side else 0.0
            webbing = share * line.unstressed_m * (1.0 + float(np.interp(tension, forces, strains)))
            found.append(
                reach.length_m + reach.give_m_per_n * (tension - reach.reference_tension_n) + more + webbing
            )
        return found

    def out_of_balance(unknown: np.ndarray) -> list[float]:
        x, y, ta, tb = unknown[0], unknown[1], unknown[2] * 1e3, unknown[3] * 1e3
        la, lb = lengths((ta, tb))
        return [
            hypot(x, y) - la,
            hypot(span - x, rise - y) - lb,
            (ta * x / la - tb * (span - x) / lb) / 1e3,
            (-ta * y / la + tb * (rise - y) / lb - weight) / 1e3,
        ]

    tension = rig.standing_tension_n / 1e3
    solved = root(out_of_balance, [at * span, -0.06 * span, tension, tension], tol=1e-10)
    assert solved.success
    return float(solved.x[1])


@pytest.mark.parametrize(
    ("name", "side", "by_m", "give_m_per_n"),
    [
        ("low-line", "b", 0.1, 1.0 / 10_000.0),  # its tie-back: 0.1 m of slack, 10 kN/m
        ("long-line", "b", 0.1, 1.0 / 6_250.0),
        ("highline-rope-backup", "a", 0.05, 0.0),  # a leg: the shackle drops 0.05 m
    ],
)
def test_the_walker_sinks_as_far_as_on_a_line_solved_apart(
    name: str, side: str, by_m: float, give_m_per_n: float
) -> None:
    """Webbing weighs little beside a person: within 4 % of two straight strands. The first dip is twice that."""
    rig = loads(name)
    found = sunk(rig.band, side, by_m, give_m_per_n)
    assert found is not None
    fractions = rig.band.soft.fractions
    apart = [
        _apex(rig, at, side, 0.0, 0.0) - _apex(rig, at, side, by_m, give_m_per_n) for at in fractions[::4]
    ]
    assert found.sink_m == pytest.approx(FIRST_DIP * max(apart), rel=0.04)


def test_the_rows_show_what_the_walker_sinks_and_whether_the_ground_is_met() -> None:
    low, high = rows("low-line"), rows("highline-rope-backup")
    tied, leg = low["the pulley system (rope, brake, a block or its anchor sling)"], high["one leg at 'wall'"]
    assert tied.fall_m is not None
    assert tied.clearance_m is not None
    assert tied.clearance_m < 0.0  # 0.58 m above the ground before, 1.34 m deeper in the first dip
    assert leg.clearance_m is not None
    assert leg.clearance_m > 10.0
    assert leg.fall_m is not None
    assert 0.0 < leg.fall_m < tied.fall_m


def test_a_longer_slack_lets_the_walker_sink_deeper() -> None:
    band = loads("long-line").band
    deep = [sunk(band, "b", by_m) for by_m in (0.05, 0.1, 0.2, 0.3)]
    sinks = [one.sink_m for one in deep if one is not None]
    assert len(sinks) == 4
    assert sinks == sorted(sinks)
