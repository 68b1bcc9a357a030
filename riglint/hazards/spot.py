"""What goes wrong at the spot and its anchors."""

from riglint.hazards.hazard import Hazard
from riglint.model.values.sources import Source

BOLT = Source("EN 959:2018: 25 kN across, 15 kN along the bolt", "standard", ("en_959",))
TREES = Source(
    "winching tests of more than 280 trees, Forests 14(3) 533, 2023", "published", ("detter_2023",)
)

SPOT = (
    Hazard(
        "span_wrong",
        "spot",
        "The span was paced or guessed, so webbing, travel and sag aren't as planned.",
        "You have measured the span with a tape or range finder, between the points named in the file.",
    ),
    Hazard(
        "tree_too_thin",
        "spot",
        "A tree that looked thick enough bends, breaks or is pulled over.",
        source=Source(
            "DIN 79400 as carried by Swiss, Indian and German federations: 30 cm",
            "standard",
            ("din_79400", "swiss_ten_principles", "portuguese_rules"),
        ),
    ),
    Hazard(
        "lines_share_an_anchor",
        "spot",
        "Several lines pull at one tree, bolt or rock; each is fine by itself, and together they are too much.",
        "Every line that shares an anchor with this one or crosses it today is on file.",
    ),
    Hazard(
        "lines_meet",
        "spot",
        "One line sags or swings onto another, or a walker falls onto the people or the line beside it.",
    ),
    Hazard(
        "help_counted_twice",
        "spot",
        "One rescuer is counted on for two lines, and somebody hangs on the second one.",
    ),
    Hazard(
        "tree_sick_or_forked",
        "spot",
        "A rotten, dead or V-forked tree splits, or a dead limb falls on people below.",
        "You have looked at each tree from root to crown: no rot, fungus or crack, no dead limb over people.",
        "tree",
    ),
    Hazard(
        "roots_lift",
        "spot",
        "Soft or shallow ground lets the root plate lift, and the whole tree comes over.",
        "Somebody watched the ground round each trunk at the first tension. Nothing lifts, cracks or moves.",
        "tree",
        source=TREES,
    ),
    Hazard(
        "sling_high_on_trunk",
        "spot",
        "A sling far up the trunk levers at stem and roots.",
    ),
    Hazard(
        "bolt_pulled_out",
        "spot",
        "The line pulls along a bolt instead of across it, where it holds much less.",
        "You have looked at each bolt along the line: the pull goes across the bolt, as the file says.",
        "bolts",
        source=BOLT,
    ),
    Hazard(
        "bolts_share_a_cone",
        "spot",
        "Bolts are too close to each other or to an edge, and one cone of rock comes out with both.",
        source=Source("rope access manual: 12 mm bolts in pairs, 150 mm apart or more", "unnamed"),
    ),
    Hazard(
        "rock_or_bolt_unknown",
        "spot",
        "Somebody trusts an unknown bolt in unknown rock as if it were tested.",
        "Each bolt is tight, not rusted or bent. The rock round it rings solid under a hammer.",
        "bolts",
    ),
    Hazard(
        "test_grown_old",
        "spot",
        "People trust a bolt, stake or post for a test that is years old. Rust, frost or rain "
        "have changed it since.",
    ),
    Hazard(
        "end_on_one_point",
        "spot",
        "One bolt, sling or tree alone holds an end of a highline. If it fails, the line drops.",
        source=Source(
            "Swiss federation, ten points: every safety part doubled", "published", ("swiss_ten_points",)
        ),
    ),
    Hazard(
        "legs_share_badly",
        "spot",
        "Legs carry unequal shares, or the master point drops onto the rest when one leg fails.",
        "With tension on, every leg of a spread anchor is tight, and none takes the load alone.",
        "legs",
        source=Source("rescue course cards: equalised, no extension, angles", "unnamed"),
    ),
    Hazard(
        "boulder_moves",
        "spot",
        "A boulder that looked immovable slides or tips, and comes with the line.",
        "Each boulder lies flat and deep, doesn't rock when you push it, and can't tip or roll toward the line.",
        "boulder",
    ),
    Hazard(
        "ground_anchor_pulls_out",
        "spot",
        "A stake or buried anchor comes out of soft ground, or is pulled at an angle that it can't hold.",
        "Each ground anchor is pulled as it was tested, in soil just as firm.",
        "ground",
    ),
    Hazard(
        "post_or_car_as_anchor",
        "spot",
        "Somebody uses a lamp post, sports post, handrail or car because it is there, and it bends or drags.",
        "No anchor is a lamp post, sports post, sign, handrail, chimney or vehicle.",
        "structure",
        source=Source(
            "town rules; arborist rescue manual 2022: a 3 t car drags at about 10 kN on wet grass",
            "published",
            ("portuguese_rules",),
        ),
    ),
    Hazard(
        "ends_unequal",
        "spot",
        "One end is higher, so walkers slide to the low end. Tension and clearance differ from the plan.",
    ),
)
