"""What is left when one part goes: the numbers of the states, and what two legs bear by hand."""

from math import cos, radians

import pytest

from riglint.loads.what_if.removal import legs_gone, removals
from riglint.rulekit import REMOVE
from tests.rigs import loads_of, rig_data


def test_the_catch_of_the_backup_is_that_of_its_state() -> None:
    loads = loads_of(rig_data("highline"))
    series = next(one for one in removals(loads) if one.what == "series")
    (backup,) = loads.backups
    caught = [load.worst(loads.caught(backup)) for load in backup.parts()]
    assert series.left is not None
    assert series.caught_by == "backups[0]"
    assert series.left.ratio == min(one.ratio for one in caught if one is not None)
    clear = [one.least_clearance_m for one in (loads.catch(backup).state, loads.catch(backup).hanging)]
    assert series.clearance_m == min(one for one in clear if one is not None)


def test_the_catch_of_the_tie_back_is_that_of_its_state() -> None:
    loads = loads_of(rig_data("long_haul"))
    haul = next(one for one in removals(loads) if one.what == "haul")
    assert haul.left is not None
    assert haul.left.force_n == loads.tie_back_catch.tension_n


def test_without_a_backup_nothing_catches_and_the_row_says_what_flies() -> None:
    series = next(one for one in removals(loads_of(rig_data("low"))) if one.what == "series")
    assert (series.caught_by, series.then_on, series.holds) == (None, "nothing", False)
    assert series.flies


def test_a_tie_back_that_is_not_there_catches_nothing() -> None:
    loads = loads_of(rig_data("long_haul", {"chain[8].tie_back": REMOVE}))
    haul = next(one for one in removals(loads) if one.what == "haul")
    assert haul.caught_by is None


@pytest.mark.parametrize("legs", [2, 3])
def test_the_legs_that_are_left_bear_what_statics_says(legs: int) -> None:
    """Of three legs two are left at 50°: T / (2·cos 25°) each; of two the other bears T."""
    edits: dict[str, object] = {} if legs == 3 else {"chain[1].legs[2]": REMOVE}
    loads = loads_of(rig_data("highline", edits))
    west = next(iter(legs_gone(loads)))
    tension = max(one.tension_a_n for one in loads.peaks())
    expected = tension / (2.0 * cos(radians(25.0))) if legs == 3 else tension
    assert west.left is not None
    assert west.left.force_n == pytest.approx(expected, rel=1e-9)


def test_a_backup_never_makes_a_row_worse() -> None:
    """A second line apart from the first lets the walker fall less far than nothing does, and leaves the other rows."""
    alone = loads_of(rig_data("highline", {"backups": [], "leash.rings_on": ["main"]}))
    backed = loads_of(rig_data("highline"))
    without, with_one = ({one.what: one for one in removals(loads)} for loads in (alone, backed))
    assert not without["series"].holds
    assert with_one["series"].holds
    assert with_one["ring"].holds
    assert without["ring"].holds
