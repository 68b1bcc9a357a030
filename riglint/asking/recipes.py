"""The chains that questions can lead to: which places each has, from one anchor to the other."""

from __future__ import annotations

from typing import NamedTuple

from riglint.asking.question import Blank


class Place(NamedTuple):
    """One place of a chain, and what may stand in it."""

    part: str
    words: str
    kinds: tuple[str, ...] = ()

    @property
    def blank(self) -> Blank:
        """The blank that asks for the piece."""
        return Blank(self.words, "gear", choices=self.kinds or (self.part,))


SLINGS = ("round_sling", "flat_sling")
LINKS = ("shackle", "connector", "quick_link")
NEAR = (Place("protector", "near protector"), Place("sling", "near sling", SLINGS), Place("shackle", "near shackle"))
FAR = (Place("shackle", "far shackle"), Place("sling", "far sling", SLINGS), Place("protector", "far protector"))

# Anchored at `near`, tensioned at `far`; a pulley system stands between the last two of its places.
CHAINS: dict[str, tuple[Place, ...]] = {
    "ratchet": (*NEAR, Place("sewn_end", "sewn loop"), Place("webbing", "webbing"), Place("puller", "ratchet"), *FAR),
    "tackle": (
        *NEAR,
        Place("sewn_end", "sewn loop"),
        Place("webbing", "webbing"),
        Place("puller", "webbing tackle"),
        *FAR,
    ),
    "pulley": (
        *NEAR,
        Place("webbing_anchor", "webbing anchor"),
        Place("webbing", "webbing"),
        Place("sewn_end", "sewn loop"),
        Place("shackle", "shackle at the pulley system"),
        *FAR,
    ),
    "highline": (
        Place("shackle", "near shackle"),
        Place("webbing_anchor", "near webbing anchor"),
        Place("webbing", "webbing"),
        Place("webbing_anchor", "far webbing anchor"),
        Place("shackle", "far shackle"),
    ),
}
BACKUP = (
    Place("shackle", "near shackle"),
    Place("webbing_anchor", "near webbing anchor"),
    Place("webbing", "backup webbing"),
    Place("webbing_anchor", "far webbing anchor"),
    Place("shackle", "far shackle"),
)
HAUL = (
    Place("moving_block", "moving block", ("pulley",)),
    Place("fixed_block", "fixed block", ("pulley",)),
    Place("plate", "plate"),
    Place("rope", "rope"),
    Place("by", "link at the dead end", ("quick_link", "shackle", "connector", "ring")),
    Place("brake", "brake"),
    Place("connector", "connector of the brake", LINKS),
)
MULTIPLIER = (
    Place("grip", "rope grip", ("grip",)),
    Place("pulley", "its pulley", ("pulley",)),
    Place("connector", "its connector", LINKS),
)
TIE_BACK = (
    Place("gear", "tie-back", ("rope", "cord", *SLINGS)),
    Place("sling", "a sling of its own", SLINGS),
)
LEASH = (Place("leash", "leash"), Place("ring", "first ring"), Place("ring", "second ring"))
# How the tension comes off again, and the end at which it is meant, by kind of line.
LOWERING = {"ratchet": "haul_back", "tackle": "haul_back", "pulley": "brake", "highline": "haul_back"}
STANDING_AT = {"ratchet": "end", "tackle": "end", "pulley": "haul", "highline": "end"}


def blanks_of(places: tuple[Place, ...]) -> tuple[Blank, ...]:
    """Return the blanks that ask for the pieces of some places."""
    return tuple(place.blank for place in places)
