"""What each knot does to a rope: the strength that it keeps, how it holds at an end, whether it stops a brake."""

from typing import Literal, NamedTuple

from riglint.model.values.sources import PRACTICE, Source

HANDBOOKS = Source(
    "chosen from a rescue training table and rope notes, where those name no knot from HSE CRR 364/2001 as remembered; "
    "they differ by 20 points, and a 1946-1970 handbook goes down to 45 % for overhand and figure-eight",
    "memory",
    ("hse_crr_364",),
)
# At the end of a rope under load: it holds; it shakes loose while it hangs slack; it rolls, creeps or slips.
AtEnd = Literal["holds", "shakes loose", "rolls", "creeps", "slips", "nothing", "not known"]
# Behind a brake: the brake stops at it; it may come through; it falls open with nothing inside.
Stops = Literal["stops", "may come through", "falls open", "nothing", "not known"]


class Knot(NamedTuple):
    """One way of ending a rope."""

    kept: str | None  # share of the strength of a straight rope; None where nothing holds
    at_end: AtEnd
    behind_brake: Stops


# How each holds is common practice, no source, but for the overhand behind a brake, which field notes warn of.
KNOTS: dict[str, Knot] = {
    "sewn": Knot("0.90", "holds", "not known"),
    "spliced": Knot("0.90", "holds", "not known"),
    "figure_eight": Knot("0.70", "holds", "stops"),
    "figure_nine": Knot("0.70", "holds", "stops"),
    "butterfly": Knot("0.60", "holds", "stops"),
    "barrel": Knot("0.65", "holds", "stops"),
    "double_overhand": Knot("0.60", "holds", "stops"),
    "double_fisherman": Knot("0.65", "holds", "stops"),
    "round_turn": Knot("0.70", "holds", "falls open"),
    "bowline": Knot("0.60", "shakes loose", "may come through"),
    "overhand": Knot("0.60", "rolls", "may come through"),
    "water_knot": Knot("0.60", "creeps", "may come through"),
    "clove_hitch": Knot("0.60", "slips", "falls open"),
    "other": Knot("0.50", "not known", "not known"),
    "none": Knot(None, "nothing", "nothing"),
}
IN_SLICK = Source("test digest: knots in UHMWPE tape slip or break low; the share is an own choice", "own")
HOLDING = PRACTICE
# What no knot does to the fibre.
UNKNOTTED = frozenset({"sewn", "spliced"})
