"""What goes wrong when gear is picked from the shelf."""

from riglint.hazards.hazard import Hazard
from riglint.model.values.sources import Source

CYCLES = Source(
    "Schambron & Uggowitzer 2009: closed aluminium connectors broke at down to half in dynamic tests",
    "published",
    ("schambron_uggowitzer_2009",),
)

GEAR = (
    Hazard(
        "strength_unknown",
        "gear",
        "A strength is not on file, or a rated load is read as a breaking strength, so the weakest part hides.",
        source=Source(
            "Directive 2006/42/EC annex I 4.1.2.5: factors of 4 to 7 between the two",
            "standard",
            ("directive_2006_42",),
        ),
    ),
    Hazard(
        "pulled_past_its_ratio",
        "gear",
        "Tension is raised until a part has no reserve left for the next peak, and it breaks under somebody.",
        source=Source(
            "a highline club's safety page: peak no more than a third of breaking strength", "unnamed"
        ),
    ),
    Hazard(
        "units_mixed",
        "gear",
        "Kilonewton, tonne, decanewton and pound-force are taken for one another, and a strength is off by far.",
    ),
    Hazard(
        "sewn_end_counted_in_full",
        "gear",
        "A sewn end breaks well below the webbing that it ends, and nobody took that off.",
        source=Source("common practice, no source: an untested sewn end keeps about 0.8", "practice"),
    ),
    Hazard(
        "sewn_at_home",
        "gear",
        "A seam, splice or piece was made at home, and opens at a fraction of what it looks like.",
    ),
    Hazard(
        "knot_in_webbing",
        "gear",
        "Tensioned webbing is knotted, and it breaks at the knot at half its strength or less.",
        source=Source(
            "test story of the Austrian federation: a knot keeps 25 to 50 %", "published", ("austrian_ropes",)
        ),
    ),
    Hazard(
        "unlike_webbings_joined",
        "gear",
        "Soft webbing is joined to stiff, and travel, peaks and wear at the join are not what was planned.",
    ),
    Hazard(
        "backup_stretches_otherwise",
        "gear",
        "A stiff backup hangs under a soft main line and goes taut while people walk, or catches late and hard.",
    ),
    Hazard(
        "stiff_webbing_short_highline",
        "gear",
        "Webbing for long lines is put on a short highline, where every fall hits anchors and walker hard.",
        source=Source("US handbook: no low-stretch webbing below about 45 m", "unnamed"),
    ),
    Hazard(
        "stretch_of_another_fibre",
        "gear",
        "The stretch on file is that of another webbing, so sag, peaks and the catch come out otherwise than computed.",
    ),
    Hazard(
        "webbing_below_its_use",
        "gear",
        "Webbing too weak for what hangs on it is used because it was at hand.",
        source=Source("ISA notice 41, 2022: webbing classes", "published", ("isa_webbing_2022",)),
    ),
    Hazard(
        "rope_outside_brake_range",
        "gear",
        "The rope is thinner or thicker than brake or grip are made for, and slips or jams.",
        source=Source("EN 567, EN 12841: only ropes in the marked range", "standard", ("en_567", "en_12841")),
    ),
    Hazard(
        "rope_wider_than_sheave",
        "gear",
        "The rope does not fit the groove, rides on the cheeks and is crushed or cut.",
        source=Source("EN 12278 in summary: the groove takes the greatest rope", "standard", ("en_12278",)),
    ),
    Hazard(
        "rope_bent_sharply",
        "gear",
        "A small sheave bends the rope so sharply that it loses strength and much of the pull.",
        source=Source("rescue texts: losses start below a bend of four rope diameters", "unnamed"),
    ),
    Hazard(
        "climbing_rope_in_haul",
        "gear",
        "A dynamic rope in the pulley eats up the travel and stores energy that comes back when something goes.",
    ),
    Hazard(
        "connector_pulled_three_ways",
        "gear",
        "A sling that opens wide in a carabiner pulls it three ways, for which none is rated.",
        source=Source("test digests and a circus accident finding: use a shackle", "unnamed"),
    ),
    Hazard(
        "aluminium_in_the_line",
        "gear",
        "An aluminium connector carries the line cycle after cycle and breaks without a warning.",
        source=CYCLES,
    ),
    Hazard(
        "gate_does_not_lock",
        "gear",
        "A gate without a lock works open on the line, and an open connector holds a third.",
        source=Source(
            "accounts of two broken connectors; EN 12275 open-gate strengths", "standard", ("en_12275",)
        ),
    ),
    Hazard(
        "cord_as_load_bearer",
        "gear",
        "Thin accessory cord does a rope's work, and the knot in it goes first.",
        source=Source("EN 564: breaking strength of cord by its diameter", "standard", ("en_564",)),
    ),
    Hazard(
        "check_overdue",
        "gear",
        "Nobody competent has looked at a piece for a year or more, and its damage goes on the line.",
        source=Source("EN 365 practice: at least every twelve months", "standard", ("en_365",)),
    ),
    Hazard(
        "gear_too_old",
        "gear",
        "Textile gear of unknown or great age has lost what its label still claims.",
        source=Source("makers' and trade limits: ten years", "unnamed"),
    ),
    Hazard(
        "bad_event_forgotten",
        "gear",
        "A piece took a hard catch, a cut or acid, and goes back on the shelf as if nothing had been.",
        source=Source(
            "29 CFR 1926.251(e): out of service at once after acid, melting, cuts, worn stitches",
            "standard",
            ("osha_1926_251", "wac_296_155_55820"),
        ),
    ),
    Hazard(
        "recalled_piece_in_use",
        "gear",
        "A batch was called back or warned of, and one of it is in the rig because serials were not kept.",
    ),
    Hazard(
        "sling_without_label",
        "gear",
        "A sling's label is worn off, so nobody knows what it may bear.",
        source=Source("EN 1492: no use without a readable label", "standard", ("en_1492",)),
    ),
    Hazard(
        "colour_taken_for_label",
        "gear",
        "A sling is taken by its colour for one of a higher rating, or a climbing sling for a lifting one.",
        source=Source("EN 1492 colour code, from a sling user manual", "standard", ("en_1492",)),
    ),
    Hazard(
        "wet_nylon_counted_dry",
        "gear",
        "Nylon gets wet and weaker, and the plan counts it as dry.",
        source=Source(
            "three knot and rope books: 5 to 25 % less when wet",
            "published",
            ("ufc_4_159_03", "constantino_knots"),
        ),
    ),
    Hazard(
        "metal_goes_first",
        "gear",
        "What breaks first is metal, which flies further and hits harder than webbing.",
        source=Source("accounts: a connector flew about 9 m into a knee", "unnamed"),
    ),
    Hazard(
        "heat_or_chemicals",
        "gear",
        "Gear lay near acid, fuel or heat, and is weaker in a way that hardly shows.",
        "No textile smells, is stiff, glazed or stained; none lay beside a battery, fuel or heat.",
        source=Source(
            "29 CFR 1926.251(e): no nylon near acids, no polyester near caustics",
            "standard",
            ("osha_1926_251",),
        ),
    ),
    Hazard(
        "unrated_hardware",
        "gear",
        "A link or pulley from a shop without any figure on it carries the line.",
        "Every metal part that carries the line has a figure stamped on it, and it is the one on file.",
    ),
    Hazard(
        "one_piece_in_two_places",
        "gear",
        "One piece stands in two places or two rigs on paper, and on site something unknown fills the gap.",
        "Every piece that the file names lies here, and nothing else is being rigged.",
    ),
    Hazard(
        "piece_shorter_than_planned",
        "gear",
        "A webbing, rope or leash is shorter than the plan takes it to be, and its holding end is what comes short.",
    ),
)
