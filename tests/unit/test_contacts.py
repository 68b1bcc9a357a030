"""What goes round what: a sling's anchor, another sling, metal, as the order shows or as the file says."""

from datetime import date
from math import pi
from typing import Any

import pytest

from riglint.loadpath import contact_of, toward_line
from riglint.loads import Loads
from riglint.loads.strength.slings import LaidSling, slings_of
from riglint.rulekit import REMOVE, insert_before, sound
from riglint.testing import edited, loads_of

ON = date(2026, 5, 2)
RS_9 = {"shelf[0].items.RS-9": {"kind": "round_sling", "wll": "2 t", "length": "1 m"}}
LOOP = {"part": "sling", "gear": "RS-9", "hitch": "straight"}
LIME = {"spot.anchors.lime": {"kind": "tree", "girth": "1 m"}}
TP_3 = {"shelf[0].items.TP-3": {"kind": "protector", "length": "2 m"}}


def rig(baseline: str, edits: dict[str, Any] | None = None) -> Loads:
    return loads_of(edited(sound(baseline, edits or {})), ON)


def laid(loads: Loads, gear: str) -> LaidSling:
    (one,) = [one for one in slings_of(loads) if one.placed.part.gear == gear]
    return one


def touched(baseline: str, gear: str, edits: dict[str, Any] | None = None) -> tuple[str, str]:
    contact = laid(rig(baseline, edits), gear).contact
    return contact.kind, contact.words


@pytest.mark.parametrize(
    ("gear", "kind", "words"),
    [("RS-1", "tree", "the tree 'gate'"), ("RS-2", "tree", "the tree 'barn'")],
)
def test_a_sling_next_to_its_anchor_goes_round_it(gear: str, kind: str, words: str) -> None:
    assert touched("low", gear) == (kind, words)


def test_in_a_leg_it_hangs_in_what_stands_before_it() -> None:
    assert touched("highline", "RS-1") == ("metal", "quick link QL-1")
    assert touched("highline", "RS-9") == ("metal", "quick link QL-9")  # of the backup


def test_first_in_a_leg_it_goes_to_what_the_leg_names() -> None:
    sling = {"part": "sling", "gear": "RS-1", "hitch": "basket"}
    assert touched("highline", "RS-1", {"chain[1].legs[0].chain": [sling]}) == ("bolts", "the bolt 'w1'")
    to_lime = {**LIME, "chain[1].legs[0]": {"to": "lime", "chain": [sling]}}
    assert touched("highline", "RS-1", to_lime) == ("tree", "the tree 'lime'")


@pytest.mark.parametrize(
    ("before", "edits", "words"),
    [
        ("chain[3]", {}, "sling RS-1"),  # behind the sling of the near tree
        ("chain[4]", {}, "shackle SH-1"),
        ("chain[8]", {}, "pulley system"),  # between webbing and pulley: the pulley is on the anchor's side
    ],
)
def test_with_parts_on_both_sides_it_joins_them(before: str, edits: dict[str, Any], words: str) -> None:
    loads = rig("low", {**RS_9, **edits, before: insert_before(LOOP)})
    assert laid(loads, "RS-9").contact.words == words


def test_what_is_made_fast_lies_between_the_parts_beside_the_haul() -> None:
    fast = {"chain[8].stays": False, "chain[8].made_fast": [LOOP]}
    one = laid(rig("low", {**RS_9, **fast}), "RS-9")
    assert one.contact.words == "shackle SH-3"
    line = one.toward_line
    assert line is not None
    assert line.part.gear == "SH-2"


def test_nothing_is_made_fast_where_the_haul_stays() -> None:
    loads = rig("low", {**RS_9, "chain[8].made_fast": [LOOP]})
    assert [one for one in slings_of(loads) if one.placed.part.gear == "RS-9"] == []


@pytest.mark.parametrize(
    ("around", "kind", "words"),
    [
        ("barn", "tree", "the tree 'barn'"),
        ("SH-1", "metal", "shackle SH-1"),
        ("chain[8]", "metal", "pulley system"),
        ("RS-2", "textile", "sling RS-2"),
        ("TB-1", "textile", "rope TB-1"),
        ("the gate's ring", "metal", "the gate's ring"),
        ("the sling before", "textile", "the sling before"),
        ("trunk", "tree", "the tree 'gate'"),
        ("a big stone", "boulder", "a big stone"),
        ("my uncle", "unknown", "my uncle"),
    ],
)
def test_what_the_file_says_goes_first(around: str, kind: str, words: str) -> None:
    contact = laid(rig("low", {"chain[2].around": around}), "RS-1").contact
    assert (contact.kind, contact.words, contact.stated) == (kind, words, True)


def test_without_a_spot_nobody_knows_what_it_goes_round() -> None:
    contact = laid(rig("low", {"spot": REMOVE}), "RS-1").contact
    assert (contact.kind, contact.thin) == ("unknown", False)


def test_protectors_lie_where_the_sling_touches_an_anchor() -> None:
    loads = rig("low")
    assert [one.part.gear for one in laid(loads, "RS-1").contact.covers] == ["TP-1"]
    metal = laid(rig("low", {"chain[2].around": "SH-1"}), "RS-1")
    assert metal.contact.covers == ()


def test_a_leg_to_another_tree_has_no_cover_but_its_own() -> None:
    slings = {"to": "lime", "chain": [{"part": "sling", "gear": "RS-9", "hitch": "choke"}]}
    spread = {"part": "legs", "share": "fixed", "legs": [{"to": "gate"}, slings]}
    bare = laid(rig("low", {**RS_9, **LIME, "chain[2]": spread}), "RS-9")
    assert bare.contact.covers == ()
    slings["chain"].append({"part": "protector", "gear": "TP-3"})  # type: ignore[attr-defined]
    padded = laid(rig("low", {**RS_9, **LIME, **TP_3, "chain[2]": spread}), "RS-9")
    assert [one.part.gear for one in padded.contact.covers] == ["TP-3"]


def test_girth_and_reach_follow_the_contact() -> None:
    bare = laid(rig("low", {**LIME, "chain[2].around": "lime", "chain[1]": REMOVE}), "RS-1")
    assert bare.geometry.girth_m(bare.placed) == pytest.approx(1.0)
    covered = laid(rig("low", {**LIME, "chain[2].around": "lime"}), "RS-1")
    assert covered.geometry.girth_m(covered.placed) == pytest.approx(1.0 + 2.0 * pi * 0.020)
    ring = laid(rig("low", {"chain[2].around": "ring", "chain[2].hitch": "basket"}), "RS-1")
    assert ring.geometry.sling_reach_m(ring.placed) == pytest.approx(1.0)  # 2 m, doubled
    straight = laid(rig("low", {"chain[2].around": "ring", "chain[2].hitch": "straight"}), "RS-1")
    assert straight.geometry.sling_reach_m(straight.placed) == pytest.approx(2.0)


@pytest.mark.parametrize(
    ("edits", "kept"),
    [
        ({"chain[2].hitch": "choke"}, 0.8),
        ({"chain[2].hitch": "larks_foot", "chain[2].around": "ring"}, 0.5),
        ({"chain[2].hitch": "choke", "chain[2].around": "RS-2"}, 0.5),
        ({"chain[2].hitch": "straight", "chain[2].around": "ring"}, 1.0),
        ({"chain[2].hitch": "basket", "chain[2].around": "ring"}, 1.4),
        ({"chain[2].hitch": "basket", "chain[2].around": "RS-2"}, 0.7),
    ],
)
def test_strength_follows_the_contact(edits: dict[str, Any], kept: float) -> None:
    """EN 1492 mode factors; a sling on a sling or on metal keeps half (test digest)."""
    (load,) = [one for one in rig("low", edits).parts if one.gear == "RS-1"]
    assert load.strength.kept == pytest.approx(kept)


def test_the_line_side_of_a_leg_is_what_its_spread_is_joined_to() -> None:
    loads = rig("highline")
    sling = laid(loads, "RS-2")
    line = toward_line(sling.path, sling.placed)
    assert line is not None
    assert line.part.gear == "SH-1"
    assert contact_of(sling.path, sling.placed) == sling.contact
