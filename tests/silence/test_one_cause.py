"""Two rules that can speak of one cause speak once, or it stands here why both are heard.

A cause is one seeded fault; two rules speak of it twice where both say something at the same key of the same file.
"""

from itertools import combinations

import pytest

from riglint.rulekit import Signal
from tests.faults.seeded import Seeded, said_of, seeded

STATES = "each state, such as hauling, standing or a fall, has a ratio of its own, and another way to mend it"
# Two rules and why one finding would not do.
BOTH = {
    ("chain/weakest_link", "ratio/haul_overshoot"): STATES,
    ("chain/weakest_link", "ratio/peak"): STATES,
    ("chain/weakest_link", "ratio/standing"): STATES,
    ("ratio/haul_overshoot", "ratio/peak"): STATES,
    ("ratio/haul_overshoot", "ratio/standing"): STATES,
    ("ratio/peak", "ratio/standing"): STATES,
    (
        "backup/strength",
        "gear/rating",
    ): "the label is doubted; read as it stands, the part is too weak all the same",
    (
        "chain/weakest_link",
        "gear/rating",
    ): "the label is doubted; read as it stands, metal is the weakest part",
    ("backup/strength", "gear/exposure"): "age asks to retire the piece, the ratio to rig another",
    ("gear/exposure", "ratio/peak"): "age asks to retire the piece, the ratio to rig another",
    ("gear/left_up", "placement/pins"): "the webbing wears out and the pins turn: two things to do",
    ("gear/stretch", "peak/past_curve"): "the curve is doubted; read as it stands, it ends below the peak",
    ("haul/brake_threading", "site/recheck"): "two looks are entered by one check",
    (
        "haul/tie_back_catch",
        "placement/puller_tie_back",
    ): "the slack itself, and the force that its catch makes",
}


def twice(fault: Seeded) -> set[tuple[str, str]]:
    """Return the pairs of rules that speak of a fault at the same key."""
    loud = [one for one in said_of(fault.name) if one.kind != "review" or one.signal > Signal.NOTICE]
    return {
        (min(one.rule, other.rule), max(one.rule, other.rule))
        for one, other in combinations(loud, 2)
        if one.rule != other.rule and (one.at.path, one.at.key) == (other.at.path, other.at.key)
    }


@pytest.mark.parametrize("fault", seeded(), ids=lambda one: one.name)
def test_one_cause_is_said_once(fault: Seeded) -> None:
    assert twice(fault) - set(BOTH) == set()


def test_each_pair_that_speaks_twice_still_does() -> None:
    assert {pair for fault in seeded() for pair in twice(fault)} == set(BOTH)
