"""What is left when one part goes, over many rigs: a backup makes no row worse, and what is shared always shows."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from riglint.loads.what_if.anchor_gone import shared_gone
from riglint.loads.what_if.left import Removal
from riglint.loads.what_if.removal import all_that_may_go
from riglint.rulekit import REMOVE
from tests.rigs import loads_of, rig_data

SLOW, RUNS = settings(max_examples=6, deadline=None), settings(max_examples=25, deadline=None)
# A place in the backup, and a piece of the main line that fits there.
SHARED = st.sampled_from(
    [
        (f"backups[0].chain[{n}].gear", piece)
        for n, piece in ((2, "SH-1"), (6, "SH-2"), (3, "WA-1"), (5, "WA-2"))
    ]
)
TENSIONS = st.floats(1.5, 5.0).map(lambda one: f"{one:.2f} kN")
MASSES = st.floats(50.0, 110.0).map(lambda one: f"{one:.0f} kg")
STRENGTHS = st.floats(20.0, 45.0).map(lambda one: f"{one:.1f} kN")
EXTRAS = st.floats(2.0, 8.0).map(lambda one: f"{one:.1f} %")


def rows(edits: dict[str, Any]) -> dict[str, Removal]:
    """The rows of a highline with edits, by what goes."""
    loads = loads_of(rig_data("highline", edits))
    return {row.gone: row for one in all_that_may_go(loads) for row in one.rows()}


@SLOW
@given(TENSIONS, MASSES, STRENGTHS, EXTRAS)
def test_an_independent_backup_never_makes_a_row_worse(
    tension: str, mass: str, strength: str, extra: str
) -> None:
    planned: dict[str, Any] = {"plan.standing_tension": tension, "plan.users[0].mass": mass}
    # Taped to the main line a backup weighs on it; what the main line bears is compared with the same weight on it.
    alone = rows(planned | {"backups": [], "leash.rings_on": ["main"]})
    backed = rows(planned | {"shelf[0].items.W-2.mbs": strength, "backups[0].extra": extra})
    assert set(alone) <= set(backed)
    for gone, before in alone.items():
        after = backed[gone]
        assert not before.holds or after.holds, gone
        if before.left is not None and after.left is not None:
            # Its weight adds under a percent to what the main line bears, see `Alongside`.
            assert after.left.ratio >= before.left.ratio * WEIGHT, gone


WEIGHT = 0.97


def shared(edits: dict[str, Any]) -> list[Removal]:
    """What main line and backup share; nothing of it needs the forces."""
    loads = loads_of(rig_data("highline", edits))
    return [one for backup in loads.backups for one in shared_gone(loads, backup)]


@RUNS
@given(SHARED, TENSIONS, MASSES)
def test_a_piece_in_main_line_and_backup_always_shows(
    place_and_piece: tuple[str, str], tension: str, mass: str
) -> None:
    place, piece = place_and_piece
    edits = {"plan.standing_tension": tension, "plan.users[0].mass": mass, place: piece}
    assert [(one.gone, one.caught_by, one.holds) for one in shared(edits)] == [
        (f"{piece}, in the main line and in backups[0]", None, False)
    ]


@RUNS
@given(TENSIONS, MASSES)
def test_nothing_is_shared_where_nothing_is(tension: str, mass: str) -> None:
    assert shared({"plan.standing_tension": tension, "plan.users[0].mass": mass}) == []


@pytest.mark.parametrize("place", ["chain[1]", "backups[0].chain[1]"])
def test_one_bolt_under_both_lines_shows(place: str) -> None:
    """Main line and backup both go to w1 alone: no leg of either goes elsewhere."""
    one_leg = {"legs[1]": REMOVE, "legs[0].to": "w1"}
    edits: dict[str, Any] = {"chain[1].legs[2]": REMOVE}
    for path in ("chain[1]", "backups[0].chain[1]"):
        edits |= {f"{path}.{key}": value for key, value in one_leg.items()}
    assert [one.gone for one in shared(edits)] == [
        "bolt 'w1' at 'west', which holds the main line and backups[0]"
    ]
    # With a leg to a bolt of its own in either of them it is shared no more.
    apart = {key: value for key, value in edits.items() if not key.startswith(f"{place}.legs[0]")}
    own = shared(apart | {f"{place}.legs[0].to": "w3" if place == "chain[1]" else "w4"})
    assert own == []


def test_one_tree_under_both_lines_shows() -> None:
    tree = {
        "kind": "tree",
        "species": "oak",
        "girth": "2.4 m",
        "bark": "rough",
        "health": "sound",
        "fork": "none",
    }
    edits: dict[str, Any] = {"spot.anchors.west": tree}
    for path, legs in (("chain[1]", 3), ("backups[0].chain[1]", 2)):
        edits |= {f"{path}.legs[{n}].to": "west" for n in range(legs)}
    assert [one.gone for one in shared(edits)] == ["tree 'west', which holds the main line and backups[0]"]
