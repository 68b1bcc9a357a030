"""Values that the mechanics needs and a rig file does not give: each stands here once, with its source.

A club's policy may replace any of them as `model.<name>`.
"""

from functools import cache
from typing import Literal, NamedTuple

from riglint.model.sources import OWN, PRACTICE, Source
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
        return _si(self.text, self.dimension)


@cache  # asked for again and again, and never another
def _si(text: str, dimension: Dimension | None) -> float:
    return float(text) if dimension is None else parse_quantity(text, dimension).si


EFFICIENCY_SOURCES = Source(
    "tests and tables: rescue pulleys .75-.90 (Piatt; Prattley 2016; Pöysti 2020), carabiners .48-.60 (Stock; "
    "Prattley), roller sheaves .96-.98 (wire rope manuals); the values are chosen between these",
    "published",
)

DEFAULTS: dict[str, Default] = {
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
        "0.5", None, "lower", "tension left when the rope is drawn through the brake", PRACTICE
    ),
    "reeving": Default(
        "1.0 m", "length", "higher", "rope in the blocks, the brake and the dead end", PRACTICE
    ),
    "overshoot_pull": Default(
        "0.5 kN", "force", "higher", "what one person can pull in a short heave", PRACTICE
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
        "0.80", None, "lower", "strength kept at a sewn end without its own figure", PRACTICE
    ),
    "webbing_anchor": Default(
        "0.90", None, "lower", "strength of the webbing kept in a webbing anchor", PRACTICE
    ),
    "webbing_knot": Default(
        "0.30",
        None,
        "lower",
        "strength of the webbing kept at a knot",
        Source("federation test story: knots keep roughly a quarter to a half", "published"),
    ),
    "sling_hitched": Default(
        "0.5",
        None,
        "lower",
        "strength that a sling keeps where it is hitched to another sling or to metal",
        Source("test digest: girth hitch sling to sling down to 50 %, on small metal below", "published"),
    ),
    "wet_polyamide": Default(
        "0.85",
        None,
        "lower",
        "strength that wet polyamide keeps",
        Source("UFC 4-159-03 table note and three knot and rope handbooks: 5-25 % lost", "published"),
    ),
    "sling_factor": Default(
        "5", None, "lower", "breaking strength over rated load of a sling without a standard", PRACTICE
    ),
    "metal_factor": Default(
        "4",
        None,
        "lower",
        "breaking strength over rated load of metal without a standard",
        Source("Directive 2006/42/EC, annex I, 4.1.2.5 e", "standard"),
    ),
    "factor_en_1492": Default(
        "7",
        None,
        "lower",
        "breaking strength over rated load, EN 1492",
        Source("Directive 2006/42/EC, annex I, 4.1.2.5 d", "standard"),
    ),
    "factor_en_13889": Default(
        "5", None, "lower", "breaking strength over rated load, EN 13889", Source("EN 13889", "memory")
    ),
    "air_density": Default(
        "1.25", None, "higher", "density of air, kg/m³", Source("EN 1991-1-4", "standard")
    ),
    "drag": Default(
        "2.0",
        None,
        "higher",
        "drag number of a flat band across the wind",
        Source("Aeronautical Engineer's Data Book p. 95: 1.98", "published"),
    ),
}

KNOTS_IN_ROPE: dict[str, float] = {
    "none": 1.0,
    "figure_eight": 0.70,
    "figure_nine": 0.70,
    "overhand": 0.60,
    "double_overhand": 0.60,
    "bowline": 0.60,
    "butterfly": 0.60,
    "double_fisherman": 0.65,
    "clove_hitch": 0.60,
    "round_turn": 0.70,
    "barrel": 0.65,
    "water_knot": 0.60,
    "other": 0.50,
    "sewn": 0.90,
    "spliced": 0.90,
}
KNOTS_SOURCE = Source(
    "chosen from a rescue training table and rope notes, where those name no knot from HSE CRR 364/2001 as remembered; "
    "they differ by 20 points, and a 1946-1970 handbook goes down to 45 % for overhand and figure-eight",
    "memory",
)
