"""Readings at places and over lengths that the line does not have are refused, in a sentence."""

from typing import Any

import pytest

from riglint.loads import Loads
from riglint.loads.inputs import NotComputable
from tests.rigs import loads_of, rig_data

PULSE = {"what": "pulse", "returns": 10, "time": "5.57 s", "date": "2026-05-01"}
SAG = {"what": "sag", "under": "78 kg", "depth": "2 m", "from": "still_line", "date": "2026-05-01"}


def rig(reading: dict[str, Any], **edits: Any) -> Loads:
    return loads_of(rig_data("long_haul", {"measured": [reading], **edits}))


def long_m() -> float:
    return loads_of(rig_data("long_haul")).standing.equilibrium.stretched_m


@pytest.mark.parametrize("at", ["82.2 m", "120 m", "84 m ± 1 m"])
def test_a_sag_beyond_the_far_anchor_is_refused(at: str) -> None:
    with pytest.raises(NotComputable, match=f"a sag was read at {at}, but the anchors are 82 m apart"):
        rig({**SAG, "at": at}).reading(0)


@pytest.mark.parametrize("at", ["30 m", "60 m", "78 m"])
def test_a_sag_between_the_anchors_is_read(at: str) -> None:
    assert rig({**SAG, "at": at}).reading(0).tension_n > 0.0


@pytest.mark.parametrize("share", [0.86, 1.0, 1.14])
def test_a_pulse_runs_over_about_the_webbing_of_the_line(share: float) -> None:
    assert rig({**PULSE, "over": f"{share * long_m():.3f} m"}).reading(0).tension_n > 0.0


@pytest.mark.parametrize("share", [0.4, 0.84, 1.16])
def test_a_pulse_over_another_length_is_refused(share: float) -> None:
    with pytest.raises(NotComputable, match=r"about 75\.\d m of webbing between the fittings"):
        rig({**PULSE, "over": f"{share * long_m():.3f} m"}).reading(0)


def test_a_length_that_is_little_known_is_given_its_range() -> None:
    assert rig({**PULSE, "over": f"{1.2 * long_m():.3f} m ± 5 m"}).reading(0).tension_n > 0.0


def test_a_line_that_stands_as_read_refuses_it_too() -> None:
    told = {"stage": "built", "plan.standing_from": "measured"}
    with pytest.raises(NotComputable, match="of webbing between the fittings"):
        _ = rig({**PULSE, "over": "40 m"}, **told).standing_tension_n
