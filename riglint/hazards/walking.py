"""What goes wrong with people on the line."""

from riglint.hazards.hazard import Hazard
from riglint.model.values.sources import Source

LEASH = Source("US handbook and German alpine club: dynamic, doubled, about 2 m of hang", "unnamed")
THIRD = Source(
    "Swiss federation, ten points: height of L/3 + 3 m or more", "published", ("swiss_ten_points",)
)

WALK = (
    Hazard(
        "multiplier_left_on",
        "walk",
        "Grip and multiplier stay on the rope while people walk, and the peaks go through the grip.",
    ),
    Hazard(
        "brake_not_locked",
        "walk",
        "The brake isn't locked or tied off. A knock or a lever lets the line run.",
        source=Source("a checklist: lock before walking; many brakes have no lock", "unnamed"),
    ),
    Hazard(
        "sag_meets_the_ground",
        "walk",
        "The line sags under the walker until feet or line hit the ground or an obstacle.",
    ),
    Hazard(
        "line_too_high_to_jump_off",
        "walk",
        "The line is too high to jump off calmly.",
        source=Source("EN 1176-1: 3 m of free fall; damping surface above 1 m", "standard", ("en_1176_1",)),
    ),
    Hazard(
        "hard_thing_to_fall_on",
        "walk",
        "There is a stone, root or bench where people land.",
        "You have walked and cleared the ground along the line: no stone, root, bottle or peg "
        "where people land.",
        source=Source("EN 1176-1: clear ground beside by height of fall", "standard", ("en_1176_1",)),
    ),
    Hazard(
        "hard_part_beside_the_walker",
        "walk",
        "A ratchet, pulley or shackle is where a falling head or knee hits it.",
        "Metal at the ends of the line is padded, or nobody walks close enough to fall on it.",
    ),
    Hazard(
        "too_many_on_the_line",
        "walk",
        "More people are on the line than planned.",
    ),
    Hazard(
        "beginner_alone",
        "walk",
        "A beginner walks with nobody beside them.",
        source=Source("a community sheet: a spotter on each side", "unnamed"),
    ),
    Hazard(
        "jumps_on_walking_kit",
        "walk",
        "Jumps and bounces pull far harder than walking, on a rig planned for walking.",
        source=Source("field measurements of one study: bounce 1.4 to 1.6 times the walker", "unnamed"),
    ),
    Hazard(
        "leash_reaches_the_ground",
        "walk",
        "A walker who falls on the leash hits the ground or an obstacle before it holds.",
    ),
    Hazard(
        "leash_short_or_static",
        "walk",
        "A short or static leash catches hard enough to injure.",
        source=LEASH,
    ),
    Hazard(
        "leash_knot_not_checked",
        "walk",
        "Nobody sees a half-tied knot or an open buckle, since everybody ties in by habit.",
        "Before each walk a partner touches both leash knots, the rings and every buckle.",
        "highline",
    ),
    Hazard(
        "leash_single_or_worn",
        "walk",
        "The leash is one strand, or old and worn, and a single cut is enough.",
        "You have looked at the leash and felt both strands over the whole length, most of all at the knots.",
        "highline",
        source=LEASH,
    ),
    Hazard(
        "main_break_drops_walker",
        "walk",
        "The main line breaks and the backup sags so far that the walker meets the ground.",
        source=THIRD,
    ),
    Hazard(
        "backup_too_long",
        "walk",
        "Long loops of backup rub at the lip, catch feet and catch late.",
    ),
    Hazard(
        "backup_too_short",
        "walk",
        "The backup is so short that it shares the load and wears with the main line.",
    ),
    Hazard(
        "taping_wide_or_even",
        "walk",
        "Tapes are far apart or evenly spaced, so that loops hang deep and swing together.",
        "Tapes hold, near the ends most of all. The loops between them are uneven and short.",
        "highline",
        source=Source("a school: 1.5 to 3 m; a vendor: uneven", "unnamed"),
    ),
    Hazard(
        "backup_on_the_same_point",
        "walk",
        "Main line and backup hang on the same point and fail together.",
        source=Source(
            "Swiss federation, ten points: backup anchored on its own", "published", ("swiss_ten_points",)
        ),
    ),
    Hazard(
        "water_shallow_or_trapping",
        "walk",
        "Water is shallow or full of debris, or a leash holds somebody under it.",
        "Somebody swam along the whole line or sounded the water today: deep enough, nothing in it.",
        "waterline",
        source=Source("pool and coasteering pages: depth by height of fall", "unnamed"),
    ),
    Hazard(
        "slack_line_pulls_elsewhere",
        "walk",
        "A slack line pulls down and inward, on a branch or sling rigged for a level pull.",
        "With somebody hanging in the middle, slings and anchors stay put and are pulled where they are strong.",
        "slackrope",
    ),
)
