"""A spot with several lines: the span that each takes, and the places of keys that a line has for itself."""

from math import pi
from typing import Any

import pytest
import yaml

from riglint.loads.day.between_lines import crossing, distance_m
from riglint.loads.inputs import MissingInput
from tests.rigs import loads_of, rig_data

TREE: dict[str, Any] = {"kind": "tree", "girth": "1.2 m", "bark": "rough", "health": "sound", "fork": "none"}


def with_spot(**spot: Any) -> dict[str, Any]:
    """The low line with other keys of its spot; None takes one away."""
    data = rig_data("low")
    for key, value in spot.items():
        if value is None:
            data["spot"].pop(key)
        else:
            data["spot"][key] = value
    return data


def planned(x: str, y: str, **spot: Any) -> dict[str, Any]:
    data = with_spot(**spot)
    data["spot"]["anchors"]["gate"]["plan"] = ["0 m", "0 m"]
    data["spot"]["anchors"]["barn"]["plan"] = [x, y]
    return data


def test_the_span_follows_from_the_plan_between_the_faces_of_the_trunks() -> None:
    """3-4-5 triangle of 20 m, less the radii of 1.40 m and 1.30 m of girth, by hand."""
    geometry = loads_of(planned("12 m", "16 m", span=None)).geometry
    assert geometry.span_m == pytest.approx(20.0 - (1.4 + 1.3) / (2 * pi))
    assert geometry.on_spot("span").key_text == "spot.anchors.barn.plan"


def test_a_plan_between_points_is_taken_as_it_stands() -> None:
    assert loads_of(planned("12 m", "16 m", span=None, span_between="points")).geometry.span_m == 20.0


def test_without_a_girth_the_plan_tells_no_span() -> None:
    data = planned("12 m", "16 m", span=None)
    del data["spot"]["anchors"]["gate"]["girth"]
    with pytest.raises(MissingInput, match="span"):
        _ = loads_of(data).geometry.span_m


def test_a_span_of_its_own_comes_before_the_one_of_the_spot() -> None:
    data = with_spot(
        spans=[{"between": ["barn", "gate"], "span": "15 m", "surroundings": {"path_crosses": True}}]
    )
    loads = loads_of(data)
    assert loads.geometry.span_m == 15.0
    assert loads.geometry.on_spot("span").key_text == "spot.spans[0].span"
    assert (
        loads.geometry.on_spot("surroundings", "path_crosses").key_text
        == "spot.spans[0].surroundings.path_crosses"
    )
    assert loads.geometry.on_spot("surroundings", "wires").key_text == "spot.surroundings.wires"
    around = loads.geometry.spot.surroundings
    assert around is not None
    assert (around.path_crosses, around.wires) == (True, [])


@pytest.mark.parametrize("group", ["spans", "guys"])
def test_a_pair_names_anchors_of_the_spot(group: str) -> None:
    data = with_spot(**{group: [{"between": ["gate", "ban"]}]})
    with pytest.raises(ValueError, match="'ban' is no anchor of this spot"):
        loads_of(yaml.safe_load(yaml.safe_dump(data, sort_keys=False)))


def test_lines_cross_where_plane_geometry_says() -> None:
    """Y = x/2 and y = 6 - x meet at (4, 2), by hand."""
    found = crossing(((0.0, 0.0), (8.0, 4.0)), ((0.0, 6.0), (6.0, 0.0)))
    assert found == pytest.approx((0.5, 4.0 / 6.0))
    assert crossing(((0.0, 0.0), (1.0, 0.5)), ((0.0, 6.0), (6.0, 0.0))) is None


def test_two_stretches_lie_as_far_apart_as_their_nearest_points() -> None:
    assert distance_m(((0.0, 0.0), (10.0, 0.0)), ((12.0, 1.0), (20.0, 9.0))) == pytest.approx(5.0**0.5)
    assert distance_m(((0.0, 0.0), (10.0, 0.0)), ((3.0, 2.0), (7.0, 2.0))) == 2.0
    assert distance_m(((0.0, 0.0), (10.0, 0.0)), ((5.0, -1.0), (5.0, 1.0))) == 0.0
