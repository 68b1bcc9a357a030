"""The registry of states: one entry is all that a new state takes, and one that nothing judges does not load."""

from collections.abc import Iterator
from dataclasses import replace

import pytest

from riglint.findings.judging import judge
from riglint.loads import Loads, State
from riglint.loads.states.state_kinds import STATES, ClearanceKind, RatioKind, StateKind, register
from riglint.loads.what_if.sensitivity import results
from riglint.model.values.policy import Values
from riglint.reports.drawing.drawings import drawings
from riglint.reports.layout.spans import characters
from riglint.reports.sheet.json_report import sheet_json
from riglint.reports.sheet.text import sheet_text
from riglint.rulebook import load_rulebook
from riglint.views.card.numbers import figures, line_facts
from riglint.views.sheet.build import build_sheet
from tests.rigs import ON, loads_of, rig_data

SWING_M = 4.0


def _swing(loads: Loads) -> State:
    return loads.band.landing("swing", "somebody swings on the line", SWING_M, "chosen for this test")


SWING = StateKind(
    "swing",
    "in a swing",
    "impact of a pendulum",
    "heaviest",
    _swing,
    lambda _loads: True,
    strength="peak",
    clearance="line_when_tied",
    shown="peak",
    worked="energy",
)


@pytest.fixture
def swing() -> Iterator[StateKind]:
    """A state that no module has heard of."""
    register(SWING)
    yield SWING
    del STATES["swing"]


def test_a_state_that_nothing_judges_does_not_load() -> None:
    with pytest.raises(ValueError, match="judged by nothing"):
        replace(SWING, name="idle", strength=None, clearance=None)


def test_two_states_of_one_name_do_not_load() -> None:
    with pytest.raises(ValueError, match="already"):
        register(STATES["bounce"])


@pytest.mark.usefixtures("swing")
def test_a_new_state_is_judged() -> None:
    loads = loads_of(rig_data("low", {"shelf[0].items.SE-1.mbs": "24 kN"}))
    hardest = max(loads.peaks(), key=lambda state: state.tension_n)
    assert hardest.name == "swing"
    said = judge(loads.path.rig, load_rulebook(), ON, loads=loads, with_remedies=False).findings
    assert {one.state for one in said if one.rule == "ratio/peak"} == {"swing"}
    assert results(loads).peak_state == "swing"


@pytest.mark.usefixtures("swing")
def test_a_new_state_is_drawn_and_printed() -> None:
    loads = loads_of(rig_data("highline"))
    sheet = build_sheet(loads, ON)
    assert "swing" in characters(sheet_text(sheet, 100))
    assert '"name": "swing"' in sheet_json(sheet)
    profile, tension, bars = drawings(sheet)
    assert "swing " in profile
    assert "swing: at most" in tension
    assert "swing" not in bars  # which shows parts, each in the state that governs it
    assert any("swing" in fact.text for fact in line_facts([loads], figures([loads])))


@pytest.mark.usefixtures("swing")
def test_a_new_state_must_clear_the_ground_where_people_are_tied() -> None:
    loads = loads_of(rig_data("highline"))
    assert "swing" in {state.name for state in loads.cleared("line_when_tied")}


def test_every_way_of_judging_is_asked_for_by_a_rule() -> None:
    """A state judged by a ratio or a clearance that no rule reads would pass in silence."""
    asked_ratios, asked_clearances = set[str](), set[str]()

    class Asked(Loads):
        def judged_by(self, strength: RatioKind, *, whole: bool = False) -> list[State]:
            asked_ratios.add(strength)
            return super().judged_by(strength, whole=whole)

        def cleared(self, *how: ClearanceKind) -> list[State]:
            asked_clearances.update(how)
            return super().cleared(*how)

        def falls(self):  # type: ignore[no-untyped-def]
            asked_clearances.add("body")
            return super().falls()

    book = load_rulebook()
    for baseline in ("low", "highline"):
        loads = loads_of(rig_data(baseline))
        asked = Asked(loads.path, Values(), ON)
        judge(loads.path.rig, book, ON, loads=asked, with_remedies=False)
    assert asked_ratios == {kind.strength for kind in STATES.values() if kind.strength}
    assert asked_clearances == {kind.clearance for kind in STATES.values() if kind.clearance}
