"""Two faults in one rig: neither silences the other."""

import pytest

from tests.faults.pairs import SEED, declared, pairs, sampled, silenced
from tests.faults.seeded import Seeded, by_name

MOST = 240  # of several thousand; the others take minutes


def undeclared(pair: tuple[Seeded, Seeded]) -> list[tuple[str, str, str]]:
    """What is silenced and not declared to be."""
    one, other = (fault.name for fault in pair)
    beside = {one: other, other: one}
    return [
        (name, each.rule, each.at) for name, each in silenced(pair) if (name, beside[name]) not in declared()
    ]


@pytest.mark.parametrize("pair", sampled(MOST), ids=lambda pair: f"{pair[0].name} + {pair[1].name}")
def test_neither_of_two_faults_silences_the_other(pair: tuple[Seeded, Seeded]) -> None:
    assert undeclared(pair) == []


@pytest.mark.slow
def test_no_pair_at_all_silences_a_fault() -> None:
    assert [found for pair in pairs() if (found := undeclared(pair))] == []


def test_declared_names_are_faults() -> None:
    assert {name for each in declared() for name in each} <= set(by_name())


def test_sample_is_always_the_same() -> None:
    assert len(pairs()) > MOST
    assert sampled(MOST) == sampled(MOST)
    assert SEED
