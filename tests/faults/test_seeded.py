"""Each seeded fault is found by the whole rulebook, at its place, with its word, and nothing else is said."""

import gc
from collections.abc import Iterator

import pytest

from riglint.hazards import HAZARDS
from riglint.rulekit import Signal
from tests.faults.seeded import ABSENT, BOOK, Seeded, missed, of_fault, of_twin, seeded, unrelated, usual

FAULTS = [pytest.param(one, id=one.name) for one in seeded()]
PREVENTED = {hazard for rule in BOOK.rules.values() for hazard in rule.prevents}


@pytest.fixture(scope="module", autouse=True)
def few_collections() -> Iterator[None]:
    """Let the garbage collector run seldom: hundreds of rigs are kept, and it would walk all of them each time."""
    before = gc.get_threshold()
    gc.set_threshold(100_000, 50, 100)
    yield
    gc.set_threshold(*before)


@pytest.mark.parametrize("fault", FAULTS)
def test_fault_is_found(fault: Seeded) -> None:
    assert missed(fault) == []


@pytest.mark.parametrize("fault", FAULTS)
def test_nothing_unrelated_is_said(fault: Seeded) -> None:
    said = [(one.rule, one.signal.name, one.kind, one.at.key, one.message) for one in unrelated(fault)]
    assert said == []


@pytest.mark.parametrize("fault", FAULTS)
def test_rules_that_cannot_judge_say_so_only_where_declared(fault: Seeded) -> None:
    assert (of_fault(fault).not_judged > 0) == fault.not_judged


@pytest.mark.parametrize("fault", {one.rig: one for one in seeded()}.values(), ids=lambda one: one.rig)
def test_sound_twin_is_silent(fault: Seeded) -> None:
    """Of a rig without its fault only what every rig hears is said: a person must look, and no more."""
    loud = [
        (one.rule, one.signal.name, one.kind, one.at.key) for one in of_twin(fault).findings if not usual(one)
    ]
    assert [one for one in loud if one[1] != Signal.NOTICE.name] == []
    assert of_twin(fault).not_judged == 0


@pytest.mark.parametrize("rule_id", BOOK.rules)
def test_every_rule_finds_a_seeded_fault(rule_id: str) -> None:
    assert [one.name for one in seeded() if one.phase != ABSENT and rule_id in _rules(one)]


@pytest.mark.parametrize(
    ("rule_id", "hazard"),
    [(rule_id, hazard) for rule_id, rule in BOOK.rules.items() for hazard in rule.prevents],
)
def test_every_hazard_of_a_rule_is_seeded(rule_id: str, hazard: str) -> None:
    assert [one.name for one in seeded() if hazard in one.hazards and rule_id in _rules(one)]


def _rules(fault: Seeded) -> set[str]:
    return {one.rule for one in fault.expect}


def test_seeded_hazards_exist_and_stand_in_the_file_of_their_phase() -> None:
    for one in seeded():
        assert one.hazards
        assert set(one.hazards) <= PREVENTED, one.name
        assert one.phase in {ABSENT, *(HAZARDS[hazard].phase for hazard in one.hazards)}, one.name


def test_names_are_unlike() -> None:
    names = [one.name for one in seeded()]
    assert sorted(set(names)) == sorted(names)


def test_what_comes_with_a_fault_has_its_reason() -> None:
    for fault in seeded():
        assert fault.expect
        assert all(one.because for one in fault.also), fault.name
