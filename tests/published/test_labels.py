"""Bands of what a label can say, against fibres, standards and catalogues."""

import pytest

from riglint.loads.strength.label_bands import plausible
from riglint.model.documents.gear import Gear
from riglint.model.values.policy import Values
from tests.published.sources import Case, read_source

LABELS = read_source("labels_of_gear")


@pytest.mark.parametrize("case", read_source("fibre_strength").cases)
def test_no_label_passes_the_yarn(case: Case) -> None:
    most = Values()[f"label.mass.{case['fibre']}.most"]
    assert read_source("fibre_strength").agrees(most / 1e3, case["newton_per_tex"])


def passes(case: Case, times: float) -> bool:
    gear = Gear.model_validate({"kind": case["kind"], **case["keys"]})
    return all(band.allows(case["kn"] * 1e3 * times) for band in plausible(gear, Values()))


@pytest.mark.parametrize("case", LABELS.cases, ids=lambda case: f"{case['kind']} {case['kn']} kN")
def test_a_real_label_passes_and_a_lost_decimal_does_not(case: Case) -> None:
    assert passes(case, 1.0)
    assert not passes(case, 10.0)
    assert not passes(case, 0.1)


@pytest.mark.parametrize("case", [one for one in LABELS.cases if one["kind"] in {"round_sling", "shackle"}])
def test_a_breaking_strength_taken_for_a_rated_load_does_not_pass(case: Case) -> None:
    assert not passes(case, 5.0)
