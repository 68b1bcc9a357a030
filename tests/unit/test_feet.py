"""How high feet are: on the line as it hangs under somebody light; on the bare line where people jump or none is known.

The sag is checked with moments about the loaded point, W·x·(D - x)/(D·H), the weight of the webbing left out
(statics, worked out here).
"""

from typing import Any

import pytest

from riglint.loads import Loads
from riglint.mechanics.valid_range import STANDARD_GRAVITY_M_S2
from tests.rigs import loads_of, rig_data

WEIGHT_N = 50 * STANDARD_GRAVITY_M_S2
HIGH = {"chain[0].height": "3.1 m", "chain[12].height": "3.1 m"}


def feet(edits: dict[str, Any]) -> tuple[Loads, list[float]]:
    """Return the long line and the heights of feet along its walk zone."""
    loads = loads_of(rig_data("long_haul", edits))
    return loads, loads.band.foot_heights_m()


def test_feet_are_lower_than_the_bare_line_by_the_sag_under_them() -> None:
    loads, heights = feet({"plan.users": [{"mass": "70 kg"}]})
    _, bare = feet({"plan.users": []})
    (middle,) = loads.band.stiff.along(WEIGHT_N, [0.5])
    span, x, pull = loads.geometry.span_m, middle.load_x_m, middle.horizontal_n
    n = len(heights) // 2
    assert bare[n] - heights[n] == pytest.approx(WEIGHT_N * x * (span - x) / (span * pull), rel=0.05)


def test_a_heavier_user_lowers_no_feet() -> None:
    """More mass on the line must never make a fall look smaller, so no user's own mass decides."""
    assert feet({"plan.users": [{"mass": "90 kg"}]})[1] == feet({"plan.users": [{"mass": "70 kg"}]})[1]


@pytest.mark.parametrize(
    "edits", [{"plan.users": [{"mass": "70 kg"}, {"level": "practised"}]}, {"plan.moves": ["walk", "jump"]}]
)
def test_the_bare_line_counts_where_people_jump_or_a_mass_is_missing(edits: dict[str, Any]) -> None:
    assert feet(edits)[1] == feet({"plan.users": []})[1]


def test_a_long_line_over_a_hollow_is_no_matter_of_life() -> None:
    """Slings 3.1 m up and a hollow below: the bare line runs above 3 m, nobody's feet do (common practice)."""
    loads, heights = feet(HIGH)
    _, bare = feet({**HIGH, "plan.users": []})
    assert max(bare) > 3.0 > max(heights)
    assert loads.consequence.word == "fall"
