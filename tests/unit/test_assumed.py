"""What is assumed of a rig that leaves a key out: the value, its ends, and what stays open."""

from datetime import date
from typing import Any

import pytest

from riglint.loads.assumed import loads_of, other_ends
from riglint.loads.strength.label_bands import mass_band, stretch_band
from riglint.model.compact.assumption import Assumption
from riglint.model.documents.gear import Gear
from riglint.model.values.policy import Values
from riglint.policy import DEFAULT
from riglint.rulebook import load_rulebook
from riglint.rulekit import REMOVE, sound
from riglint.testing import edited, rig_of

ON = date(2026, 5, 2)
HAUL = "chain[8]"
W = "shelf[0].items.W-1"


def assumed(baseline: str, edits: dict[str, Any], values: Values = DEFAULT.values) -> dict[str, Assumption]:
    loads = loads_of(rig_of(edited(sound(baseline, edits))), values, ON)
    return {one.name: one for one in loads.path.rig.assumed}


@pytest.mark.parametrize("baseline", ["low", "long_haul", "highline"])
def test_nothing_is_assumed_of_a_rig_that_says_all(baseline: str) -> None:
    assert assumed(baseline, {}) == {}


def test_a_rope_is_as_long_as_its_gear_list_says() -> None:
    found = assumed("long_haul", {f"{HAUL}.rope.length": REMOVE, "shelf[0].items.RP-1.length": "45 m"})
    (one,) = found.values()
    assert (one.value, len(one.ends), one.ends[0].value.si) == ("45 m", 1, 45.0)


def test_a_rope_without_any_length_stays_open() -> None:
    without = {f"{HAUL}.rope.length": REMOVE, "shelf[0].items.RP-1.length": REMOVE}
    assert assumed("long_haul", without) == {}


# With an odd number of strands the rope ends on the moving block: count them on any tackle. Statics, no source.
@pytest.mark.parametrize(("strands", "block"), [(3, "moving_block"), (4, "fixed_block"), (5, "moving_block")])
def test_the_strands_tell_the_block_that_the_rope_ends_on(strands: int, block: str) -> None:
    found = assumed("long_haul", {f"{HAUL}.rope.dead_end.on": REMOVE, f"{HAUL}.strands": strands})
    assert [one.ends[0].value for one in found.values()] == [block]


def test_without_strands_nobody_knows_the_block() -> None:
    assert assumed("long_haul", {f"{HAUL}.rope.dead_end.on": REMOVE, f"{HAUL}.strands": REMOVE}) == {}


def test_blocks_come_as_close_as_they_are_long() -> None:
    lengths = {f"shelf[0].items.{name}.reach": "0.25 m" for name in ("DB-1", "DB-2")}
    (one,) = assumed("long_haul", {f"{HAUL}.closed": REMOVE} | lengths).values()
    values = DEFAULT.values
    longest = 0.5 + values["reach.connector"] + values["dead_end_knot"]
    assert one.ends[0].value.si == pytest.approx(longest)
    assert one.ends[1].value.si < one.ends[0].value.si


@pytest.mark.parametrize("key", ["material", "mbs"])
def test_webbing_of_an_unknown_fibre_or_strength_stays_open(key: str) -> None:
    assert assumed("low", {f"{W}.stretch": REMOVE, f"{W}.{key}": REMOVE}) == {}


def test_a_policy_widens_what_is_assumed() -> None:
    wider = Values({"label.stiffness.polyester.least": 1.0})
    soft = [
        assumed("low", {f"{W}.stretch": REMOVE}, values)["stretch of W-1"].ends[1]
        for values in (Values(), wider)
    ]
    assert soft[1].value[0][1] > soft[0].value[0][1]


def test_mass_and_stretch_are_judged_in_every_combination_and_hitches_one_at_a_time() -> None:
    without = {f"{W}.stretch": REMOVE, f"{W}.mass_per_metre": REMOVE, "chain[2].hitch": REMOVE}
    loads = loads_of(rig_of(edited(sound("low", without))), DEFAULT.values, ON)
    chosen = [one.chosen for one in other_ends(loads)]
    assert len(chosen) == 2 * 2 * 3 - 1
    assert len(set(chosen)) == len(chosen)
    assert (0, 0, 0) not in chosen


def test_the_bands_are_those_by_which_labels_are_checked() -> None:
    gear = Gear.model_validate({"kind": "webbing", "material": "polyester", "mbs": "40 kN", "width": "50 mm"})
    # gear/stretch: (T ÷ MBS) ÷ ε of polyester between 1.6 and 14; gear/rating: 120 to 870 N for each g/m;
    # gear/size: 0.8 to 6 g/m for each mm of width.
    stretch = stretch_band(gear, Values())
    assert (stretch.least, stretch.most) == (1.6, 14.0)
    mass = mass_band(gear, Values())
    assert mass is not None
    assert mass.least == pytest.approx(max(40_000 / 870, 0.8 * 50) / 1000)
    assert mass.most == pytest.approx(min(40_000 / 120, 6 * 50) / 1000)
    limits = {one.name: one.si for one in load_rulebook().rules["gear/size"].limits}
    by_width = {end: Values()[f"webbing_weighs.{end}"] for end in ("least", "most")}
    assert by_width["least"] in limits.values()
    assert by_width["most"] in limits.values()


def test_strength_and_width_that_cannot_both_be_leave_the_mass_open() -> None:
    gear = Gear.model_validate(
        {"kind": "webbing", "material": "polyester", "mbs": "140 kN", "width": "15 mm"}
    )
    assert mass_band(gear, Values()) is None
