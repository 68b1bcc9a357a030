"""The parts of the chain, from one anchor to the other."""

from typing import Annotated

from pydantic import Discriminator, Tag

from riglint.model.vocabulary import words
from riglint.model.vocabulary.bounds import Efficiency, IncludedAngle, LengthAboveZero
from riglint.model.vocabulary.fields import (
    Angle,
    Count,
    Flag,
    Force,
    Form,
    Height,
    Length,
    Text,
    Whole,
    about,
    for_people,
    needed,
)
from riglint.read.quantity import Quantity

# Tags that mark the branch of a choice inside an error's place; they are no keys of the file.
INLINE, BY_PATH, ONE_LENGTH, ROPE_TAIL = "(inline)", "(path)", "(length)", "(rope tail)"
BARE, REASONED = "(bare)", "(reasoned)"
TAGS = frozenset({INLINE, BY_PATH, ONE_LENGTH, ROPE_TAIL, BARE, REASONED})


class DeadEnd(Form):
    """Where the rope of the haul is made fast, and how."""

    on: words.BlockName | None = about("The block that it is tied to.")
    by: Text | None = about("Its connector, by its name in the gear list.")
    ends: words.RopeEnd | None = about("Sewn, spliced, or the knot.")


class HaulRope(Form):
    """The rope of the pulley system."""

    gear: Text | None = about("The rope, by its name in the gear list.")
    length: Length | None = about("Whole length of the rope.")
    dead_end: DeadEnd | None = about("Where its dead end is tied.")


class Brake(Form):
    """The device that holds the lead strand."""

    gear: Text | None = about("The brake, by its name in the gear list.")
    side: words.Side | None = about("Fixed: at the anchor plate. Moving: on the webbing side.")
    connector: Text | None = about("The link to the plate, by its name in the gear list.")
    locked: Flag | None = about("Locked or tied off once the tension stands.")
    threading_checked: Flag | None = about("Threading checked by a second person.")


class RopeTail(Form):
    """The rope behind the brake."""

    stopper: words.Knot | None = about("The stopper knot behind the brake.")
    stopper_at: Length | None = about("From the brake to the stopper knot.")
    left: Length | None = about("Rope beyond the knot, to its tie-off or its end.")
    tied_off: Flag | None = about("Whether the tail is tied off.")
    padded: Flag | None = about("Whether a protector lies between the trunk and the turns of the tail.")


def _rope_or_webbing(value: object) -> str:
    return ROPE_TAIL if isinstance(value, dict | RopeTail) else ONE_LENGTH


TailChoice = Annotated[
    Annotated[Length, Tag(ONE_LENGTH)] | Annotated[RopeTail, Tag(ROPE_TAIL)], Discriminator(_rope_or_webbing)
]


class Multiplier(Form):
    """The smaller tackle that pulls on the lead strand while tensioning."""

    ratio: Count | None = about("Its ideal ratio, such as 3.")
    grip: Text | None = about("The rope grip, by its name in the gear list.")
    pulley: Text | None = about("Its pulley, by its name in the gear list.")
    connector: Text | None = about("The link from the pulley to the grip, by its name in the gear list.")
    strand: words.Strand | None = about("The strand that the grip sits on.")
    bites: words.Bites | None = about("Which way the grip bites.")
    left_on: Flag | None = about("Whether it stays on while people walk.")


class TieBack(Form):
    """What catches the webbing side when the pulley system fails."""

    gear: Text | None = about("The rope, cord or sling, by its name in the gear list.")
    slack: Length | None = about("How far the line runs before it catches.")
    from_: Text | None = about(
        "The part it holds, by its id, its place such as chain[7], or its name in the gear list.",
        alias="from",
    )
    to: Text | None = about("The anchor it goes to, by its name on the spot.")
    sling: Text | None = about("Its own sling at that anchor, by its name in the gear list.")
    ends: words.RopeEnd | None = about("How a tie-back of rope or cord is tied: sewn, spliced, or the knot.")


class Redirect(Form):
    """A pulley that turns the hand strand to the side."""

    gear: Text | None = about("The pulley, by its name in the gear list.")
    turn: Angle | None = about("How far the strand is turned.")


class Pull(Form):
    """Where the crew stands while it pulls."""

    stand: words.PullFrom | None = about("To the side of the line, or behind the anchor in line with it.")
    redirect: Redirect | None = about("A pulley that turns the hand strand to the side.")


class Leg(Form):
    """One branch of a spread anchor."""

    to: Text | None = about("The bolt or anchor that it goes to.")
    height: Height | None = about(
        "Centre of its sling above the ground there, where that is not the anchor's."
    )
    chain: list["Part"] = about("The parts of this branch, in the order of the load.", default=[])


class Part(Form):
    """One part of the chain. Which keys a kind takes stands in `kinds.PART`."""

    part: words.PartKind = needed("What it is.")
    id: Text | None = for_people("A name of your own for this part.", "a name changes nothing.")
    note: Text | None = for_people("Anything a reader should know.", "a rule does not judge free text.")
    gear: Text | None = about("The piece of gear, by its name in the gear list.")

    at: Text | None = about("The anchor, by its name on the spot.")
    height: Height | None = about("Centre of the sling or bolt above the ground at that anchor.")

    hitch: words.Hitch | None = about("How the sling is laid.")
    length: LengthAboveZero | None = about(
        "Length: of webbing unstressed, fitting to fitting, fixed; of a protector along the trunk."
    )
    around: Text | None = about(
        "What the sling goes round or hangs in, if not its anchor or the part before it: an anchor or bolt of the "
        "spot, a part or piece of gear, or words such as ring or trunk."
    )
    knotted: Flag | None = about("Whether the sling is knotted or twisted.")
    stop_cord: Flag | None = about("Whether a cord or a choke of its own keeps the sling from sliding down.")

    share: words.Share | None = about("How the legs share the load.")
    included_angle: IncludedAngle | None = about("Angle between the legs at the point where they meet.")
    extension: Length | None = about("How far the master point drops when one leg fails.")
    legs: list[Leg] | None = about("The branches that share the load, each with its own chain.")

    pins: Flag | None = about("Every pin and gate closed and checked.")
    side_load: Angle | None = about("Angle between the load and the plane of a shackle's bow.")

    tail: TailChoice | None = about(
        "Webbing beyond its anchor; in a pulley system, the rope behind the brake."
    )
    tail_tied: Flag | None = about("Whether the webbing tail is tied off.")
    cut: LengthAboveZero | None = about("Cut length of the webbing, tails and wraps included.")
    twists: Whole | None = about("Twists left in the webbing.")
    knot: words.Knot | None = about("Which knot it is.")

    strands: Count | None = about("Strands that carry the moving block; the ideal ratio.")
    moving_block: Text | None = about("The block on the webbing side, by its name in the gear list.")
    fixed_block: Text | None = about("The block on the anchor side, by its name in the gear list.")
    plate: Text | None = about("The rigging plate at the anchor side, by its name in the gear list.")
    rope: HaulRope | None = about("The rope of the pulley system.")
    open: Length | None = about("Between the blocks, axle to axle, with the line laid out hand-tight.")
    closed: Length | None = about("The shortest the blocks can come together, axle to axle.")
    at_standing: Length | None = about("Between the blocks, axle to axle, read at standing tension.")
    stays: Flag = about("Whether the pulley system stays in the chain.", default=True)
    made_fast: list["Part"] | None = about("The parts that carry the line if the pulley system doesn't stay.")
    brake: Brake | None = about("The brake that holds the lead strand.")
    multiplier: Multiplier | None = about(
        "The smaller pulley system on the lead strand; leave it out if there is none."
    )
    tie_back: TieBack | None = about("What catches the webbing side when the pulley system fails.")
    pull: Pull | None = about("Where the crew stands.")

    reach: Length | None = about("Length of this part in the line, if measured.")
    ratio: Count | None = about("Ideal ratio of a tensioner: its tension over the force of the hand.")
    stands_at: Force | None = about("Tension at which you left the tensioner.")

    @property
    def webbing_tail(self) -> Quantity | None:
        """The webbing beyond its anchor, where `tail` says that."""
        return self.tail if isinstance(self.tail, Quantity) else None

    @property
    def rope_tail(self) -> RopeTail | None:
        """The rope behind the brake, where `tail` says that."""
        return self.tail if isinstance(self.tail, RopeTail) else None

    efficiency: Efficiency | None = about(
        "Share of the tension that comes out of one sheave, where measured."
    )


# A leg holds parts, which are declared after it. `model_rebuild` would also build what checks a leg by itself.
Leg.model_fields["chain"].annotation = list[Part]
