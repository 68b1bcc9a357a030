"""Whoever falls on the leash, or is caught by the backup, keeps clear of the ground.

The lowest body point is computed over the walk zone for the leash fall, and over the middle of the line for
the catch: nearer to an anchor the ring slides down the slack backup, away from it. Where a backup cannot be
computed, the rule of thumb L/3 + 3 m over the middle half of the span stands in for it; where it can, missing
the rule of thumb alone is worth knowing.
"""

from collections.abc import Iterator
from math import ceil
from typing import NamedTuple

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    BackupLine,
    Case,
    Fault,
    Input,
    Limit,
    MissingInput,
    NotComputable,
    Signal,
    Source,
    State,
    backup_length,
    either,
    faulty,
    first_up,
    higher_anchors,
    more_tension,
    need_all,
    open_,
    rounded,
    rule,
    sound,
    the_rig,
    to_the_cm,
)

MARGIN = Limit(
    name="least_room",
    text="2 m",
    dimension="length",
    tighter="higher",
    because="You know heights, stretch and the swing of the body to a metre or two.",
    source=PRACTICE,
)
ABOVE_THIRD = Limit(
    name="above_a_third_of_span",
    text="3 m",
    dimension="length",
    tighter="higher",
    because="Losing the main line can cost a third of the span in height. Leash and body come on top.",
    source=Source(
        "Swiss federation, ten points for highlines: height at least L/3 + 3 m",
        "published",
        ("swiss_ten_points",),
    ),
)
LOWEST = Limit(
    name="least_height",
    text="5 m",
    dimension="length",
    tighter="higher",
    because="Below this height no leash has room to catch.",
    source=Source("a highline club: never below 5 m", "unnamed"),
)
MIDDLE_HALF = (0.25, 0.75)
PROFILE = "spot.ground.profile"


def _floor(depth: str) -> dict[str, object]:
    """Return a gully with upright walls and a level floor."""
    return {PROFILE: [["0 m", "0 m"], ["0.5 m", depth], ["51.5 m", depth], ["52 m", "0 m"]]}


def _tight(depth: str) -> dict[str, object]:
    """Return a short tight line for a light user on a short leash, above a level floor."""
    return {
        "spot.span": "12 m",
        PROFILE: [["0 m", "0 m"], ["0.5 m", depth], ["11.5 m", depth], ["12 m", "0 m"]],
        "leash.hang": "0.1 m",
        "plan.users[0].mass": "20 kg",
        "plan.standing_tension": "8 kN",
        "backups[0].extra": "0.3 %",
    }


UNKNOWN = {"backups[0].extra": REMOVE}
NO_STRETCH = {"shelf[0].items.W-2.stretch": REMOVE}


@rule(
    title="A fall on the leash can reach the ground",
    each=the_rig,
    signal=Signal.DANGER,
    why="If the main line breaks, the walker drops by the backup's sag and the leash, onto whatever lies there.",
    formula=(
        "height of the loaded place − hang − give − body ≥ 2 m in leash fall and backup catch; "
        "over the middle half: height of the line ≥ L/3 + 3 m, and never below 5 m"
    ),
    limits=(MARGIN, ABOVE_THIRD, LOWEST),
    prevents=("leash_reaches_the_ground", "main_break_drops_walker"),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("highline"),
        # The rule of thumb asks 52/3 + 3 = 20.33 m; the anchors stand 0.5 m above their ground.
        sound("highline", _floor("-19.84 m")),
        faulty("highline", _floor("-19.82 m"), at="chain[0].height", signal=Signal.CAUTION),
        # The catch leaves 2.03 m, then 1.98 m.
        faulty("highline", _floor("-16.15 m"), at="chain[0].height", signal=Signal.CAUTION),
        faulty(
            "highline",
            _floor("-16.05 m"),
            at="backups[0].extra",
            signal=Signal.DANGER,
            shows="main_break_drops_walker",
        ),
        faulty("highline", {**_floor("-16.05 m"), "backups[0].extra": "2 %"}, signal=Signal.CAUTION),
        faulty("highline", _floor("-10 m"), at="backups[0].extra", signal=Signal.DANGER),
        # A fall on the whole line is told beside the catch: it comes oftener, and no backup puts it right.
        faulty("highline", _floor("-5 m"), at="backups[0].extra", signal=Signal.DANGER),
        faulty("highline", _floor("-5 m"), at="chain[0].height", signal=Signal.DANGER),
        faulty("highline", {**_floor("-19.82 m"), "backups": []}, at="chain[0].height", signal=Signal.DANGER),
        faulty(
            "highline",
            {**_floor("-8 m"), "backups": []},
            at="chain[0].height",
            signal=Signal.DANGER,
            shows="leash_reaches_the_ground",
        ),
        # A tight line of 12 m for a child, whose falls keep 2 m: 5.05 m, then 4.95 m above the floor.
        faulty("highline", _tight("-4.55 m"), at="chain[0].height", signal=Signal.CAUTION),
        faulty("highline", _tight("-4.45 m"), at="chain[0].height", signal=Signal.DANGER),
        open_("highline", UNKNOWN, at="backups[0].extra"),
        open_("highline", NO_STRETCH, at="shelf[0].items.W-2.stretch"),
        open_("highline", {"leash.hang": REMOVE}, at="leash.hang"),
        open_("highline", {"plan.users[0].mass": REMOVE}, at="plan.users[0].mass"),
        open_("highline", {"chain[0].height": REMOVE}, at="chain[0].height"),
        open_("highline", {"chain[8].height": REMOVE}, at="chain[8].height"),
        open_("highline", {"spot.ground": REMOVE}, at="spot.ground"),
        open_("highline", {PROFILE: REMOVE}, at=PROFILE),
        open_("highline", {"spot.span": REMOVE}, at="spot.span"),
        faulty("highline", _floor("-1 m"), at="backups[0].extra", signal=Signal.DANGER),
        faulty(
            "highline", _floor("-14.6 m"), at="backups[0].extra", signal=Signal.DANGER
        ),  # half a metre is left
        # The ground rises beyond the middle half.
        sound(
            "highline",
            {
                PROFILE: [
                    ["0 m", "0 m"],
                    ["0.5 m", "-25 m"],
                    ["40 m", "-25 m"],
                    ["40.5 m", "-17 m"],
                    ["51.5 m", "-17 m"],
                    ["52 m", "0 m"],
                ]
            },
        ),
    ),
)
def fall_room(case: Case, _rig: None) -> Iterator[Fault]:
    if not case.highline:
        return
    if not case.path.whole:
        raise NotComputable("the chain does not run from anchor to anchor")
    first, last = case.path.anchors
    need_all(*((one.part.height, case.on_part(one, "height")) for one in (first, last)))
    height, at_m = case.loads.geometry.least_height_m(*MIDDLE_HALF)
    caught, unable = _caught(case)
    near = [one for one in _lowest(caught) if one.room_m < case.limit(MARGIN)]
    by_thumb = max(case.limit(LOWEST), case.loads.geometry.span_m / 3.0 + case.limit(ABOVE_THIRD))
    for one in near:
        yield _no_room(case, one)
    if not near and height < by_thumb:
        yield _too_low(
            case, height, at_m, by_thumb, computed=unable is None and any(one.backup for one in caught)
        )
    if unable is not None:
        raise unable


class _Caught(NamedTuple):
    """A fall that is caught, with the height of the lowest body point above the ground."""

    room_m: float
    state: State
    backup: BackupLine | None


def _caught(case: Case) -> tuple[list[_Caught], MissingInput | NotComputable | None]:
    """Return every fall that can be computed, and what keeps the first of the others from it."""
    found: list[_Caught] = []
    unable: MissingInput | NotComputable | None = None
    for compute, backup in case.loads.falls():
        try:
            state = compute()
        except (MissingInput, NotComputable) as reason:
            # One fall that can't be computed must not hide another that ends on the ground.
            unable = unable or reason
            continue
        if state.least_clearance_m is not None:
            found.append(_Caught(state.least_clearance_m, state, backup))
    return found, unable


def _lowest(caught: list[_Caught]) -> list[_Caught]:
    """Return the fall on the main line and the lowest of those that a backup catches: each is put right elsewhere."""
    on_main = [one for one in caught if one.backup is None]
    on_backups = [one for one in caught if one.backup is not None]
    return [*on_main, min(on_backups, key=lambda one: one.room_m)] if on_backups else on_main


def _no_room(case: Case, caught: _Caught) -> Fault:
    """Say that a fall comes too near the ground."""
    state, backup, margin = caught.state, caught.backup, case.limit(MARGIN)
    first = case.path.anchors[0]
    place = next(one.load_x_m for one in state.soft_positions if one.fraction == state.least_clearance_at)
    how = (
        f"the body comes down to {to_the_cm(caught.room_m, 'down')} m above"
        if caught.room_m > 0.0
        else f"the body would reach {to_the_cm(-caught.room_m, 'up')} m below"
    )
    missing = ceil((margin - caught.room_m) * 10.0) / 10.0
    other = "tension the line more" if backup is None else f"shorten {backup.id} towards 2 % extra"
    nearer = more_tension if backup is None else backup_length(backup, "down")
    at = case.on_part(first, "height")
    if backup is not None:
        at = backup.length_at
    remedies = case.put_right(at, higher_anchors, nearer)
    return Fault(
        at,
        f"{first_up(state.words)}: {how} the ground, {rounded(place)} m from '{first.part.at}'. "
        f"At least {margin:g} m of room.",
        either(
            *remedies.or_else(f"raise both anchors by {missing:.1f} m", other),
            *_also_helps(case, backup, place),
        ),
        value=caught.room_m,
        limit=margin,
        unit="m",
        inputs=(Input("tension in the catch", "T", state.tension_n / 1e3, "kN"),),
        state=state.name,
        remedies=remedies,
    )


def _also_helps(case: Case, backup: BackupLine | None, place_m: float) -> Iterator[str]:
    """Yield what helps, too, without a figure: a stiffer backup; near an end, nobody there."""
    if backup is not None:
        yield f"use webbing that stretches less for {backup.id}"
    span_m = case.loads.geometry.span_m
    if not MIDDLE_HALF[0] * span_m <= place_m <= MIDDLE_HALF[1] * span_m:
        yield "keep people farther from that end (`walk_zone`) if the ground drops away there (`profile`)"


def _too_low(case: Case, height_m: float, at_m: float, by_thumb_m: float, *, computed: bool) -> Fault:
    """Say that the line itself runs too low over the middle half of its span."""
    first, least = case.path.anchors[0], case.limit(LOWEST)
    limit, asked = (LOWEST, least) if height_m < least else (ABOVE_THIRD, by_thumb_m)
    words = f"a highline needs at least {least:g} m"
    if limit is ABOVE_THIRD:
        words = f"the rule of thumb L/3 + {case.limit(limit):g} m asks for {rounded(by_thumb_m, 'up')} m"
        words += (
            f", though the calculated catch keeps {case.limit(MARGIN):g} m"
            if computed
            else ", and no catch is calculated"
        )
    raise_m = ceil((asked - height_m) * 10.0) / 10.0
    at = case.on_part(first, "height")
    remedies = case.put_right(at, higher_anchors)
    return Fault(
        at,
        f"The line is {rounded(height_m, 'down')} m above the ground, {rounded(at_m)} m from "
        f"'{first.part.at}'. Here {words}.",
        either(
            *remedies.or_else(f"raise both anchors by {raise_m:.1f} m"),
            "choose a shorter line or a deeper place",
        ),
        value=height_m,
        limit=asked,
        unit="m",
        inputs=(Input("span", "L", case.loads.geometry.span_m, "m"),),
        signal=Signal.CAUTION if computed and limit is ABOVE_THIRD else None,
        source=limit.source,
        remedies=remedies,
    )
