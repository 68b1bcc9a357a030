"""Which parts carry the line, in which place: legs of rope, two legs on one bolt, a haul that comes off, soft links."""

from datetime import date
from typing import Any

import pytest

from riglint.loads import Loads
from riglint.loads.inputs import NotComputable
from riglint.rulebook import load_rulebook
from riglint.rulekit import PartLoad, insert_before, sound
from riglint.testing import edited, findings_of, loads_of

ON = date(2026, 5, 2)
ROPE = {"kind": "rope", "type": "low_stretch", "material": "polyamide", "mbs": "30 kN", "diameter": "11 mm"}
CHECKED = {"inspected": "2026-04-02", "made": "2024-03"}


def rig(baseline: str, edits: dict[str, Any]) -> Loads:
    return loads_of(edited(sound(baseline, edits)), ON)


def named(loads: Loads, words: str) -> PartLoad:
    return next(one for one in loads.parts if one.words == words)


def leg_of_rope(*parts: dict[str, Any]) -> dict[str, Any]:
    legs = [{"to": "w1", "chain": list(parts)}]
    return {
        "shelf[0].items.RO-1": {**ROPE, **CHECKED},
        "chain[1].legs": [
            *legs,
            {"to": "w2", "chain": [{"part": "quick_link", "gear": "QL-2"}]},
            {"to": "w3", "chain": [{"part": "quick_link", "gear": "QL-3"}]},
        ],
    }


def test_knot_in_a_leg_is_tied_in_the_rope_of_that_leg() -> None:
    knot = {"part": "rope_knot", "knot": "figure_nine", "tail": "0.3 m"}
    loads = rig(
        "highline",
        leg_of_rope({"part": "quick_link", "gear": "QL-1"}, knot, {"part": "rope", "gear": "RO-1"}),
    )
    strength = named(loads, "rope knot").strength
    assert strength.breaking_n == 30e3  # the rope's, not that of the line's webbing
    assert strength.strength_n < 30e3


def test_knot_without_a_rope_beside_it_is_told_and_crashes_nothing() -> None:
    knot = {"part": "rope_knot", "knot": "figure_nine", "tail": "0.3 m"}
    edits = leg_of_rope({"part": "quick_link", "gear": "QL-1"}, knot)
    with pytest.raises(NotComputable, match="has no webbing or rope beside it"):
        named(rig("highline", edits), "rope knot").strength  # noqa: B018 - found when asked for
    found = findings_of(edited(sound("highline", edits)), load_rulebook().rules, ON.isoformat())
    assert not [one for one in found if one.crashed]


def test_join_by_a_knot_is_as_strong_as_a_knot() -> None:
    joined = rig(
        "low",
        {
            "chain[6]": insert_before(
                {"part": "webbing_join", "knot": "water_knot", "tail": "0.2 m"},
                {"part": "webbing", "gear": "W-1", "cut": "3 m"},
            )
        },
    )
    strength = named(joined, "webbing join").strength
    (knot,) = strength.reductions
    assert (knot.why, knot.factor) == ("knot: water_knot", joined.values["webbing_knot"])
    assert strength.strength_n == pytest.approx(
        knot.factor * named(joined, "webbing W-1").strength.strength_n
    )


def test_two_legs_on_one_bolt_pull_at_it_with_the_whole_line() -> None:
    loads = rig("highline", {"chain[1].legs[1].to": "w1", "chain[1].legs[2].to": "w1"})
    end = next(iter(loads.ends()))
    (point,) = end.points(5e3)
    assert (point.name, point.force_n, point.force_one_lost_n) == ("w1", 5e3, None)
    apart = next(iter(rig("highline", {"chain[1].legs[1].to": "w1"}).ends())).points(5e3)
    assert [one.name for one in apart] == ["w1", "w3"]
    assert apart[0].force_n > apart[1].force_n
    assert apart[1].force_one_lost_n == 5e3


@pytest.mark.parametrize(
    ("gear", "row"),
    [
        ({"kind": "shackle", "material": "uhmwpe", "mbs": "60 kN"}, "textile"),
        ({"kind": "shackle", "material": "aluminium", "mbs": "60 kN"}, "aluminium"),
        ({"kind": "shackle", "material": "steel", "mbs": "60 kN"}, "metal"),
    ],
)
def test_a_link_asks_for_the_ratio_of_what_it_is_made_of(gear: dict[str, Any], row: str) -> None:
    loads = rig("low", {"shelf[0].items.SH-1": {**gear, **CHECKED}})
    assert named(loads, "shackle SH-1").strength_class == row


def test_haul_that_comes_off_sees_the_heave_and_nothing_else() -> None:
    loads = rig(
        "long_haul", {"chain[8].stays": False, "chain[8].made_fast": [{"part": "quick_link", "gear": "QL-1"}]}
    )
    block = next(one for one in loads.parts if one.part == "moving_block")
    assert block.only_in == ("overshoot",)
    assert block.worst(loads.peaks()) is None
    overshot = findings_of(
        edited(
            sound(
                "long_haul",
                {
                    "chain[8].stays": False,
                    "chain[8].made_fast": [{"part": "quick_link", "gear": "QL-1"}],
                    "shelf[0].items.DB-1.mbs": "8 kN",
                },
            )
        ),
        load_rulebook().rules,
        ON.isoformat(),
    )
    assert [one.at.key for one in overshot if one.rule == "ratio/haul_overshoot"] == [
        "shelf[0].items.DB-1.mbs"
    ]
