"""The order of rigging of a day: no shared anchor bears more on the way than what it is judged by."""

from __future__ import annotations

from itertools import permutations

import pytest

from riglint.policy import DEFAULT
from riglint.rulekit import LibraryCase, sound
from riglint.testing import library_of
from riglint.views.day.content import order_of_work

TREE: dict[str, object] = {
    "kind": "tree",
    "girth": "1.3 m",
    "bark": "rough",
    "health": "sound",
    "fork": "none",
}
PLACES = {"west": (-16.43, 0.0), "north": (0.0, 16.43)}
# West and East pull the gate's tree against each other; North is in between.
TENSIONS = {"West": 4.6, "North": 3.6, "East": 4.2}  # kN
TO = {"West": "west", "North": "north", "East": "barn"}


def _level() -> dict[str, object]:
    """Return level ground, written out anew wherever it stands."""
    return {"profile_from": "gate", "profile": [["0 m", "0 m"], ["16 m", "0 m"]]}


def _line(title: str) -> dict[str, object]:
    """Return the edits for a low line from the gate, where all three hang, to a tree of its own."""
    spans = [{"between": ["gate", name], "span": "16 m", "ground": _level()} for name in ("west", "north")]
    plans = {f"spot.anchors.{name}": TREE | {"plan": [f"{x} m", f"{y} m"]} for name, (x, y) in PLACES.items()}
    ends = {"chain[12].at": TO[title], "chain[8].tie_back.to": TO[title]}
    planned = {"plan.standing_tension": f"{TENSIONS[title]} kN", "plan.first_day": "2026-05-09"}
    of_spot: dict[str, object] = {
        "spot.anchors.gate.plan": ["0 m", "0 m"],
        "spot.anchors.barn.plan": ["16.43 m", "0 m"],
        "spot.spans": spans,
        **plans,
    }
    return {"title": title, **of_spot, **ends, **planned}


@pytest.fixture(scope="module")
def library() -> LibraryCase:
    first, *others = (_line(title) for title in TENSIONS)
    return library_of(sound("low", first, beside=tuple(others)), DEFAULT)


def test_in_any_order_no_shared_anchor_bears_more_than_it_is_judged_by(library: LibraryCase) -> None:
    """Rules judge the worst of any of the lines, so every part of an order is covered by them."""
    (gate,) = library.anchors
    judged_n = gate.anchor.force().size
    for order in permutations(TENSIONS):
        for so_far in range(1, len(order) + 1):
            assert gate.anchor.at_rest_n(order[:so_far]) <= judged_n


def test_the_order_asks_least_of_the_shared_tree(library: LibraryCase) -> None:
    """By hand: North alone 3.6 kN, with East √(3.6² + 4.2²) = 5.53 kN, all three √(3.6² + (4.6 − 4.2)²) = 3.62 kN.

    East first and then West bear at most 4.2 kN on the way; North, East, West would bear 5.53 kN.
    """
    (gate,) = library.anchors

    def most_n(order: tuple[str, ...]) -> float:
        return max(gate.anchor.at_rest_n(order[: n + 1]) for n in range(len(order)))

    chosen = tuple(step.split(":")[0] for step in order_of_work(library.rigs, library.anchors))
    assert most_n(chosen) == pytest.approx(min(most_n(order) for order in permutations(TENSIONS)))
    assert most_n(chosen) == pytest.approx(4200.0, rel=0.01)
    assert most_n(("North", "East", "West")) == pytest.approx(5530.0, rel=0.01)
