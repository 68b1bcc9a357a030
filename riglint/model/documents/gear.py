"""The shelf: one entry for each piece of gear, as its label and the gear book describe it."""

from typing import Literal

from riglint.model.documents.parts import Part
from riglint.model.vocabulary import words
from riglint.model.vocabulary.bounds import (
    Efficiency,
    GearMass,
    Holding,
    LengthAboveZero,
    Strength,
    Thickness,
    Width,
)
from riglint.model.vocabulary.fields import (
    Count,
    Day,
    Flag,
    Form,
    Fraction,
    Length,
    MassPerLength,
    Text,
    Whole,
    about,
    for_people,
    needed,
)
from riglint.model.vocabulary.stretch_table import Stretch


class Event(Form):
    """Something that happened to a piece of gear."""

    date: Day = needed("The day it happened.")
    what: words.EventKind = needed("What happened to the piece.")
    releases: words.EventKind | None = about(
        "Of a release: the kind of event, such as chemical, that the release clears."
    )
    by: Text | None = for_people(
        "The role of the person who checked, repaired or released it.",
        "a role changes no verdict on this day.",
    )
    note: Text | None = for_people("More, in your own words.", "a rule does not judge free text.")


class Gear(Form):
    """One piece of gear. Which keys a kind takes stands in `kinds.GEAR`."""

    kind: words.GearKind = needed("What it is.")
    title: Text | None = for_people("What the crew calls it.", "a name changes nothing.")
    note: Text | None = for_people(
        "Anything a reader should know.", "made_by says who built it; a note can only warn."
    )
    serial: Text | None = for_people(
        "Serial or batch number.", "it tells one piece from another on two rigs."
    )
    material: words.Material | None = about("What carries the load.")
    standard: Text | None = about("The standard on its label, such as EN 1492-2.")
    mbs: Strength | None = about("Breaking strength from the label or the maker.")
    wll: Strength | None = about("Rated load from the label; a mass means its weight.")
    made: Day | None = about("When it was made: month or day from its label.")
    made_by: words.Maker | None = about(
        "Who sewed, spliced or built it: its maker, a workshop, or somebody at home."
    )
    first_used: Day | None = about("When it was first used.")
    inspected: Day | None = about("When a competent person last checked it.")
    label: words.Label | None = about("Whether its label can be read.")
    events: list[Event] = about("What happened to it: hard catches, cuts, repairs and so on.", default=[])
    days_used: Whole | None = about("Days rigged or exposed so far.")
    reach: Length | None = about("Its length in the line when loaded, pin to pin.")

    width: Width | None = about("Width of the flat band.")
    thickness: Thickness | None = about("Thickness of the flat band, sling or protector.")
    length: LengthAboveZero | None = about("Working length; of a round sling half its circumference.")
    mass_per_metre: MassPerLength | None = about("Mass of one metre, unstretched.")
    stretch: Stretch | None = about("Stretch at some tensions, {1 kN: 0.7 %, 5 kN: 2.4 %}.")
    stretch_in_use: Stretch | None = about(
        "The same once it has been worked, where somebody measured it; stiffer than new."
    )
    colour: Text | None = for_people(
        "Colour of a lifting sling, which codes its rated load.",
        "its rated load counts; a colour can only disagree.",
    )

    width_min: Length | None = about("Narrowest webbing the device takes.")
    width_max: Length | None = about("Widest webbing the device takes.")
    shape: words.ShackleShape | None = about("Shape of a shackle: bow (wide) or dee (narrow).")
    pin: words.Pin | None = about("How the pin of a shackle or webbing anchor is held.")
    jaw: Length | None = about("Clear width between the ears of a shackle.")
    connector_class: words.ConnectorClass | None = about("Class letter of EN 12275.")
    gate: words.Gate | None = about("How the gate of a connector locks.")
    hole: Holding | None = about("Breaking strength of one hole of a plate, where its label gives one.")
    mbs_minor: Holding | None = about("Breaking strength across.")
    forged: Flag | None = about("Forged in one piece, without a weld.")

    mass: GearMass | None = about("Mass of a block, plate or brake, which hangs in the line.")
    sheaves: Count | None = about("Number of sheaves side by side in the block.")
    bearing: words.Bearing | None = about("What a sheave turns on.")
    sheave_diameter: Length | None = about("Diameter at the bottom of the groove.")
    efficiency: Efficiency | None = about("Share of the tension that comes out of one sheave, 0 to 1.")
    form: words.PullerForm | None = about("What kind of tensioner: ratchet, lever hoist or webbing tackle.")

    type: words.RopeType | None = about("How a rope is built: low_stretch (semi-static), dynamic or hmpe.")
    diameter: Width | None = about("Diameter of rope, cord or bolt, or of the bar of a ring or shackle.")
    rope_min: Length | None = about("Thinnest rope it takes.")
    rope_max: Length | None = about("Thickest rope it takes.")
    holds: Holding | None = about("Holding load on the label of a brake.")
    max_load: Holding | None = about("Greatest load on the label of a grip.")

    doubled: Flag | None = about("Two independent strands.")
    stretch_per_kn: Fraction | None = about("Stretch of a leash for each kN.")
    radial: Holding | None = about("Strength of a bolt across its axis.")
    axial: Holding | None = about("Strength of a bolt along its axis.")


class Shelf(Form):
    """A club's gear, by the name written on each piece."""

    riglint: Literal["shelf/1"] | None = about("Kind and version of the document.")
    title: Text | None = for_people("Whose gear this is.", "a name changes nothing.")
    note: Text | None = for_people("Anything a reader should know.", "a rule does not judge free text.")
    items: dict[str, Gear] = needed("Each piece under its own name; several that are alike as SH-1 to SH-6.")
    kits: dict[str, list[Part]] = about(
        "Runs of parts, each under a name by which a chain can call it: {kit: tree bag}.", default={}
    )
