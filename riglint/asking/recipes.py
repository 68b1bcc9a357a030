"""The chains that questions can lead to: which places each has, from one anchor to the other."""

from __future__ import annotations

from typing import NamedTuple

from riglint.asking.question import Blank


class RecipePlace(NamedTuple):
    """One place of a chain, and what may stand in it."""

    part: str
    words: str
    kinds: tuple[str, ...] = ()
    hitched: bool = False
    form: str | None = None

    @property
    def blank(self) -> Blank:
        """The blank that asks for the piece."""
        return Blank(
            self.words, "gear", choices=self.kinds or (self.part,), hitched=self.hitched, form=self.form
        )


SLINGS = ("round_sling", "flat_sling")
LINKS = ("connector", "quick_link", "shackle")
NEAR = (
    RecipePlace("protector", "near protector"),
    RecipePlace("sling", "near sling", SLINGS, hitched=True),
    RecipePlace("shackle", "near shackle"),
)
FAR = (
    RecipePlace("shackle", "far shackle"),
    RecipePlace("sling", "far sling", SLINGS, hitched=True),
    RecipePlace("protector", "far protector"),
)

# Anchored at `near`, tensioned at `far`; a pulley system stands between the last two of its places.
CHAINS: dict[str, tuple[RecipePlace, ...]] = {
    "ratchet": (
        *NEAR,
        RecipePlace("sewn_end", "sewn loop"),
        RecipePlace("webbing", "webbing"),
        RecipePlace("puller", "ratchet", form="ratchet"),
        *FAR,
    ),
    "tackle": (
        *NEAR,
        RecipePlace("sewn_end", "sewn loop"),
        RecipePlace("webbing", "webbing"),
        RecipePlace("webbing_anchor", "webbing anchor"),
        RecipePlace("puller", "webbing tackle", form="webbing_tackle"),
        *FAR,
    ),
    "pulley": (
        *NEAR,
        RecipePlace("webbing_anchor", "webbing anchor"),
        RecipePlace("webbing", "webbing"),
        RecipePlace("sewn_end", "sewn loop"),
        RecipePlace("shackle", "shackle at the pulley system"),
        *FAR,
    ),
    "highline": (
        RecipePlace("shackle", "near shackle"),
        RecipePlace("webbing_anchor", "near webbing anchor"),
        RecipePlace("webbing", "webbing"),
        RecipePlace("webbing_anchor", "far webbing anchor"),
        RecipePlace("shackle", "far shackle"),
    ),
}
BACKUP = (
    RecipePlace("shackle", "near shackle"),
    RecipePlace("webbing_anchor", "near webbing anchor"),
    RecipePlace("webbing", "backup webbing"),
    RecipePlace("webbing_anchor", "far webbing anchor"),
    RecipePlace("shackle", "far shackle"),
)
HAUL = (
    RecipePlace("moving_block", "moving block", ("pulley",)),
    RecipePlace("fixed_block", "fixed block", ("pulley",)),
    RecipePlace("plate", "plate"),
    RecipePlace("rope", "rope"),
    RecipePlace("by", "link at the dead end", ("quick_link", "shackle", "connector", "ring")),
    RecipePlace("brake", "brake"),
    RecipePlace("connector", "connector of the brake", LINKS),
)
MULTIPLIER = (
    RecipePlace("grip", "rope grip", ("grip",)),
    RecipePlace("pulley", "its pulley", ("pulley",)),
    RecipePlace("connector", "its connector", LINKS),
)
TIE_BACK = (
    RecipePlace("gear", "tie-back", ("rope", "cord", *SLINGS)),
    RecipePlace("sling", "a sling of its own", SLINGS),
)
LEASH = (RecipePlace("leash", "leash"), RecipePlace("ring", "first ring"), RecipePlace("ring", "second ring"))
# How the tension comes off again, and the end at which it is meant, by kind of line.
LOWERING = {"ratchet": "haul_back", "tackle": "haul_back", "pulley": "brake", "highline": "haul_back"}
STANDING_AT = {"ratchet": "end", "tackle": "end", "pulley": "haul", "highline": "end"}

# What a line of a kind looks like where nothing else is asked: said before it is taken, and left open unless somebody
# says yes. The keys are those of the rig file that it decides.
LAYOUT = {
    "pulley": (
        "A 5:1 stays in the line, its dead end on the moving block. The brake is on the fixed "
        "side, with a double overhand 0.3 m behind it. A multiplier is a 3:1 that bites toward "
        "the load on the lead strand. The tie-back has 0.1 m of slack. The crew pulls from the "
        "side and lowers through the brake."
    ),
    "highline": (
        "Legs of fixed length meet at 50 deg on bolts and 10 deg on a trunk, and drop 0.05 m "
        "when one fails. Both lines are padded at each edge, with no metal on it. Both rings run "
        "on both lines. The leash is tied with a figure-eight at each end. You let the tension "
        "off slowly, hauling back first."
    ),
}
LAYOUT_KEYS = frozenset(
    {
        "lowering",
        "strands",
        "on",
        "side",
        "stopper",
        "stopper_at",
        "ratio",
        "strand",
        "bites",
        "slack",
        "pull",
    }
    | {
        "share",
        "included_angle",
        "extension",
        "padded",
        "metal_over",
        "rings_on",
        "ring_knot",
        "harness_knot",
    }
)


def blanks_of(places: tuple[RecipePlace, ...]) -> tuple[Blank, ...]:
    """Return the blanks that ask for the pieces of some places."""
    return tuple(place.blank for place in places)
