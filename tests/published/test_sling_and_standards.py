"""Slings, cord and connectors against the tables of their standards and against geometry."""

import math

import pytest

from riglint.mechanics.anchors.connector_class import CONNECTOR_CLASSES, connector_class
from riglint.mechanics.anchors.sling import (
    included_angle_rad,
    leg_force_n,
    length_for_angle,
    mode_factor,
    reach_from_face_m,
)
from riglint.model.values.label_values import PER_AREA
from tests.published.sources import Case, read_source


@pytest.mark.parametrize("case", read_source("sling_geometry").cases)
def test_sling_round_a_trunk(case: Case) -> None:
    source = read_source("sling_geometry")
    angle_rad = math.radians(case["angle_deg"])
    assert source.agrees(length_for_angle(1.0, angle_rad), case["length_over_girth"])
    assert source.agrees(leg_force_n(1.0, angle_rad), case["leg_over_tension"])
    length_m = length_for_angle(1.7, angle_rad)
    assert included_angle_rad(length_m, 1.7) == pytest.approx(angle_rad, rel=1e-9)


@pytest.mark.parametrize("angle_deg", [20, 60, 100])
def test_sling_drawn_point_by_point(angle_deg: float) -> None:
    """Measured along a drawn sling: shackle, tangent point, many chords round the trunk, and back."""
    radius, half = 0.25, math.radians(angle_deg) / 2
    shackle_x = radius + reach_from_face_m(2 * math.pi * radius, 2 * half)
    touch = math.pi / 2 - half  # where the tangent meets the circle, seen from its centre
    steps = 20_000
    turn = [touch + i * (2 * math.pi - 2 * touch) / steps for i in range(steps + 1)]
    points = [
        (shackle_x, 0.0),
        *((radius * math.cos(a), radius * math.sin(a)) for a in turn),
        (shackle_x, 0.0),
    ]
    drawn_m = sum(math.dist(points[i], points[i + 1]) for i in range(len(points) - 1))
    assert length_for_angle(2 * math.pi * radius, 2 * half) == pytest.approx(drawn_m, rel=1e-6)
    (touch_x, touch_y) = points[1]
    assert math.atan2(touch_y, shackle_x - touch_x) == pytest.approx(half)


@pytest.mark.parametrize("length_m", [0.5, 1.0])
def test_a_sling_no_longer_than_the_girth_is_too_short(length_m: float) -> None:
    with pytest.raises(ValueError, match="too short"):
        included_angle_rad(length_m, 1.0)


@pytest.mark.parametrize("case", read_source("en_1492_modes").cases)
def test_mode_factor(case: Case) -> None:
    included_rad = math.radians(2 * case["from_vertical_deg"])
    factor = mode_factor(case["hitch"], included_rad)
    if case["factor"] is None:
        assert factor is None
    else:
        assert factor is not None
        assert read_source("en_1492_modes").agrees(factor, case["factor"])
    if case["hitch"] == "basket":
        # No row in the standard; treated as a basket by own choice.
        assert mode_factor("wrap", included_rad) == case["factor"]


def test_larks_foot_counts_as_a_choke() -> None:
    source = read_source("larks_foot_mode")
    (case,) = source.cases
    factor = mode_factor(case["hitch"], None)
    assert factor is not None
    assert source.agrees(factor, case["factor"])
    assert factor == mode_factor("choke", None)


@pytest.mark.parametrize("case", read_source("en_12275_classes").cases)
def test_connector_class(case: Case) -> None:
    found = connector_class(case["letter"])
    for strength_n, name in (
        (found.major_n, "major_kn"),
        (found.open_n, "open_kn"),
        (found.minor_n, "minor_kn"),
    ):
        if case[name] is None:
            assert strength_n is None
        else:
            assert strength_n is not None
            assert read_source("en_12275_classes").agrees(strength_n / 1e3, case[name])


def test_no_connector_class_beside_the_table() -> None:
    printed = {case["letter"] for case in read_source("en_12275_classes").cases}
    assert {one.letter for one in CONNECTOR_CLASSES} == printed


@pytest.mark.parametrize("case", read_source("en_564_cord").cases)
def test_cord_of_the_standard_lies_inside_the_band_of_labels(case: Case) -> None:
    band = PER_AREA["rope"]
    per_area = float(case["strength_kn"]) * 1e3 / case["diameter_mm"] ** 2
    assert float(band.least) < per_area < float(band.most)
