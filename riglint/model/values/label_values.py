"""Between which breaking strengths the label of a piece can lie, by what the piece is made of and how large it is.

Wide on purpose: inside a band a label may still be wrong, outside it cannot be right. What a fibre can do at all is
published; how much of that a band, a rope or a bar keeps, and what exists of each kind, is common practice.
"""

from typing import Literal, NamedTuple

from riglint.model.values.sources import PRACTICE, Source

Of = Literal["width", "mass", "area", "kind", "stiffness"]


class LabelBand(NamedTuple):
    """Least and most of one figure, as a file would write them."""

    least: str
    most: str
    words: str  # what the figure is of
    source: Source = PRACTICE


FIBRE = Source(
    "specific strength of fibres: polyamide and polyester 0.84 N/tex, polypropylene 0.73, aramid 2.0, UHMWPE 2.7 to "
    "3.1, table 1 of a paper on deep-water moorings; a band or a rope keeps a sixth to nearly all of it",
    "published",
    ("fibre_properties",),
)
CORD = Source(
    "EN 564: 0.2·d² kN; EN 1891 and EN 892 ropes lie at 0.2 to 0.33·d²; slick fibres to four times that",
    "standard",
    ("en_564", "en_1891"),
)
BARS = Source("tables of bow shackles, links and rings by bar size: 0.4 to 0.8·d² kN, alloy to 1.2", "memory")
SLINGS = Source("round slings by rated load and width, EN 1492-2 with its factor of 7", "memory")

# N for each mm of a flat band's width.
PER_WIDTH: dict[str, LabelBand] = {
    "polyamide": LabelBand("200", "2400", "mm of polyamide webbing"),
    "polyester": LabelBand("200", "2400", "mm of polyester webbing"),
    "uhmwpe": LabelBand("400", "5000", "mm of UHMWPE webbing"),
    "aramid": LabelBand("400", "4000", "mm of aramid webbing"),
    "polypropylene": LabelBand("100", "1500", "mm of polypropylene webbing"),
    "mixed": LabelBand("200", "5000", "mm of webbing of mixed fibres"),
    "flat_sling": LabelBand("400", "6000", "mm of flat sling"),
}
# N for each gram of a metre.
PER_MASS: dict[str, LabelBand] = {
    "polyamide": LabelBand("120", "900", "g/m of polyamide", FIBRE),
    "polyester": LabelBand("120", "870", "g/m of polyester", FIBRE),
    "uhmwpe": LabelBand("300", "3300", "g/m of UHMWPE", FIBRE),
    "aramid": LabelBand("200", "2200", "g/m of aramid", FIBRE),
    "polypropylene": LabelBand("90", "750", "g/m of polypropylene", FIBRE),
    "mixed": LabelBand("120", "3300", "g/m of mixed fibres", FIBRE),
}
# N for each square millimetre of diameter (or width, of a round sling laid flat) squared.
PER_AREA: dict[str, LabelBand] = {
    "rope": LabelBand("80", "400", "rope", CORD),
    "rope_polypropylene": LabelBand("50", "280", "polypropylene rope", CORD),
    "rope_slick": LabelBand("120", "1300", "UHMWPE or aramid rope", CORD),
    "round_sling": LabelBand("8", "150", "round sling", SLINGS),
    "round_sling_slick": LabelBand("15", "700", "UHMWPE or aramid round sling", SLINGS),
    "bar": LabelBand("150", "1300", "bar", BARS),
    "bar_aluminium": LabelBand("80", "600", "aluminium bar", BARS),
    "jaw": LabelBand("50", "520", "jaw", BARS),
}
STIFFNESS_SOURCE = Source(
    "stretch at break and under rated load of nylon, polyester, aramid and UHMWPE (knot handbooks, UFC 4-159-03 table "
    "6-8, sling tables); the bands round them are our own choice",
    "own",
)
# Share of the breaking strength over stretch, (T ÷ MBS) ÷ ε, at the last point of a stretch table.
STIFFNESS: dict[str, LabelBand] = {
    "polyamide": LabelBand("0.5", "4.5", "polyamide webbing", STIFFNESS_SOURCE),
    "polyester": LabelBand("1.6", "14", "polyester webbing", STIFFNESS_SOURCE),
    "uhmwpe": LabelBand("5", "60", "UHMWPE webbing", STIFFNESS_SOURCE),
    "aramid": LabelBand("5", "60", "aramid webbing", STIFFNESS_SOURCE),
    "polypropylene": LabelBand("0.6", "10", "polypropylene webbing", STIFFNESS_SOURCE),
    "mixed": LabelBand("0.8", "60", "webbing of mixed fibres", STIFFNESS_SOURCE),
    "rope_dynamic": LabelBand("0.15", "3", "dynamic rope", STIFFNESS_SOURCE),
    "rope_polyamide": LabelBand("0.5", "6", "polyamide rope", STIFFNESS_SOURCE),
    "rope_polyester": LabelBand("0.8", "14", "polyester rope", STIFFNESS_SOURCE),
    "rope_polypropylene": LabelBand("0.5", "10", "polypropylene rope", STIFFNESS_SOURCE),
    "rope_slick": LabelBand("3", "60", "UHMWPE or aramid rope", STIFFNESS_SOURCE),
    "rope_mixed": LabelBand("0.5", "60", "rope of mixed fibres", STIFFNESS_SOURCE),
}
# What exists of each kind at all.
BY_KIND: dict[str, LabelBand] = {
    "webbing": LabelBand("5 kN", "150 kN", "webbing"),
    "sewn_end": LabelBand("4 kN", "150 kN", "sewn loop"),
    "webbing_anchor": LabelBand("12 kN", "150 kN", "webbing anchor"),
    "round_sling": LabelBand("8 kN", "1500 kN", "round sling"),
    "flat_sling": LabelBand("8 kN", "1500 kN", "flat sling"),
    "shackle": LabelBand("8 kN", "450 kN", "shackle"),
    "connector": LabelBand("10 kN", "90 kN", "connector"),
    "quick_link": LabelBand("8 kN", "150 kN", "quick link"),
    "ring": LabelBand("8 kN", "150 kN", "ring"),
    "swivel": LabelBand("10 kN", "150 kN", "swivel"),
    "plate": LabelBand("12 kN", "200 kN", "plate"),
    "pulley": LabelBand("8 kN", "150 kN", "pulley"),
    "puller": LabelBand("8 kN", "150 kN", "tensioner"),
    "rope": LabelBand("1.5 kN", "200 kN", "rope"),
    "cord": LabelBand("0.8 kN", "60 kN", "cord"),
    "leash": LabelBand("8 kN", "80 kN", "leash"),
    "harness": LabelBand("8 kN", "60 kN", "harness"),
    "brake": LabelBand("6 kN", "60 kN", "brake"),
    "grip": LabelBand("3 kN", "60 kN", "rope grip"),
}
TABLES: dict[Of, dict[str, LabelBand]] = {
    "width": PER_WIDTH,
    "mass": PER_MASS,
    "area": PER_AREA,
    "kind": BY_KIND,
    "stiffness": STIFFNESS,
}
UNITS: dict[Of, str] = {
    "width": "N for each mm of width",
    "mass": "N for each g/m",
    "area": "N for each mm² of its size squared",
    "kind": "",
    "stiffness": "share of breaking strength over stretch",
}
