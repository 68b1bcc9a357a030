"""What a rig leaves out and its parts tell never makes it quieter than any value that the key may have."""

from random import Random

import pytest

from riglint.testing import edit_value
from tests.faults.matrix import sound_rigs
from tests.faults.seeded import data_of
from tests.silence.assumed import LeftOut, allowed, judged, left_out, quieter, with_value, without

SAMPLED = ("low", "long_haul", "highline", "rigs/low-line", "ordinary/rigs/01-beginner-set")
SEED = 20260502


def every(rigs: tuple[str, ...] | list[str]) -> list[LeftOut]:
    return [one for rig in rigs for one in left_out(rig)]


def faults(one: LeftOut, most: int | None = None) -> list[str]:
    """Return where a rig without a key is quieter than with one of the values that it may have."""
    found, assumed = judged(without(one))
    if one.keys[0] not in {value.at.key for value in assumed}:  # then it is asked for, or nothing rests on it
        return quieter(judged(data_of(one.rig))[0], found)
    values = allowed(one, assumed)
    assert values
    if most is not None:
        values = Random(SEED).sample(values, min(most, len(values)))  # noqa: S311 - no secret
    return [
        f"{one.rig} {one.keys[0]} {value}: {lost}"
        for value in values
        for lost in quieter(judged(with_value(one, value))[0], found)
    ]


@pytest.mark.parametrize("one", every(SAMPLED), ids=lambda one: f"{one.rig} {one.keys[0]}")
def test_a_key_left_out_is_never_quieter_than_a_value_that_it_may_have(one: LeftOut) -> None:
    assert faults(one, most=4) == []


@pytest.mark.slow
@pytest.mark.parametrize("rig", sound_rigs())
def test_no_key_of_any_sound_rig_is_quieter_left_out(rig: str) -> None:
    assert [lost for one in left_out(rig) for lost in faults(one)] == []


# A value that decides: the rig, what is left out, what else is changed, and which rule then asks.
DECIDES = (
    ("low", "shelf[0].items.W-1.stretch", {"plan.standing_tension": "1.2 kN"}, "ground/clearance"),
    ("low", "chain[2].hitch", {"shelf[0].items.RS-1.wll": "0.37 t"}, "ratio/peak"),
    ("long_haul", "chain[8].closed", {"chain[8].open": "2.9 m"}, "haul/travel"),
)


@pytest.mark.parametrize(("rig", "key", "changed", "rule"), DECIDES, ids=str)
def test_an_assumed_value_that_decides_leaves_the_question_open_and_names_the_key(
    rig: str, key: str, changed: dict[str, object], rule: str
) -> None:
    data = without(LeftOut(rig, (key,), ""))
    for where, value in changed.items():
        edit_value(data, where, value)
    found, assumed = judged(data)
    (one,) = (one for one in found if one.rule == rule)
    assert one.kind == "open"
    assert key in one.do
    assert "assumed" in one.message
    assert [value.at.key for value in assumed if rule in value.decides] == [key]
