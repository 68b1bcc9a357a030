"""What goes wrong between anchor and webbing."""

from riglint.hazards.hazard import Hazard
from riglint.model.values.sources import Source

MODES = Source("EN 1492 mode factors, from a sling user manual", "standard", ("en_1492",))
RINGS = Source("US handbook: the forgotten ring is a common error; check it while building", "unnamed")

CONNECT = (
    Hazard(
        "protector_too_short",
        "connect",
        "Beyond the protector the sling lies on bare bark, and rubs down to living wood.",
        source=Source("geometry: the arc that the sling lies on", "own"),
    ),
    Hazard(
        "protector_too_narrow",
        "connect",
        "The sling spreads or creeps off a narrow protector.",
        "With tension on, each sling is on its protector over its whole width.",
        "tree",
    ),
    Hazard(
        "sling_short_for_girth",
        "connect",
        "One sling goes on every tree. Round a thick one it barely closes, so its legs pull far apart.",
        source=Source("geometry of a sling round a trunk", "own"),
    ),
    Hazard(
        "sling_legs_too_wide",
        "connect",
        "The legs of a sling open so wide that each carries as much as the line or more.",
        source=MODES,
    ),
    Hazard(
        "choke_counted_as_basket",
        "connect",
        "A choked sling is credited with the strength of a basket.",
        source=MODES,
    ),
    Hazard(
        "sling_hitched_to_sling",
        "connect",
        "A lark's foot joins two slings and halves their strength.",
        source=Source("test digest: a sling in a sling goes at about half", "unnamed"),
    ),
    Hazard(
        "band_folded_in_shackle",
        "connect",
        "A wide band bunches in a narrow bow, and its edge carries everything.",
        source=Source("sling user manual: radius at least 0.75 of the bearing width", "unnamed"),
    ),
    Hazard(
        "sling_knotted_or_twisted",
        "connect",
        "A sling is knotted to shorten it, or is twisted, and loses much of its strength.",
        "No sling is knotted or twisted. Each lies flat round its anchor.",
    ),
    Hazard(
        "sling_off_the_lines_height",
        "connect",
        "Sling and line don't point at each other, so the line lifts the sling or drags it down.",
    ),
    Hazard(
        "sling_slides_down",
        "connect",
        "A sling slides down a smooth or tapering trunk, and the line snaps tight with a jerk.",
        "You have pulled each sling down by hand and it stays. A mark on the trunk shows if it creeps.",
        "tree",
    ),
    Hazard(
        "shackle_pulled_sideways",
        "connect",
        "A shackle is loaded across its bow, where it holds half.",
        "With hand tension on, every shackle is pulled in line, pin to crown. None lies on its side.",
        source=Source("four makers and port handbooks: 70 % at 45°, 50 % at 90°", "unnamed"),
    ),
    Hazard(
        "shackle_wrong_way_round",
        "connect",
        "The load is on one ear, or webbing runs on the pin. The shackle spreads or the textile is cut.",
        "Each shackle carries its load in the middle of pin and bow. Nothing that moves touches a pin.",
        source=Source("port handbook: load centred on the pin", "unnamed"),
    ),
    Hazard(
        "rope_turns_pin_open",
        "connect",
        "A rope that runs over a screw pin unscrews it.",
        "No rope runs over a screw pin, with the pulley system working or at rest.",
        "haul",
        source=Source(
            "shackle makers and lifting rules: nothing that can turn the pin",
            "standard",
            ("wac_296_155_33905",),
        ),
    ),
    Hazard(
        "pin_works_loose",
        "connect",
        "A pin that isn't screwed home, or isn't tied for a long stay, comes out by itself.",
        source=Source(
            "shackle makers: screwed home, moused if it stays up", "standard", ("wac_296_155_33905",)
        ),
    ),
    Hazard(
        "connector_on_its_side",
        "connect",
        "A connector lies across or on its nose, where it holds a third or a tenth.",
        "Every connector hangs free, pulled along its spine, with nothing pressing on gate or nose.",
        source=Source(
            "EN 12275 cross strengths; test digest: nose-hooked near 2 kN", "standard", ("en_12275",)
        ),
    ),
    Hazard(
        "metal_on_an_edge",
        "connect",
        "Metal is levered over a rock edge until it bends or opens.",
        "With tension on, all metal hangs clear of every edge.",
        "edge",
    ),
    Hazard(
        "line_saws_on_an_edge",
        "connect",
        "Webbing or backup runs over a bare edge, and the edge saws through it.",
        "Pads are under main line and backup at every edge, tied so that they stay.",
        "edge",
        source=Source("ISA and federations: no textile over a bare edge", "published", ("isa_webbing_2022",)),
    ),
    Hazard(
        "knot_rolls_out",
        "connect",
        "A knot with a short tail creeps with every load and comes undone.",
        "Every knot is dressed and set, with a tail of ten rope diameters.",
        source=Source("encyclopedia article on the water knot: tails of 75 mm (3 in)", "unnamed"),
    ),
    Hazard(
        "rope_end_lets_go",
        "connect",
        "A rope end was never tied, or its knot slips, rolls or shakes loose, and the load runs off.",
        "Every rope end is sewn, or tied with a figure-eight, dressed, set and pulled tight by hand.",
    ),
    Hazard(
        "chain_out_of_order",
        "connect",
        "A part is missing, doubled or in the wrong place, so the load runs another way than you think.",
        "Someone who did not rig followed the load by hand from anchor to anchor, and the parts match the file.",
    ),
    Hazard(
        "ring_not_on_the_line",
        "connect",
        "The ends are closed and the leash ring isn't on the line. A walker who ties in hangs on nothing.",
        "The leash ring was on the line before the ends were closed.",
        "highline",
        source=RINGS,
    ),
    Hazard(
        "ring_on_main_only",
        "connect",
        "The ring runs on the main line only, and the backup catches nobody.",
        source=RINGS,
    ),
)
