"""The line leaves the sling at each end nearly level, and neither lifts it nor drags it down."""

from collections.abc import Iterator
from math import degrees, tan

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    At,
    Case,
    Direction,
    Fault,
    Input,
    LaidSling,
    Limit,
    Placed,
    Remedies,
    Signal,
    anchor_height,
    each_sling,
    either,
    faulty,
    more_tension,
    need_all,
    open_,
    rounded,
    rule,
    sound,
    the_rig,
)

MOST = Limit(
    name="steepest_line",
    text="10 deg",
    dimension="angle",
    tighter="lower",
    because="Beyond about ten degrees bark no longer holds a basket in place.",
    source=PRACTICE,
)
IN_RINGS = {
    f"chain[{n}].{key}": word for n in (2, 10) for key, word in (("hitch", "straight"), ("around", "ring"))
}
CHOKE = "choke the sling round the trunk instead of a basket"


ASKED = (
    "chain[0].height",
    "chain[12].height",
    "chain[5].gear",
    "chain[8].open",
    "plan.standing_tension",
    "shelf[0].items.W-1.mass_per_metre",
    "shelf[0].items.W-1.stretch",
    "spot",
    "spot.ground",
    "spot.ground.profile",
    "spot.span",
)


@rule(
    title="The line pulls its sling up or down the trunk",
    each=the_rig,
    signal=Signal.CAUTION,
    why="A sling that creeps along its trunk strips the bark, and drops the line while people walk.",
    formula="|slope of the standing line at its sling| ≤ steepest",
    limits=(MOST,),
    prevents=("sling_off_the_lines_height", "ends_unequal", "slack_line_pulls_elsewhere"),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("highline"),
        sound("low", {"chain[0].height": "4.1 m"}),
        sound("low", {"chain[0].height": "4.2 m", "chain[2].hitch": "choke", "chain[10].hitch": "choke"}),
        faulty(
            "low",
            {"chain[0].height": "4.2 m"},
            at="chain[0].height",
            signal=Signal.CAUTION,
            shows=("sling_off_the_lines_height", "ends_unequal"),
        ),
        sound("low", {"chain[0].height": "4.2 m", "chain[2].stop_cord": True, "chain[10].stop_cord": True}),
        sound("low", {"chain[0].height": "4.2 m", **IN_RINGS}),
        faulty("low", {"chain[12].height": "4.2 m"}, at="chain[12].height"),
        faulty("low", {"spot.ground.profile[2]": ["16 m", "3 m"]}, at="chain[12].height"),
        faulty(
            "low",
            {"plan.standing_tension": "0.02 kN"},
            at="chain[0].height",
            shows="slack_line_pulls_elsewhere",
        ),  # a slackrope: sag alone
        *(open_("low", {key: REMOVE}, at=key) for key in ASKED),
    ),
)
def slope(case: Case, _rig: None) -> Iterator[Fault]:
    anchors, geometry = case.path.anchors, case.loads.geometry
    need_all(*((one.part.height, case.on_part(one, "height")) for one in anchors))
    geometry.ground()  # asks for a profile that reaches the far end
    rest, most = case.loads.standing.equilibrium, case.limit(MOST)
    slopes = {"a": rest.slope_a_rad, "b": rest.slope_b_rad}
    slung = [side for side in slopes if any(_can_creep(one, case, side) for one in each_sling.of(case))]
    steep = [side for side in slung if abs(slopes[side]) > most]
    # Slopes count downhill from each end: where only one is downhill, the line climbs instead of sagging.
    rises = slopes["a"] * slopes["b"] < 0.0
    if rises and len(steep) > 1:  # one cause, so one finding: at the steeper end
        steep = [max(steep, key=lambda side: abs(slopes[side]))]
    for side in steep:
        first, last = anchors if side == "a" else anchors[::-1]
        down, at = slopes[side], case.on_part(first, "height")
        remedies = _remedies(case, at, first, last) if rises else case.put_right(at, more_tension)
        yield Fault(
            at,
            f"The standing line leaves the sling at '{first.part.at}' "
            f"{rounded(degrees(abs(down)), 'up')}° {'down' if down > 0.0 else 'up'}. At most "
            f"{degrees(most):.3g}°.",
            _level(remedies, geometry.span_m * (tan(abs(down)) - tan(most)), down > 0.0, last.part.at)
            if rises
            else either(CHOKE, *remedies.or_else("tension the line more")),
            value=degrees(abs(down)),
            limit=degrees(most),
            unit="deg",
            inputs=(
                Input("rise from first to last anchor", "Δh", geometry.rise_m, "m"),
                Input("span", "L", geometry.span_m, "m"),
                Input("standing tension", "T0", case.loads.standing.tension_n / 1e3, "kN"),
            ),
            state="standing",
            remedies=remedies,
        )


def _can_creep(sling: LaidSling, case: Case, side: str) -> bool:
    """Return whether a sling of the main line only lies round its trunk or boulder on one side."""
    part, held = sling.placed.part, sling.contact.kind in {"tree", "boulder"}
    if not held or sling.path is not case.path or case.path.side(sling.placed) != side:
        return False
    return part.hitch not in {"choke", "larks_foot", "wrap"} and not part.stop_cord


def _remedies(case: Case, at: At, first: Placed, last: Placed) -> Remedies:
    """Return what brings a climbing line nearer to level: one end up, or the other down."""
    down = case.loads.geometry.rise_m < 0.0
    if first is not case.path.anchors[0]:
        down = not down
    remedies: tuple[Direction, Direction] = ("down", "up") if down else ("up", "down")
    return case.put_right(at, anchor_height(first, remedies[0]), anchor_height(last, remedies[1]))


def _level(remedies: Remedies, move_m: float, down: bool, other: str | None) -> str:
    """Say what brings a climbing line nearer to level; about, where its own sag is left as it is."""
    if known := remedies.or_else():
        return either(*known, CHOKE)
    here, there = ("lower", "higher") if down else ("higher", "lower")
    move = rounded(move_m, "up")
    return f"Move it about {move} m {here} or the sling at '{other}' about {move} m {there}, or choke it."
