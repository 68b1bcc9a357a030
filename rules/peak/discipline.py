"""The rig suits its use: nobody walks untied above jump-off height or jumps on a walking line; a highline is long."""

from collections.abc import Iterator
from math import ceil

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    Case,
    Fault,
    Input,
    Limit,
    Signal,
    Source,
    either,
    faulty,
    in_prose,
    lower_anchors,
    need_all,
    open_,
    review,
    rounded,
    rule,
    sound,
    the_rig,
)

JUMP_OFF = Limit(
    name="jump_off_height",
    text="3 m",
    dimension="length",
    tighter="lower",
    because="No playground allows a longer fall, on any surface.",
    source=Source(
        "EN 1176-1: free height of fall at most 3 m, taken over for lines", "standard", ("en_1176_1",)
    ),
)
JUMP_HIGH = Limit(
    name="height_of_a_jump",
    text="0.9 m",
    dimension="length",
    tighter="higher",
    because="Who jumps falls from higher than the line. Playgrounds count 0.9 m for what throws people up.",
    source=Source(
        "EN 1176-1: on equipment to bounce on the free height of fall counts as 0.9 m, added here to the line's",
        "standard",
        ("en_1176_1",),
    ),
)
SHORTEST = Limit(
    name="shortest_highline",
    text="10 m",
    dimension="length",
    tighter="higher",
    because="A shorter line catches hard and throws the walker against its anchors.",
    source=Source(
        "Swiss federation, ten points for highlines: at least 10 m", "published", ("swiss_ten_points",)
    ),
)


def _raised(height: str) -> dict[str, object]:
    return {"chain[0].height": height, "chain[12].height": height}


SURF = {"plan.moves": ["walk", "surf"]}
JUMPS = {"plan.moves": ["jump"]}
JUMPED = Source("common practice, no source: a jump lands at 1.5 to 2 times the pull of walking", "practice")


@rule(
    title="The rig doesn't suit its use",
    each=the_rig,
    signal=Signal.CAUTION,
    raised={"fall": Signal.WARNING, "life": Signal.DANGER},
    why="A low-line kit rigged over a drop has nothing to catch a walker. There a stumble is a fall.",
    formula=(
        "no leash, no water below: height of the feet, in a jump 0.9 m more, ≤ 3 m; highline: L ≥ 10 m; "
        "jumps on a jumpline only"
    ),
    limits=(JUMP_OFF, JUMP_HIGH, SHORTEST),
    prevents=("low_line_kit_up_high", "line_too_high_to_jump_off", "jumps_on_walking_kit"),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("highline"),
        # The line gives: where the walk zone begins, a light user's feet are 0.28 m lower than the slings.
        sound("low", _raised("3.27 m")),
        faulty(
            "low",
            _raised("3.29 m"),
            at="chain[0].height",
            signal=Signal.DANGER,
            shows=("low_line_kit_up_high", "line_too_high_to_jump_off"),
        ),
        faulty("low", {**_raised("3.29 m"), "use": "jumpline"}, at="chain[0].height", signal=Signal.DANGER),
        # Who jumps is 0.9 m above the bare line; the ground is 0.1 m lower in the middle.
        sound("low", {**_raised("1.99 m"), **JUMPS, "use": "jumpline"}),
        faulty("low", {**_raised("2.02 m"), **JUMPS, "use": "jumpline"}, at="chain[0].height"),
        faulty("low", JUMPS, at="plan.moves", signal=Signal.WARNING, shows="jumps_on_walking_kit"),
        review("low", SURF, at="plan.moves", signal=Signal.CAUTION),
        sound("low", SURF | {"use": "longline"}),
        faulty("highline", JUMPS, at="plan.moves", signal=Signal.WARNING),
        sound("low", JUMPS | {"use": "waterline"}),
        sound("low", JUMPS | {"use": "jumpline"}),
        sound("low", {**_raised("6 m"), "use": "waterline"}),
        sound("low", {**_raised("6 m"), "spot.ground.surface": "water"}),
        sound("highline", {"spot.span": "10.1 m"}),
        faulty("highline", {"spot.span": "9.9 m"}, at="spot.span", signal=Signal.WARNING),
        open_("low", {"chain[0].height": REMOVE}, at="chain[0].height"),
        open_("low", {"chain[12].height": REMOVE}, at="chain[12].height"),
        open_("low", {"spot.ground": REMOVE}, at="spot.ground"),
        open_("low", {"spot.ground.profile": REMOVE}, at="spot.ground.profile"),
        open_("low", {"spot.span": REMOVE}, at="spot.span"),
        open_("low", {"plan.standing_tension": REMOVE}, at="plan.standing_tension"),
        open_("highline", {"spot.span": REMOVE}, at="spot.span"),
        open_("highline", {"use": REMOVE, "leash": REMOVE}, at="use"),
    ),
)
def discipline(case: Case, _rig: None) -> Iterator[Fault]:
    yield from _jumped_on(case)
    yield from _surfed(case)
    if case.highline:
        yield from _short(case)
    elif not case.file.over_water:
        yield from _untied(case)


def _surfed(case: Case) -> Iterator[Fault]:
    """Ask about surfing on a low line: the walker throws their weight sideways, which its ends aren't laid for."""
    if case.rig.use != "lowline" or "surf" not in (case.plan.moves if case.plan else []):
        return
    yield Fault(
        case.at("plan", "moves"),
        "People plan to surf on a lowline. Surfing pulls slings, protectors and anchors to and fro sideways.",
        "See that slings and protectors can't wander, and that both sides are clear. Or plan no surfing.",
        value="surf",
        limit="no surfing",
        kind="review",
        signal=Signal.CAUTION,
        source=PRACTICE,
    )


def _jumped_on(case: Case) -> Iterator[Fault]:
    """Judge jumps on a line that is planned for walking; over water people jump off, and land there."""
    use, moves = case.rig.use, case.plan.moves if case.plan else []
    if "jump" not in moves or use in {None, "jumpline"} or case.file.over_water:
        return
    yield Fault(
        case.at("plan", "moves"),
        f"People plan to jump on a {in_prose(use)}. That line is rigged for walking.",
        "Plan no jumps, or plan and rig it as a jumpline, and write `use: jumpline`.",
        value="jump",
        limit="no jumps",
        signal=Signal.WARNING,
        source=JUMPED,
    )


def _untied(case: Case) -> Iterator[Fault]:
    """Judge the height of a line that nobody is tied to."""
    first, last = case.path.anchors
    need_all(*((one.part.height, case.on_part(one, "height")) for one in (first, last)))
    case.loads.geometry.ground()  # asks for a profile that reaches the far end
    jumps = case.plan is not None and "jump" in case.plan.moves
    above, most = case.limit(JUMP_HIGH) if jumps else 0.0, case.limit(JUMP_OFF)
    highest = max(case.loads.band.foot_heights_m()) + above
    if highest <= most:
        return
    backed = any(one.backs_main for one in case.loads.backups)
    nothing = "no leash" if backed else "no leash and no backup"
    at = case.on_part(first, "height")
    remedies = case.put_right(at, lower_anchors)
    yield Fault(
        at,
        f"The walker's feet are up to {rounded(highest)} m above the ground{' in a jump' if jumps else ''}, with "
        f"{nothing}. At most {most:g} m to jump off.",
        either(
            *remedies.or_else(f"lower it by {ceil((highest - most) * 10.0) / 10.0:.1f} m"),
            "rig it as a highline, with a leash and a backup on points of its own",
        ),
        value=highest,
        limit=most,
        unit="m",
        inputs=(
            Input("height of the feet", "h", highest, "m"),
            *(
                case.given(f"height at {one.part.at}", "h", one.part.height, case.on_part(one, "height"))
                for one in (first, last)
                if one.part.height is not None
            ),
        ),
        source=JUMP_OFF.source,
        remedies=remedies,
    )


def _short(case: Case) -> Iterator[Fault]:
    """Judge the length of a highline."""
    span, least = case.loads.geometry.span_m, case.limit(SHORTEST)
    if span < least:
        yield Fault(
            case.on_spot("span"),
            f"This highline is {rounded(span, 'down')} m long. At least {least:g} m.",
            f"Choose anchors at least {least:g} m apart.",
            value=span,
            limit=least,
            unit="m",
            signal=Signal.WARNING,
            source=SHORTEST.source,
        )
