"""How much stronger than its load a part must be, by what it is and by what a failure would mean."""

from typing import NamedTuple

from riglint.model.values.sources import OWN, PRACTICE, Source
from riglint.model.vocabulary.words import Consequence

NEVER = float("inf")


class Required(NamedTuple):
    """Required ratio of strength in place to force, by consequence; None where none is asked."""

    ground: float | None
    fall: float | None
    life: float | None
    source: Source

    def at(self, consequence: Consequence) -> float | None:
        """Return the ratio for one consequence class."""
        ratio: float | None = getattr(self, consequence)
        return ratio


THIRD_OF_STRENGTH = Source(
    "a highline club's safety page: peak no more than a third of breaking strength; below that height own proposal",
    "unnamed",
)
LIFTING_TEXTILE = Source(
    "own proposal beside Directive 2006/42/EC annex I 4.1.2.5, which asks 7 of lifting slings", "own"
)
ALUMINIUM = Source(
    "own proposal: twice the ratio of steel. Closed aluminium connectors broke at down to half of their static "
    "strength in dynamic tests (Schambron & Uggowitzer 2009)",
    "own",
    ("schambron_uggowitzer_2009",),
)
BOLTS = Source(
    "own proposal beside two rope access notes, which ask 2.5 of an anchor and bolts in pairs", "own"
)

# Against the peak: bounce, surf, jump, leash fall, crowd.
PEAK: dict[str, Required] = {
    "webbing": Required(2.0, 2.5, 3.0, THIRD_OF_STRENGTH),
    "textile": Required(2.5, 3.0, 3.0, LIFTING_TEXTILE),  # a sling, a soft shackle, a sewn loop
    "metal": Required(2.0, 2.5, 3.0, THIRD_OF_STRENGTH),
    "aluminium": Required(4.0, 5.0, NEVER, ALUMINIUM),
    "rope": Required(4.0, 5.0, 5.0, PRACTICE),
    "brake": Required(3.0, 3.0, 3.0, PRACTICE),
    "backup": Required(None, 2.0, 2.0, OWN),
    # Of the anchors at the ends of the line:
    "anchor_point": Required(2.5, 3.0, 3.0, BOLTS),
    "anchor_point_one_lost": Required(None, 1.5, 2.0, BOLTS),
    "boulder": Required(2.0, 3.0, 3.0, PRACTICE),
    "ground_anchor": Required(1.5, 2.0, 3.0, PRACTICE),
}
