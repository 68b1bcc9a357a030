"""What a rig leaves out and its parts tell never makes it quieter than any value that the key may have."""

from random import Random
from typing import Any

import pytest

from riglint.testing import edit_value
from tests.faults.matrix import sound_rigs
from tests.faults.seeded import data_of
from tests.silence.assumed import LeftOut, allowed, judged, left_out, quieter, with_value, without

SAMPLED = ("low", "long_haul", "highline", "rigs/low-line", "ordinary/rigs/01-beginner-set")
SEED = 20260502


def every(rigs: tuple[str, ...] | list[str]) -> list[LeftOut]:
    return [one for rig in rigs for one in left_out(rig)]


def faults(one: LeftOut, most: int | None = None, tension: str | None = None) -> list[str]:
    """Return where a rig without a key is quieter than with one of the values that it may have.

    With another tension than its own most rigs have faults, and much is near a limit.
    """

    def at_tension(data: dict[str, Any]) -> dict[str, Any]:
        if tension is not None:
            edit_value(data, "plan.standing_tension", tension)
        return data

    found, assumed = judged(at_tension(without(one)))
    if one.keys[0] not in {value.at.key for value in assumed}:  # then it is asked for, or nothing rests on it
        return quieter(judged(at_tension(data_of(one.rig)))[0], found)
    values = allowed(one, assumed)
    assert values
    if most is not None:
        values = Random(SEED).sample(values, min(most, len(values)))  # noqa: S311 - no secret
    return [
        f"{one.rig} {one.keys[0]} {value}: {lost}"
        for value in values
        for lost in quieter(judged(at_tension(with_value(one, value)))[0], found)
    ]


@pytest.mark.parametrize("one", every(SAMPLED), ids=lambda one: f"{one.rig} {one.keys[0]}")
def test_a_key_left_out_is_never_quieter_than_a_value_that_it_may_have(one: LeftOut) -> None:
    assert faults(one, most=4) == []


STRESSED = {"low": ("1.3 kN", "9 kN"), "long_haul": ("4 kN", "13 kN"), "highline": ("1.5 kN", "9 kN")}


@pytest.mark.parametrize(
    ("one", "tension"),
    [(one, tension) for rig, tensions in STRESSED.items() for tension in tensions for one in left_out(rig)],
    ids=lambda one: one if isinstance(one, str) else f"{one.rig} {one.keys[0]}",
)
def test_nor_in_a_rig_that_is_far_too_slack_or_too_tight(one: LeftOut, tension: str) -> None:
    assert faults(one, most=3, tension=tension) == []


@pytest.mark.slow
@pytest.mark.parametrize("rig", sound_rigs())
def test_no_key_of_any_sound_rig_is_quieter_left_out(rig: str) -> None:
    assert [lost for one in left_out(rig) for lost in faults(one)] == []


def pairs(rigs: tuple[str, ...]) -> list[tuple[LeftOut, LeftOut]]:
    """Return two keys of one rig; of keys of a kind only neighbours."""
    each = [(rig, list(left_out(rig))) for rig in rigs]
    return [(one, other) for _, keys in each for n, one in enumerate(keys) for other in keys[n + 1 : n + 3]]


@pytest.mark.parametrize(
    ("one", "other"), pairs(("low", "long_haul")), ids=lambda one: f"{one.rig} {one.keys[0]}"
)
def test_two_keys_left_out_are_never_quieter_than_one(one: LeftOut, other: LeftOut) -> None:
    both, assumed = judged(without(LeftOut(one.rig, (*one.keys, *other.keys), "")))
    assert {value.at.key for value in assumed} <= {*one.keys, *other.keys}
    for key, stated in ((one, other), (other, one)):
        _, told = judged(without(stated))
        values = allowed(stated, told) if told else []
        for value in Random(SEED).sample(values, min(2, len(values))):  # noqa: S311 - no secret
            data = without(key)
            edit_value(data, stated.keys[0], value)
            assert quieter(judged(data)[0], both) == [], f"{stated.keys[0]}: {value}"


# A value that decides: the rig, what is left out, what else is changed, and which rule then asks.
DECIDES = (
    ("low", "shelf[0].items.W-1.stretch", {"plan.standing_tension": "1.2 kN"}, "ground/clearance"),
    ("low", "chain[2].hitch", {"shelf[0].items.RS-1.wll": "0.37 t"}, "ratio/peak"),
    ("long_haul", "chain[8].closed", {"chain[8].open": "2.9 m"}, "haul/travel"),
    (
        "long_haul",
        "shelf[0].items.W-1.mass_per_metre",
        {"plan.standing_tension": "5.2 kN"},
        "ground/clearance",
    ),
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


# A fault whatever the value: what is left out, what is wrong, the rule that says so, and its word.
FAULTS = (
    ("low", "shelf[0].items.W-1.stretch", {"plan.standing_tension": "15 kN"}, "ratio/standing", "WARNING"),
    ("low", "shelf[0].items.W-1.mass_per_metre", {"chain[4].tail": "0.3 m"}, "tail/webbing", "CAUTION"),
    ("low", "chain[2].hitch", {"shelf[0].items.RS-1.length": "1.4 m"}, "anchor/sling_angle", "DANGER"),
    ("long_haul", "chain[8].rope.length", {"shelf[0].items.RP-1.length": "20 m"}, "haul/rope", "WARNING"),
    ("long_haul", "chain[8].rope.dead_end.on", {"chain[8].strands": 7}, "haul/blocks", "WARNING"),
    ("long_haul", "chain[8].closed", {"chain[8].open": "1 m"}, "chain/computed", "DANGER"),
)


@pytest.mark.parametrize(("rig", "key", "changed", "rule", "word"), FAULTS, ids=str)
def test_what_is_wrong_at_each_end_stays_a_fault(
    rig: str, key: str, changed: dict[str, object], rule: str, word: str
) -> None:
    data = without(LeftOut(rig, (key,), ""))
    for where, value in changed.items():
        edit_value(data, where, value)
    found, assumed = judged(data)
    assert key in {value.at.key for value in assumed}
    assert ("fail", word) in {(one.kind, one.signal.name) for one in found if one.rule == rule}
