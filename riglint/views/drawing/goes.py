"""If one part goes, what catches: the words beside each part on the drawing of the chain."""

from __future__ import annotations

from collections.abc import Iterator
from math import isfinite

from riglint.loads import Loads
from riglint.loads.inputs import known
from riglint.loads.what_if.left import Removal
from riglint.loads.what_if.removal import all_that_may_go
from riglint.read.problems import key_text
from riglint.records import dataclass
from riglint.rulekit import rounded

WORDS = {
    "series": "if any part goes",
    "tie-back": "if its tie-back goes",
    "leg": "if one leg goes",
    "bolt": "if one bolt goes",
    "backup": "if any part goes",
    "shared": "if what both hang on goes",
    "backup leg": "if one leg goes in the catch",
    "backup bolt": "if one bolt goes in the catch",
}


@dataclass(frozen=True, slots=True)
class Goes:
    """One row of what is left, with the part that it stands beside."""

    key: str  # as a file names the place
    part: str | None  # the part's name, where the place is on the spot
    words: str  # such as `if one leg goes → the other leg → 7.02 ×`


def what_goes(loads: Loads) -> list[Goes]:
    """Return what is left when each part goes, as far as it can be computed; of the leash nothing hangs in a chain."""
    ways = known(lambda: list(all_that_may_go(loads))) or []
    return [one for way in ways for row in known(way.rows) or [] for one in _beside(row)]


def _beside(row: Removal) -> Iterator[Goes]:
    if row.what == "ring":
        return
    left = row.left
    ratio = f" → {rounded(left.ratio, 'down')} ×" if left is not None and isfinite(left.ratio) else ""
    words = f"{WORDS.get(row.what, 'if this goes')} → {row.caught_by or 'nothing'}{ratio}"
    yield Goes(key_text(row.at.key), row.at.part, words)
