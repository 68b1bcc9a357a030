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
        "A strength is missing, or a rated load is read as a breaking strength, so nobody sees "
        "the weakest part.",
        source=Source(
            "Directive 2006/42/EC annex I 4.1.2.5: factors of 4 to 7 between the two",
            "standard",
            ("directive_2006_42",),
        ),
    ),
    Hazard(
        "pulled_past_its_ratio",
        "gear",
        "The crew raises the tension until a part has no reserve for the next peak. It breaks under the walker.",
        source=Source(
            "a highline club's safety page: peak no more than a third of breaking strength", "unnamed"
        ),
    ),
    Hazard(
        "units_mixed",
        "gear",
        "Somebody mixes up kilonewton, tonne, decanewton and pound-force, and a strength is far off.",
    ),
    Hazard(
        "sewn_end_counted_in_full",
        "gear",
        "A sewn loop breaks well below its webbing, and nobody allowed for that.",
        source=Source("common practice, no source: an untested sewn end keeps about 0.8", "practice"),
    ),
    Hazard(
        "sewn_at_home",
        "gear",
        "A home-made seam, splice or piece opens at a fraction of the strength it seems to have.",
    ),
    Hazard(
        "knot_in_webbing",
        "gear",
        "Tensioned webbing has a knot, and breaks there at half its strength or less.",
        source=Source(
            "test story of the Austrian federation: a knot keeps 25 to 50 %", "published", ("austrian_ropes",)
        ),
    ),
    Hazard(
        "unlike_webbings_joined",
        "gear",
        "Soft webbing is joined to stiff webbing. Travel, peaks and wear at the join aren't as planned.",
    ),
    Hazard(
        "backup_stretches_otherwise",
        "gear",
        "A stiff backup hangs under a soft main line. It goes tight while people walk, or "
        "catches late and hard.",
    ),
    Hazard(
        "stiff_webbing_short_highline",
        "gear",
        "Webbing for long lines is on a short highline, where every fall hits anchors and walker hard.",
        source=Source("US handbook: no low-stretch webbing below about 45 m", "unnamed"),
    ),
    Hazard(
        "stretch_of_another_fibre",
        "gear",
        "The stretch in the file belongs to another webbing, so sag, peaks and the catch are wrong.",
    ),
    Hazard(
        "webbing_below_its_use",
        "gear",
        "Somebody uses webbing that is too weak, because it was at hand.",
        source=Source("ISA notice 41, 2022: webbing classes", "published", ("isa_webbing_2022",)),
    ),
    Hazard(
        "rope_outside_brake_range",
        "gear",
        "The rope is too thin or too thick for brake or grip, and slips or jams.",
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
        "A dynamic rope in the pulley system wastes travel, and stores energy that comes back "
        "when something fails.",
    ),
    Hazard(
        "connector_pulled_three_ways",
        "gear",
        "A sling that opens wide in a carabiner pulls it three ways. No carabiner is rated for that.",
        source=Source("test digests and a circus accident finding: use a shackle", "unnamed"),
    ),
    Hazard(
        "aluminium_in_the_line",
        "gear",
        "An aluminium connector carries the line cycle after cycle and breaks without warning.",
        source=CYCLES,
    ),
    Hazard(
        "gate_does_not_lock",
        "gear",
        "A gate without a lock works open on the line. An open connector holds a third.",
        source=Source(
            "accounts of two broken connectors; EN 12275 open-gate strengths", "standard", ("en_12275",)
        ),
    ),
    Hazard(
        "cord_as_load_bearer",
        "gear",
        "Thin accessory cord does a rope's work, and breaks first at its knot.",
        source=Source("EN 564: breaking strength of cord by its diameter", "standard", ("en_564",)),
    ),
    Hazard(
        "check_overdue",
        "gear",
        "No competent person has checked a piece for a year or more. It goes on the line, damage included.",
        source=Source("EN 365 practice: at least every twelve months", "standard", ("en_365",)),
    ),
    Hazard(
        "gear_too_old",
        "gear",
        "Textile gear of unknown or great age no longer holds its label.",
        source=Source("makers' and trade limits: ten years", "unnamed"),
    ),
    Hazard(
        "bad_event_forgotten",
        "gear",
        "A piece took a hard catch, a cut or acid, and goes back into the store as if nothing had happened.",
        source=Source(
            "29 CFR 1926.251(e): out of service at once after acid, melting, cuts, worn stitches",
            "standard",
            ("osha_1926_251", "wac_296_155_55820"),
        ),
    ),
    Hazard(
        "recalled_piece_in_use",
        "gear",
        "A batch is recalled. One piece of it is in the rig, because nobody kept the serial numbers.",
    ),
    Hazard(
        "sling_without_label",
        "gear",
        "A sling's label is worn off, so nobody knows its rating.",
        source=Source("EN 1492: no use without a readable label", "standard", ("en_1492",)),
    ),
    Hazard(
        "colour_taken_for_label",
        "gear",
        "Somebody picks a sling by its colour, or a climbing sling for a lifting sling.",
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
        "Metal is the weakest part. It flies further and hits harder than webbing.",
        source=Source("accounts: a connector flew about 9 m into a knee", "unnamed"),
    ),
    Hazard(
        "heat_or_chemicals",
        "gear",
        "Gear was near acid, fuel or heat. It is weaker and hardly shows it.",
        "No textile smells, or is stiff, glazed or stained. None was near a battery, fuel or heat.",
        source=Source(
            "29 CFR 1926.251(e): no nylon near acids, no polyester near caustics",
            "standard",
            ("osha_1926_251",),
        ),
    ),
    Hazard(
        "unrated_hardware",
        "gear",
        "A link or pulley with no figure on it carries the line.",
        "Every metal part that carries the line has a figure stamped on it, the same as in the file.",
    ),
    Hazard(
        "one_piece_in_two_places",
        "gear",
        "One piece is in two places or two rigs on paper. On site something unknown fills the gap.",
        "Every piece in the file is here, and you rig nothing else.",
    ),
    Hazard(
        "piece_shorter_than_planned",
        "gear",
        "A webbing, rope or leash is shorter than planned, and the end that holds it runs out.",
    ),
)
