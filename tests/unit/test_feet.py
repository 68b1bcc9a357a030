"""How high feet are: on the line as it hangs under the lightest user; on the bare line where that is not known.

The sag is checked with moments about the loaded point, W·x·(D - x)/(D·H), the weight of the webbing left out
(statics, worked out here).
"""

from typing import Any

import pytest

from riglint.loads import Loads
from riglint.mechanics.valid_range import STANDARD_GRAVITY_M_S2
from tests.rigs import loads_of, rig_data

WEIGHT_N = 70 * STANDARD_GRAVITY_M_S2
HIGH = {"chain[0].height": "3.2 m", "chain[12].height": "3.2 m"}


def feet(edits: dict[str, Any]) -> tuple[Loads, list[float]]:
    """Return the long line and the heights of feet along its walk zone."""
    loads = loads_of(rig_data("long_haul", edits))
    return loads, loads.sweep.foot_heights_m()


def test_feet_are_lower_than_the_bare_line_by_the_sag_under_them() -> None:
    loads, heights = feet({"plan.users": [{"mass": "70 kg"}]})
    _, bare = feet({"plan.users": []})
    middle = next(rest for rest in loads.sweep.at_rest("", "", WEIGHT_N).positions if rest.fraction == 0.5)
    span, x, pull = loads.geometry.span_m, middle.load_x_m, middle.horizontal_n
    n = len(heights) // 2
    assert bare[n] - heights[n] == pytest.approx(WEIGHT_N * x * (span - x) / (span * pull), rel=0.05)


def test_the_lightest_user_stands_highest() -> None:
    _, both = feet({"plan.users": [{"mass": "90 kg"}, {"mass": "45 kg"}]})
    _, light = feet({"plan.users": [{"mass": "45 kg"}]})
    _, heavy = feet({"plan.users": [{"mass": "90 kg"}]})
    assert both == light
    assert max(light) > max(heavy)


@pytest.mark.parametrize(
    "edits", [{"plan.users": [{"mass": "70 kg"}, {"level": "practised"}]}, {"plan.moves": ["walk", "jump"]}]
)
def test_the_bare_line_counts_where_people_jump_or_a_mass_is_missing(edits: dict[str, Any]) -> None:
    assert feet(edits)[1] == feet({"plan.users": []})[1]


def test_a_long_line_over_a_hollow_is_no_matter_of_life() -> None:
    """Slings 3.2 m up and a hollow below: the bare line runs above 3 m, nobody's feet do (common practice)."""
    loads, heights = feet(HIGH)
    _, bare = feet({**HIGH, "plan.users": []})
    assert max(bare) > 3.0 > max(heights)
    assert loads.consequence.word == "fall"
