"""The rig: plan, chain, what backs it up, what was measured, checked and accepted."""

from typing import Annotated, Literal

from pydantic import Discriminator, Tag

from riglint.model.documents.gear import Shelf
from riglint.model.documents.parts import BY_PATH, INLINE, Part
from riglint.model.documents.spot import Spot
from riglint.model.vocabulary import words
from riglint.model.vocabulary.bounds import AtOnce, InnerShare, LengthAboveZero, Person, Tension, WindSpeed
from riglint.model.vocabulary.fields import (
    Count,
    Day,
    Duration,
    Flag,
    Force,
    Form,
    Fraction,
    Length,
    Number,
    Reason,
    Text,
    Until,
    Whole,
    about,
    for_people,
    needed,
)


def _written_inline(value: object) -> str:
    return INLINE if isinstance(value, dict | Form) else BY_PATH


SpotChoice = Annotated[
    Annotated[Text, Tag(BY_PATH)] | Annotated[Spot, Tag(INLINE)], Discriminator(_written_inline)
]
ShelfChoice = Annotated[
    Annotated[Text, Tag(BY_PATH)] | Annotated[Shelf, Tag(INLINE)], Discriminator(_written_inline)
]


class User(Form):
    """Somebody who may be on the line."""

    mass: Person | None = about("With leash and clothes.")
    level: words.Level | None = about("How practised they are.")


class SagTarget(Form):
    """A standing tension given by the sag it should leave."""

    depth: LengthAboveZero = needed("Sag below the chord, under the person.")
    under: Person = needed("Mass of the person.")
    at: InnerShare = about("Share of the webbing from its first end.", default=0.5)


class Crew(Form):
    """Who hauls and who checks."""

    haulers: Whole | None = about("People who pull on the rope.")
    pull_each: Force | None = about("What each can pull steadily.")
    checker: Flag | None = about("Whether a second person checks the rig.")


class Plan(Form):
    """The plan for the day."""

    standing_tension: Tension | None = about("Tension with nobody on the line.")
    sag_target: SagTarget | None = about("The sag that you aim for.")
    standing_at: words.StandingAt = about("The end where that tension is.", default="haul")
    standing_from: words.StandingFrom = about(
        "The tension we calculate with: the plan, or the newest reading in measured.",
        default="plan",
    )
    users: list[User] | None = about("The people who may use it, one at a time unless at_once says more.")
    at_once: AtOnce = about("People on the line at one time.", default=1)
    walk_zone: tuple[Length, Length] | None = about("How close a user comes to each end of the webbing.")
    moves: list[words.Move] = about("What the users do on the line.", default=["walk"])
    first_day: Day | None = about("The day it is rigged.")
    days_up: Whole | None = about("Days the rig stays up.")
    public: Flag | None = about("Whether the public can come near.")
    watcher: Flag | None = about("Whether somebody watches the area round the line.")
    spotters: Whole | None = about("People who spot beginners.")
    crew: Crew | None = about("Who hauls and who checks.")
    lowering: words.Lowering | None = about("How the tension is let off.")
    tail_wraps: Number | None = about("Turns of the tail round the trunk while lowering.")
    wind: WindSpeed | None = about("Strongest wind expected.")
    wet: Flag | None = about("Whether the webbing may get wet.")
    night: Flag | None = about("Whether it is used after dusk.")
    unattended: Flag | None = about("Whether it is left alone at times.")
    rescue: Flag | None = about(
        "Whether the crew can reach a walker who hangs on the leash, with the gear at hand."
    )
    rescuer: Text | None = about("Who fetches them, by role: nobody can be at two lines at once.")
    tag_line: Flag | None = about("Whether each end is tied to a tag line before it is opened.")
    standby: Flag | None = about("Whether a boat, a swimmer or a throw line stands by at a waterline.")
    damped: Flag | None = about("Whether a long line is damped against swinging in wind.")
    ends_padded: Flag | None = about("Whether hard parts at both ends are padded where people may fall.")
    consequence: words.Consequence | None = about("Raises the consequence class; it never lowers it.")


class Check(Form):
    """A check that somebody made on site."""

    what: Text = needed("What was checked.")
    by: Text | None = for_people(
        "The role of the person who checked.", "a role changes no verdict on this day."
    )
    date: Day | None = about("The day of the check.")
    after_tension: Force | None = about("Standing tension when the check was made.")
    fingerprint: Text | None = about(
        "The fingerprint from the sheet or card of that day. It shows if the files have changed since."
    )


class Backup(Form):
    """What holds when a part of the main line goes."""

    kind: Text | None = about("What it is: line, tail, rope.")
    holds: Text | None = about("What it backs up, such as main.")
    chain: list[Part] = about("Its own parts from anchor to anchor.", default=[])
    cut: LengthAboveZero | None = about("Cut length of the backup.")
    extra: Fraction | None = about("How much longer it is than its span.")
    taped_every: tuple[Length, Length] | None = about("Shortest and longest gap between tapes.")


class Leash(Form):
    """The leash between walker and line."""

    gear: Text | None = about("The leash, by its name in the gear list.")
    hang: Length | None = about("How far the walker hangs below the ring.")
    rings: list[Text] | None = about("The rings, by their shelf names.")
    rings_on: list[Text] | None = about("The lines that run through the rings.")
    ring_knot: words.RopeEnd | None = about("How the leash ends at the rings.")
    harness_knot: words.RopeEnd | None = about("How the leash ends at the harness.")
    partner_check: Flag | None = about("Whether a partner checks before each walk.")
    one_each: Flag | None = about(
        "Where several are on the line at once: whether each has such a leash, with rings of its own."
    )


class Edge(Form):
    """An edge that a line runs over."""

    at: Text | None = about("The anchor it belongs to.")
    from_anchor: Length | None = about("Distance from the anchor.")
    padded: list[Text] | None = about("The lines that are padded there.")
    metal_over: Flag | None = about("Whether metal lies on the edge.")
    clear: Flag | None = about("Whether every line hangs clear of it, under load too.")


class Measured(Form):
    """A reading taken on site."""

    what: Literal["pulse", "sag", "force"] = needed("What was read.")
    date: Day | None = about("The day of the reading.")
    returns: Count | None = about("Round trips of the pulse.")
    time: Duration | None = about("Time for all returns of the pulse together.")
    over: Length | None = about("Webbing between the fittings.")
    under: Person | None = about("Mass of the person on the line.")
    at: Length | None = about("Where the person stood, from the first end.")
    depth: Length | None = about("How deep the line sagged under that person, see from.")
    from_: Literal["still_line", "chord"] | None = about("What the depth was measured from.", alias="from")
    where: words.ForceAt | None = about("Where the force was read.")
    value: Tension | None = about("The tension you read.")


class Accepted(Form):
    """A finding that somebody answers for."""

    rule: Text = needed("The rule, such as gear/inspection.")
    part: Text | None = about("The part it concerns, by its id or its place in the chain.")
    reason: Reason = needed("Why it is accepted.")
    role: Reason = needed("The role of the person who accepts it.")
    until: Until = needed("The last day it holds; three years at the most.")


class Rig(Form):
    """A rig as planned or as built."""

    riglint: Literal["rig/1"] = needed("Kind and version of the document.")
    title: Text = needed("What this rig is called.")
    note: Text | None = for_people("Anything a reader should know.", "a rule does not judge free text.")
    use: words.Use | None = about("What the line is used for.")
    stage: words.Stage = about(
        "Where the work stands: planned, built, walking or lowered.", default="planned"
    )
    spot: SpotChoice | None = about("The spot: a path, or the spot itself.")
    shelf: list[ShelfChoice] = about("The gear lists: paths, or the gear itself.", default=[])
    plan: Plan | None = about("The plan for the day.")
    chain: list[Part] = needed("Every part from one anchor to the other, in order.")
    checks: list[Check] = about("Checks made on site.", default=[])
    backups: list[Backup] | None = about("What holds when a part fails; [] says there is nothing.")
    leash: Leash | None = about("The leash between walker and line.")
    edges: list[Edge] | None = about("Edges that a line runs over; [] says there are none.")
    measured: list[Measured] = about("Readings taken on site.", default=[])
    accepted: list[Accepted] = about("Accepted findings, each with a reason, a role and a date.", default=[])
