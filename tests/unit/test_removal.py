"""What is left when one part goes: the numbers of the states, and what two legs bear by hand."""

from collections.abc import Iterator
from math import cos, radians, sin

import pytest

from riglint.loads import Loads
from riglint.loads.inputs import known
from riglint.loads.what_if.left import Removal
from riglint.loads.what_if.removal import all_that_may_go
from riglint.rulekit import REMOVE
from riglint.views.drawing.chain import chains_of
from tests.rigs import loads_of, rig_data


def removals(loads: Loads) -> Iterator[Removal]:
    """Yield what is left for each part that may go."""
    for one in all_that_may_go(loads):
        yield from one.rows()


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
    west = next(one for one in removals(loads) if one.what == "leg")
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


def test_two_rows_by_hand() -> None:
    """The highline's leg and ring rows, worked with a pocket calculator from its sheet."""
    loads = loads_of(rig_data("highline"))
    rows = {one.gone: one for one in removals(loads)}
    leg, ring = rows["one leg at 'west'"].left, rows["one leash ring"].left
    # The leash fall pulls 10.13 kN on the west end. Of three legs two are left, 50° between them, each at 25° from the
    # line: 10.13 / (2 · cos 25°) = 10.13 / 1.8126 = 5.59 kN. A quick link holds 45 kN: 45 / 5.59 = 8.05.
    assert leg is not None
    assert (round(leg.force_n / 1e3, 2), round(leg.ratio, 2)) == (5.59, 8.05)
    # A fall on the leash near an end brings at most 8.51 kN on the rings. One ring holds 30 kN: 30 / 8.51 = 3.53.
    assert ring is not None
    assert (round(ring.force_n / 1e3, 2), round(ring.ratio, 2)) == (8.51, 3.53)


def test_one_bolt_gone_is_what_the_rule_for_bolts_computes() -> None:
    """By hand: w1 of 25 kN across, 15 kN along its axis, pulled 10° off: 5.59·(sin 10°/15 + cos 10°/25) = 0.285."""
    loads = loads_of(rig_data("highline"))
    bolt = next(one.left for one in removals(loads) if one.what == "bolt")
    assert bolt is not None
    assert 1.0 / bolt.ratio == pytest.approx(
        5.591 * (sin(radians(10.0)) / 15.0 + cos(radians(10.0)) / 25.0), rel=1e-3
    )
    end = next(iter(loads.ends()))
    assert bolt.ratio == min(one.ratio_one_lost or 0.0 for one in end.points(end.pull().line_n))


def test_the_pulley_system_holds_on_without_its_tie_back() -> None:
    row = next(one for one in removals(loads_of(rig_data("low"))) if one.what == "tie-back")
    assert (row.caught_by, row.holds) == ("the pulley system", True)


def test_a_pulley_system_without_tie_back_is_caught_by_what_catches_the_line() -> None:
    loads = loads_of(rig_data("long_haul", {"chain[8].tie_back": REMOVE}))
    rows = {one.what: one for one in removals(loads)}
    assert (rows["haul"].caught_by, rows["haul"].left) == (rows["series"].caught_by, rows["series"].left)
    assert "tie-back" not in rows


def test_a_slack_spare_is_judged_by_what_it_bears_once_the_first_leg_has_gone() -> None:
    """It bears nothing now, so its ratio with all holding is endless; then it bears the whole line."""
    edits: dict[str, object] = {"chain[1].legs[2]": REMOVE, "chain[1].share": "slack_spare"}
    loads = loads_of(rig_data("highline", edits | {"shelf[0].items.QL-2.mbs": "15 kN"}))
    left = next(one.left for one in removals(loads) if one.gone == "one leg at 'west'")
    assert left is not None
    assert left.force_n == pytest.approx(max(one.tension_a_n for one in loads.peaks()))
    assert left.before == float("inf")
    assert left.ratio == pytest.approx(15_000.0 / left.force_n)


def test_what_one_row_lacks_holds_up_no_other() -> None:
    loads = loads_of(rig_data("highline", {"shelf[0].items.RI-1.mbs": REMOVE}))
    computed = [row.what for one in all_that_may_go(loads) for row in known(one.rows) or []]
    assert "ring" not in computed
    assert {"series", "leg", "bolt", "backup", "backup leg", "backup bolt"} <= set(computed)


def test_a_backup_s_legs_and_bolts_bear_its_catch() -> None:
    """By hand: of two legs the other bears all of the catch, 9.65 kN; a quick link of 45 kN holds 4.66 times that."""
    loads = loads_of(rig_data("highline"))
    (backup,) = loads.backups
    catch = max(one.tension_a_n for one in loads.caught(backup))
    rows = {one.gone: one for one in removals(loads)}
    leg = rows["one leg of backups[0] in its catch at 'west'"].left
    assert leg is not None
    assert leg.force_n == catch
    assert leg.force_n == pytest.approx(9650.0, abs=5.0)
    assert leg.ratio == pytest.approx(4.66, abs=0.01)
    assert rows["any one bolt of backups[0] in its catch at 'west'"].holds


@pytest.mark.parametrize("mbs", ["9 kN", "12 kN"])
def test_a_chain_of_failure_goes_on_below_one(mbs: str) -> None:
    """The spare leg of 9 kN parts under 10.1 kN; then the backup must catch."""
    edits: dict[str, object] = {"chain[1].legs[2]": REMOVE, "chain[1].share": "slack_spare"}
    loads = loads_of(rig_data("highline", edits | {"shelf[0].items.QL-2.mbs": mbs}))
    row = next(one for one in removals(loads) if one.gone == "one leg at 'west'")
    assert (row.holds, row.after) == (mbs == "12 kN", "backups[0]")


def test_the_drawing_of_the_chain_says_what_catches() -> None:
    main, backup = chains_of(loads_of(rig_data("highline")), [])
    goes = {link.words: link.goes for link in main.links if link.goes}
    assert goes["anchor west"][0].startswith("if one bolt goes → the other 2 bolts → ")
    assert any(one.startswith("if any part goes → backups[0] → ") for words in goes.values() for one in words)
    assert backup.links[0].goes[0].startswith("if any part goes → the main line → ")
