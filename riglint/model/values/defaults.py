"""Values that the mechanics needs and a rig file does not give: each stands here once, with its source.

A club's policy may replace any of them as `model.<name>`.
"""

from functools import cache
from typing import Literal, NamedTuple

from riglint.model.values.knots import HANDBOOKS, IN_SLICK, KNOTS
from riglint.model.values.label_values import TABLES, UNITS
from riglint.model.values.sources import OWN, PRACTICE, Source
from riglint.read.quantity import Dimension, parse_quantity


class Default(NamedTuple):
    """One value: its text as a file would write it, what it is for, where it comes from."""

    text: str
    dimension: Dimension | None  # None for a plain number
    tighter: Literal["higher", "lower"]  # which way makes the figures more cautious
    about: str
    source: Source

    @property
    def si(self) -> float:
        """The value in SI units."""
        return in_si(self.text, self.dimension)


@cache  # asked for again and again, and never another
def in_si(text: str, dimension: Dimension | None) -> float:
    """Return a value or limit as riglint writes it in SI units; without a dimension it is a plain number."""
    return float(text) if dimension is None else parse_quantity(text, dimension).si


EFFICIENCY_SOURCES = Source(
    "tests and tables: rescue pulleys .75-.90 (Piatt; Prattley 2016; Pöysti 2020), carabiners .48-.60 (Stock; "
    "Prattley), roller sheaves .96-.98 (wire rope manuals); the values are chosen between these",
    "published",
    ("wire_rope_users_manual",),
)

FREE_FALL = Source(
    "EN 1176-1: free height of fall at most 3 m, taken over for lines", "standard", ("en_1176_1",)
)
IMPACT = Source(
    "EN 1176-1: up to a fall of 1.5 m the clear ground round it does not grow with the height; taken over for lines",
    "standard",
    ("en_1176_1",),
)
BOWS = Source("tables of bow and dee shackles", "memory")
SIDE_LOAD = Source(
    "four independent maker and port pages: 45° 70 %, 90° 50 % of the rated load; straight between them",
    "unnamed",
)

IN_USE = Source(
    "fibre ropes stiffen while they are cycled (Banfield and Flory, mooring line tensions in waves, abstract). "
    "With this factor, three lines of one field test come out at or above the measured forces",
    "own",
)
IN_USE_BY_RANGE = Source(
    "fibre ropes stiffen while they are cycled (Banfield and Flory, abstract); no field line of this fibre, so the "
    "highest stiffness that handbooks give over the middle of it, rounded up",
    "own",
)
EA_RANGE = Source(
    "between the elasticity tables of sling makers and rope handbooks (nylon 10 and 6 %, polyester 7 and 3 % at rated "
    "load; break at 3-5 % for UHMWPE), chosen",
    "own",
)
LEASH = Source(
    "drop test of EN 892, 80 kg, factor 1.77: a rope that stops it with 9 kN, F = W + √(W² + 2·W·κ·f) solved for κ",
    "own",
)
LEASH_STATIC = Source(
    "the same formula for the 12 kN that EN 892 allows at most (the limit from memory)", "memory"
)
RELAXES = Source(
    "common practice, no source: textile lines are read again after an hour; the figures are riggers' own",
    "practice",
)
GUST = Source(
    "3 s gust in a 10 min mean over open land: Harper, Kepert and Ginger, WMO/TD-No. 1555, 2010, as remembered",
    "memory",
)
STANDING_BODY = Source(
    "0.84 m² of somebody standing, Hoerner, Fluid-Dynamic Drag, 1965, as remembered; rounded up for clothes and arms",
    "memory",
)

DEFAULTS: dict[str, Default] = {
    # How many times as stiff as its listed curve webbing or rope is once it has been worked, by fibre.
    "in_use.polyamide": Default(
        "2.2", None, "higher", "stiffness in use over that of the listed curve, polyamide", IN_USE
    ),
    "in_use.polyester": Default("1.5", None, "higher", "the same for polyester", IN_USE),
    "in_use.uhmwpe": Default("1.4", None, "higher", "the same for UHMWPE", IN_USE_BY_RANGE),
    "in_use.aramid": Default("1.4", None, "higher", "the same for aramid", IN_USE_BY_RANGE),
    "in_use.polypropylene": Default("1.5", None, "higher", "the same for polypropylene", IN_USE_BY_RANGE),
    "in_use.unknown": Default(
        "2.2", None, "higher", "the same where the fibre is mixed or not said: the greatest of all", IN_USE
    ),
    "relaxation.polyamide": Default(
        "0.10", None, "higher", "share of its tension that polyamide loses in the first hour", RELAXES
    ),
    "relaxation.polyester": Default("0.05", None, "higher", "the same for polyester", RELAXES),
    "relaxation.uhmwpe": Default("0.08", None, "higher", "the same for UHMWPE, which creeps on", RELAXES),
    "relaxation.aramid": Default("0.03", None, "higher", "the same for aramid", RELAXES),
    "relaxation.polypropylene": Default("0.15", None, "higher", "the same for polypropylene", RELAXES),
    "relaxation.unknown": Default("0.15", None, "higher", "the same where the fibre is not known", RELAXES),
    "gust_factor": Default("1.66", None, "higher", "speed of a gust over that of the mean wind", GUST),
    "body_drag_area": Default(
        "1.0", None, "higher", "drag area Cd·A of somebody standing in the wind, m²", STANDING_BODY
    ),
    "webbing_width": Default(
        "50 mm", "length", "higher", "width of webbing whose width is not said, for the wind on it", PRACTICE
    ),
    "rope_drag": Default(
        "1.2",
        None,
        "higher",
        "drag number of a round rope across the wind",
        Source(
            "Aeronautical Engineer's Data Book p. 95: long cylinder 1.20",
            "published",
            ("aeronautical_data_book",),
        ),
    ),
    "webbing_weighs.least": Default(
        "0.8", None, "lower", "least mass of a metre over the width of webbing, g/m for each mm", PRACTICE
    ),
    "webbing_weighs.most": Default("6", None, "higher", "most of the same", PRACTICE),
    "block_length": Default(
        "0.35 m", "length", "higher", "longest block without its own length, eye to becket", PRACTICE
    ),
    "dead_end_knot": Default(
        "0.15 m",
        "length",
        "higher",
        "length of the knot or eye at the dead end, between the blocks",
        PRACTICE,
    ),
    "tape_mass": Default(
        "2 g/m", "mass_per_length", "higher", "tape between a line and its backup, for each metre", OWN
    ),
    "light_user": Default(
        "50 kg", "mass", "lower", "the lightest adult who walks: the feet stand highest under them", PRACTICE
    ),
    # Stiffness EA over breaking strength of textile without a curve of its own, by fibre.
    "stiffness.polyamide_low": Default(
        "2.0", None, "higher", "EA over strength, polyamide, low end", EA_RANGE
    ),
    "stiffness.polyamide_high": Default("4.5", None, "higher", "the same, high end", EA_RANGE),
    "stiffness.polyester_low": Default(
        "3.0", None, "higher", "EA over strength, polyester, low end", EA_RANGE
    ),
    "stiffness.polyester_high": Default("10", None, "higher", "the same, high end", EA_RANGE),
    "stiffness.uhmwpe_low": Default("15", None, "higher", "EA over strength, UHMWPE, low end", EA_RANGE),
    "stiffness.uhmwpe_high": Default("30", None, "higher", "the same, high end", EA_RANGE),
    "stiffness.unknown_low": Default(
        "3.0", None, "higher", "EA over strength of other fibres, low end", EA_RANGE
    ),
    "stiffness.unknown_high": Default("30", None, "higher", "the same, high end", EA_RANGE),
    "leash_modulus.dynamic": Default(
        "24 kN",
        "force",
        "higher",
        "force that would stretch a leash of dynamic rope to twice its length",
        LEASH,
    ),
    "leash_modulus.low_stretch": Default(
        "45 kN", "force", "higher", "the same for static rope", LEASH_STATIC
    ),
    "leash_modulus.hmpe": Default("300 kN", "force", "higher", "the same for HMPE rope", EA_RANGE),
    "leash_modulus.unknown": Default(
        "45 kN", "force", "higher", "the same where the rope is not known", LEASH_STATIC
    ),
    "ring_friction": Default(
        "0.25",
        None,
        "higher",
        "friction number of a ring on webbing or rope",
        Source(
            "rope on metal 0.14-0.25: Delaney, Physics for Roping Technicians, 2022, p. 88",
            "published",
            ("delaney_roping",),
        ),
    ),
    "bounce_height": Default(
        "0.5 m", "length", "higher", "height a bouncing user drops onto the unloaded line", PRACTICE
    ),
    "surf_height": Default("0.3 m", "length", "higher", "the same for surfing", PRACTICE),
    "jump_height": Default("1.0 m", "length", "higher", "the same for jumping", PRACTICE),
    "harness_above_line": Default(
        "1.0 m", "length", "higher", "height of the harness above the line when standing", PRACTICE
    ),
    "body_below_harness": Default(
        "1.2 m", "length", "higher", "lowest body point below the harness", PRACTICE
    ),
    "life_above": Default(
        "3 m", "length", "lower", "height of the feet above which a fall is taken to kill", FREE_FALL
    ),
    "fall_above": Default(
        "1.5 m", "length", "lower", "height of the feet above which a fall is more than a stumble", IMPACT
    ),
    "fall_energy": Default(
        "1000",
        None,
        "lower",
        "energy in the standing webbing from which a part that goes hurts like a fall, J",
        OWN,
    ),
    "walk_zone": Default(
        "2 m",
        "length",
        "lower",
        "nearest that a user comes to each webbing end, where the plan does not say",
        PRACTICE,
    ),
    "built_ahead": Default(
        "2", None, "lower", "days before its first day on which a line may be built and checked", PRACTICE
    ),
    "reading_apart": Default(
        "0.15",
        None,
        "lower",
        "share by which the webbing that a pulse ran over may be off the computed one: 30 % of the tension",
        OWN,
    ),
    "profile_reach": Default(
        "0.99", None, "higher", "share of the span that a ground profile must reach to be whole", OWN
    ),
    "ring_held": Default(
        "0.3",
        None,
        "lower",
        "share of the webbing from either end beyond which a leash ring stays put on the slack backup; nearer to "
        "the anchor it slides",
        OWN,
    ),
    "genus_spread": Default(
        "0.55",
        None,
        "lower",
        "strength of the weakest kind of a genus over that of the only kind in the tables",
        Source("ash, birch, maple and pine of the tables: weakest over strongest 0.55 to 0.63", "own"),
    ),
    "stem_safety": Default(
        "1.5",
        None,
        "higher",
        "strength of a stem over the stress that it is credited with",
        Source("SAG Baumstatik, load analysis: 1.5", "published", ("sag_baumstatik",)),
    ),
    "bow_to_jaw": Default(
        "0.8", None, "lower", "radius of the inside of a bow over the jaw of its shackle", BOWS
    ),
    "dee_to_jaw": Default("0.5", None, "lower", "the same for a dee", BOWS),
    "hand_tight": Default("0.2 kN", "force", "lower", "tension of a line laid out by hand", PRACTICE),
    "hand_tight_weights": Default(
        "1.5",
        None,
        "lower",
        "hand-tight is at least this many times the weight of the webbing, so that a long line hangs",
        OWN,
    ),
    "sling_seating": Default("0.05 m", "length", "higher", "what a sling gives while it seats", PRACTICE),
    "webbing_anchor_seating": Default(
        "0.05 m", "length", "higher", "what a webbing anchor draws in while it seats", PRACTICE
    ),
    "webbing_anchor_wrap": Default(
        "0.5 m", "length", "higher", "webbing inside one webbing anchor", PRACTICE
    ),
    "protector_thickness": Default("20 mm", "length", "higher", "thickness of a tree protector", PRACTICE),
    "mass.pulley": Default("1.5 kg", "mass", "higher", "mass of a block without its own figure", PRACTICE),
    "mass.plate": Default("1.0 kg", "mass", "higher", "mass of a plate without its own figure", PRACTICE),
    "mass.brake": Default("0.6 kg", "mass", "higher", "mass of a brake without its own figure", PRACTICE),
    "mass.rope": Default(
        "90 g/m", "mass_per_length", "higher", "mass of a metre of rope without its own figure", PRACTICE
    ),
    "reach.shackle": Default("0.05 m", "length", "higher", "length of a shackle in the path", PRACTICE),
    "reach.connector": Default("0.08 m", "length", "higher", "length of a connector in the path", PRACTICE),
    "reach.quick_link": Default("0.05 m", "length", "higher", "length of a quick link in the path", PRACTICE),
    "reach.ring": Default("0.05 m", "length", "higher", "length of a ring in the path", PRACTICE),
    "reach.swivel": Default("0.08 m", "length", "higher", "length of a swivel in the path", PRACTICE),
    "reach.webbing_anchor": Default(
        "0.10 m", "length", "higher", "length of a webbing anchor in the path", PRACTICE
    ),
    "reach.plate": Default("0.12 m", "length", "higher", "length of a plate in the path", PRACTICE),
    "reach.block": Default("0.08 m", "length", "higher", "from the eye of a block to its axle", PRACTICE),
    "reach.sling": Default(
        "0.30 m", "length", "higher", "a sling whose length or trunk is not known", PRACTICE
    ),
    "reach.puller": Default(
        "0.30 m", "length", "higher", "length of a ratchet or lever hoist in the path", PRACTICE
    ),
    "sheave.ball": Default(
        "0.92",
        None,
        "lower",
        "tension out of one ball-bearing sheave, as a share of the tension in",
        EFFICIENCY_SOURCES,
    ),
    "sheave.ball_low": Default("0.88", None, "lower", "low end of the same", EFFICIENCY_SOURCES),
    "sheave.ball_high": Default("0.96", None, "higher", "high end of the same", EFFICIENCY_SOURCES),
    "sheave.bushing": Default("0.80", None, "lower", "the same for a bushed sheave", EFFICIENCY_SOURCES),
    "sheave.bushing_low": Default("0.70", None, "lower", "low end of the same", EFFICIENCY_SOURCES),
    "sheave.bushing_high": Default("0.90", None, "higher", "high end of the same", EFFICIENCY_SOURCES),
    "sheave.none": Default("0.50", None, "lower", "the same for rope over a connector", EFFICIENCY_SOURCES),
    "sheave.none_low": Default("0.45", None, "lower", "low end of the same", EFFICIENCY_SOURCES),
    "sheave.none_high": Default("0.66", None, "higher", "high end of the same", EFFICIENCY_SOURCES),
    "brake_redirect": Default(
        "0.5",
        None,
        "lower",
        "tension left when the rope is drawn through the brake: low end, for what the crew can reach",
        PRACTICE,
    ),
    "brake_redirect_high": Default(
        "0.7", None, "higher", "high end of the same, for what the crew could overshoot to", PRACTICE
    ),
    "brake_holding": Default(
        "0.5",
        None,
        "higher",
        "share of the lead strand's force that an open brake leaves to the hand while lowering",
        PRACTICE,
    ),
    "reeving": Default(
        "1.0 m", "length", "higher", "rope in the blocks, the brake and the dead end", PRACTICE
    ),
    "overshoot_pull": Default(
        "0.5 kN", "force", "higher", "what one person can keep pulling with a good grip", PRACTICE
    ),
    "heave_pull": Default(
        "1.0 kN", "force", "higher", "what one person pulls in a short heave, 0.8-1.0 kN", PRACTICE
    ),
    "heave_stroke": Default("1.0 m", "length", "higher", "rope that one heave takes in", PRACTICE),
    "puller_ratio.ratchet": Default(
        "10",
        None,
        "higher",
        "usual ratio of a hand ratchet: tension over hand force",
        Source("EN 12195-2: 0.5 kN on the handle, 3 to 5 kN in the strap, as remembered", "memory"),
    ),
    "puller_ratio.lever_hoist": Default(
        "30", None, "higher", "usual ratio of a lever hoist: tension over hand force", PRACTICE
    ),
    "puller_ratio.webbing_tackle": Default(
        "5", None, "higher", "usual ratio of a webbing tackle, bends not counted", PRACTICE
    ),
    "webbing_bend_high": Default(
        "0.9", None, "higher", "tension out of one bend of a webbing tackle, high end: over rollers", PRACTICE
    ),
    "bark_holds": Default(
        "0.25", None, "lower", "friction number of rope on bark when it helps to hold", PRACTICE
    ),
    "bark_pulled": Default(
        "0.45", None, "higher", "friction number of rope on bark when it is pulled", PRACTICE
    ),
    "bark.smooth": Default("10 mm", "length", "higher", "thickness of smooth bark", PRACTICE),
    "bark.rough": Default("30 mm", "length", "higher", "thickness of rough bark", PRACTICE),
    "stem_quality.sound": Default(
        "2.0", None, "higher", "strength of small clear specimens over that of a stem that looks sound", OWN
    ),
    "stem_quality.unknown": Default(
        "3.0", None, "higher", "the same for a stem that nobody has looked at", OWN
    ),
    "sewn_end": Default(
        "0.80", None, "lower", "strength kept at a sewn loop without its own figure", PRACTICE
    ),
    "webbing_anchor": Default(
        "0.90", None, "lower", "strength of the webbing kept in a webbing anchor", PRACTICE
    ),
    "webbing_knot": Default(
        "0.30",
        None,
        "lower",
        "strength of the webbing kept at a knot",
        Source(
            "federation test story: knots keep roughly a quarter to a half", "published", ("austrian_ropes",)
        ),
    ),
    "knot_in_uhmwpe": Default(
        "0.30",
        None,
        "lower",
        "strength that any knot leaves in UHMWPE, which is slick and melts early",
        IN_SLICK,
    ),
    "sling_hitched": Default(
        "0.5",
        None,
        "lower",
        "strength that a sling keeps where it is hitched to another sling or to metal",
        Source("test digest: girth hitch sling to sling down to 50 %, on small metal below", "unnamed"),
    ),
    "wet_polyamide": Default(
        "0.85",
        None,
        "lower",
        "strength that wet polyamide keeps",
        Source(
            "UFC 4-159-03 table note and three knot and rope handbooks: 5-25 % lost",
            "published",
            ("ufc_4_159_03", "constantino_knots"),
        ),
    ),
    "knotted_sling": Default(
        "0.50",
        None,
        "lower",
        "strength that a knotted or twisted sling keeps",
        Source("a knotted sling keeps about half; lifting standards forbid it", "practice"),
    ),
    "side_load.45_deg": Default(
        "0.70", None, "lower", "strength that a shackle keeps at 45° of side load", SIDE_LOAD
    ),
    "side_load.90_deg": Default("0.50", None, "lower", "the same at 90°, straight across its bow", SIDE_LOAD),
    "sling_factor": Default(
        "5", None, "lower", "breaking strength over rated load of a sling without a standard", PRACTICE
    ),
    "metal_factor": Default(
        "4",
        None,
        "lower",
        "breaking strength over rated load of metal without a standard",
        Source("Directive 2006/42/EC, annex I, 4.1.2.5 e", "standard", ("directive_2006_42",)),
    ),
    "factor_en_1492": Default(
        "7",
        None,
        "lower",
        "breaking strength over rated load, EN 1492",
        Source("Directive 2006/42/EC, annex I, 4.1.2.5 d", "standard", ("directive_2006_42",)),
    ),
    "factor_en_13889": Default(
        "5",
        None,
        "lower",
        "breaking strength over rated load, EN 13889",
        Source("EN 13889", "memory", ("en_13889",)),
    ),
    "air_density": Default(
        "1.25", None, "higher", "density of air, kg/m³", Source("EN 1991-1-4", "standard", ("en_1991_1_4",))
    ),
    "drag": Default(
        "2.0",
        None,
        "higher",
        "drag number of a flat band across the wind",
        Source("Aeronautical Engineer's Data Book p. 95: 1.98", "published", ("aeronautical_data_book",)),
    ),
}
DEFAULTS |= {
    f"knot.{name}": Default(
        knot.kept, None, "lower", f"strength that a rope keeps: {name.replace('_', ' ')}", HANDBOOKS
    )
    for name, knot in KNOTS.items()
    if knot.kept is not None
}
for _of, _table in TABLES.items():
    for _name, _band in _table.items():
        _what = f"label of a {_band.words}" if _of == "kind" else f"{UNITS[_of]}, {_band.words}"
        _dimension: Dimension | None = "force" if _of == "kind" else None
        DEFAULTS |= {
            f"label.{_of}.{_name}.least": Default(
                _band.least, _dimension, "higher", f"least that is plausible: {_what}", _band.source
            ),
            f"label.{_of}.{_name}.most": Default(
                _band.most, _dimension, "lower", f"most that is plausible: {_what}", _band.source
            ),
        }

# Least and greatest with which the formulas hold, SI; by the beginning of the name.
WITHIN: dict[str, tuple[float, float]] = {
    "air_density": (0.5, 1.6),
    "bark_": (0.01, 1.0),
    "body_drag_area": (0.01, 10.0),
    "brake_": (0.1, 1.0),
    "drag": (0.5, 3.0),
    "gust_factor": (1.0, 5.0),
    "in_use.": (1.0, 10.0),
    "ring_friction": (0.01, 1.0),
    "ring_held": (0.01, 0.5),
    "rope_drag": (0.5, 3.0),
    "sheave.": (0.1, 1.0),
    "stem_quality.": (1.0, 10.0),
    "webbing_bend_high": (0.1, 1.0),
}


def bounds_of(name: str) -> tuple[float, float] | None:
    """Return the least and the greatest value with which the formulas hold, SI; None where any number does."""
    return next((bounds for start, bounds in WITHIN.items() if name.startswith(start)), None)
