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
        "The span was paced or guessed, so webbing, travel and sag are not what was planned.",
        "The span was measured with a tape or a range finder, from where the file says to where it says.",
    ),
    Hazard(
        "tree_too_thin",
        "spot",
        "A tree that looked stout enough bends, breaks or is pulled over.",
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
        "A rotten, dead or V-forked tree splits, or a dead limb comes down on whoever stands below.",
        "Each tree was looked at from root to crown: no rot, fungus, crack, and no dead limb over people.",
        "tree",
    ),
    Hazard(
        "roots_lift",
        "spot",
        "Soft or shallow ground lets the root plate lift, and the whole tree comes over.",
        "Somebody watched the ground round each trunk at the first tension: nothing lifts, cracks or moves.",
        "tree",
        source=TREES,
    ),
    Hazard(
        "sling_high_on_trunk",
        "spot",
        "A sling far up the trunk levers at stem and roots with a long arm.",
    ),
    Hazard(
        "bolt_pulled_out",
        "spot",
        "The line pulls along a bolt instead of across it, where it holds much less.",
        "Each bolt was looked at with the line in its direction: it pulls across the bolt, as the file says.",
        "bolts",
        source=BOLT,
    ),
    Hazard(
        "bolts_share_a_cone",
        "spot",
        "Bolts stand too near to each other or to an edge, and one cone of rock comes out with both.",
        source=Source("rope access manual: 12 mm bolts in pairs, 150 mm apart or more", "unnamed"),
    ),
    Hazard(
        "rock_or_bolt_unknown",
        "spot",
        "Somebody else's bolt in unknown rock is trusted like one that was tested.",
        "Each bolt is tight, not rusted or bent, and the rock round it rings solid under a hammer.",
        "bolts",
    ),
    Hazard(
        "test_grown_old",
        "spot",
        "A bolt, stake or post is trusted for a test that is years old, and rust, frost or rain have changed it since.",
    ),
    Hazard(
        "end_on_one_point",
        "spot",
        "One bolt, sling or tree holds an end of a highline alone, and its failure drops the line.",
        source=Source(
            "Swiss federation, ten points: every safety part doubled", "published", ("swiss_ten_points",)
        ),
    ),
    Hazard(
        "legs_share_badly",
        "spot",
        "Legs bear unlike shares, or the point drops onto the rest when one leg goes.",
        "With tension on, every leg of a spread anchor is taut, and none takes the load alone.",
        "legs",
        source=Source("rescue course cards: equalised, no extension, angles", "unnamed"),
    ),
    Hazard(
        "boulder_moves",
        "spot",
        "A boulder that seemed to lie for ever slides or tips, and comes along with the line.",
        "Each boulder lies flat and deep, does not rock when pushed, and cannot tip or roll toward the line.",
        "boulder",
    ),
    Hazard(
        "ground_anchor_pulls_out",
        "spot",
        "A stake or buried anchor comes out of soft ground or at another angle than it is good for.",
        "Each ground anchor is pulled the way that it was tested, in soil as firm as then.",
        "ground",
    ),
    Hazard(
        "post_or_car_as_anchor",
        "spot",
        "A lamp post, sports post, handrail or car is taken because it stands there, and bends or drags.",
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
        "One end lies higher, so walkers slide to the low end and tension and clearance differ from the plan.",
    ),
)
