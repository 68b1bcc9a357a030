"""The spot: its anchor structures, the ground between them, and what is around."""

from typing import Literal

from riglint.model.vocabulary import words
from riglint.model.vocabulary.bounds import Friction, Girth, Holding, QuarterAngle, RockMass, Span, Tension
from riglint.model.vocabulary.fields import (
    Day,
    Flag,
    Force,
    Form,
    Height,
    Length,
    Text,
    Voltage,
    about,
    for_people,
    needed,
)


class Point(Form):
    """One bolt of an anchor."""

    radial: Holding | None = about("Strength across the bolt.")
    axial: Holding | None = about("Strength along the bolt.")
    standard: Text | None = about("The standard it is marked with.")
    placed: Day | None = about("When the bolt was placed.")
    tested: Day | None = about("When the bolt was last tested.")
    spacing: Length | None = about("Distance to the nearest other bolt.")
    edge: Length | None = about("Distance to the nearest rock edge.")
    pull_from_radial: QuarterAngle | None = about("Angle between the pull and the plane across the bolt.")


class Anchor(Form):
    """One anchor structure. Which keys a kind takes stands in `kinds.ANCHOR`."""

    kind: words.AnchorKind = needed("What it is.")
    note: Text | None = for_people("Anything a reader should know.", "a rule does not judge free text.")
    plan: tuple[Height, Height] | None = about(
        "Where its middle stands on the plan of the spot: x and y from one zero for all anchors."
    )
    species: Text | None = about("Tree species by its common name.")
    girth: Girth | None = about("Girth of the trunk where it was measured, see girth_at.")
    girth_at: Height | None = about("Height above the ground at which the girth was taken.")
    bark: words.Bark | None = about("Whether the bark is smooth or rough to a sling.")
    health: words.Health | None = about("What you see when you look at the tree.")
    fork: words.Fork | None = about("Forked stem: v-shaped unions split.")
    deadwood: Flag | None = about("Whether dead limbs hang over people or the line.")
    lean: QuarterAngle | None = about("Lean from the vertical.")
    rock: Text | None = about("Kind of rock, such as granite.")
    points: dict[str, Point] = about(
        "The bolts, each under its name; several that are alike as n1 to n5.", default={}
    )
    mass: RockMass | None = about("Mass of a boulder or block.")
    friction: Friction | None = about(
        "Friction number of a boulder on its bed: about 0.3 on clay, 0.35 on fine sand or smooth rock, 0.5 on gravel."
    )
    tested_force: Force | None = about("Pull that this anchor was tested to.")
    tested: Day | None = about("When this anchor was tested.")
    owner_agrees: Flag | None = about("Whether the owner of the structure agreed to this load.")
    design_force: Force | None = about("Load that a competent person designed the structure for.")


class Ground(Form):
    """The ground under the line."""

    surface: words.Surface | None = about("What a walker would land on.")
    soil: words.Soil | None = about("State of the soil at the trees.")
    profile_from: Text | None = about("The anchor from whose face distances are measured.")
    profile: list[tuple[Height, Height]] | None = about("Pairs of distance and elevation.")
    water_depth: Length | None = about("Depth of the water under a waterline.")


class Wire(Form):
    """An overhead wire."""

    distance: Length = needed("Nearest distance to the line.")
    voltage: Voltage | None = about("Voltage of the wire, if known.")


class Obstacle(Form):
    """Something to fall on."""

    what: Text = needed("What it is.")
    along: Length | None = about("Distance from the face where the profile begins.")
    aside: Length | None = about("Distance to the side of the line.")
    height: Height | None = about("Height of its top above the ground.")


class Surroundings(Form):
    """What is around the line."""

    path_crosses: Flag | None = about("Whether a path crosses under the line.")
    wires: list[Wire] | None = about("Overhead wires; [] says there are none.")
    obstacles: list[Obstacle] | None = about("Things to fall on; [] says there are none.")
    airfield_within: Length | None = about("Distance to the nearest airfield.")


class Permission(Form):
    """Permission to rig here."""

    held: Flag | None = about("Whether the owner or the town agreed.")
    until: Day | None = about("Last day of the permission.")


class Access(Form):
    """How help gets here."""

    meeting_point: Text | None = about("Where helpers come to, as you would say it on the phone.")
    signal: Flag | None = about("Whether a phone has signal at the spot.")


class SpotSpan(Form):
    """A span of a spot with more than two anchors, and what differs under and beside that line."""

    between: tuple[Text, Text] = needed("The two anchors, by their names on this spot.")
    span: Span | None = about("Distance between them, see span_between; else it follows from the plan.")
    ground: Ground | None = about("What differs of the ground under this line.")
    surroundings: Surroundings | None = about("What differs around this line.")


class Guy(Form):
    """A guy or tag line that stays tight and pulls at two anchors of the spot."""

    between: tuple[Text, Text] = needed("The two anchors that it pulls at, by their names on this spot.")
    tension: Tension | None = about("How hard it is pulled.")
    heights: tuple[Height, Height] | None = about("How high it is tied to each of them above the ground.")


class Spot(Form):
    """A place to rig."""

    riglint: Literal["spot/1"] | None = about("Kind and version of the document.")
    title: Text | None = for_people("What the place is called.", "a name changes nothing.")
    note: Text | None = for_people("Anything a reader should know.", "a rule does not judge free text.")
    span: Span | None = about("Distance between the two anchors, see span_between.")
    spans: list[SpotSpan] = about("With more than two anchors: the spans between pairs of them.", default=[])
    guys: list[Guy] = about("Guys and tag lines that stay tight.", default=[])
    span_between: words.SpanBetween = about("What the span was measured between.", default="faces")
    anchors: dict[str, Anchor] = needed("The anchor structures by name.")
    ground: Ground | None = about("The ground under the line.")
    surroundings: Surroundings | None = about("What is nearby: paths, wires, things to fall on.")
    permission: Permission | None = about("Permission to rig here.")
    access: Access | None = about("How help gets here.")
