"""The heaviest user does not reach the ground, wherever on the walk zone.

A line that nobody can stand on is more than a matter of comfort, whatever lies below it.

A bounce, a surf or a jump counts only above water and on a leash: on a low line it may end on the grass.
"""

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
    State,
    either,
    faulty,
    fewer_at_once,
    first_up,
    higher_anchors,
    more_tension,
    need,
    need_all,
    open_,
    rounded,
    rule,
    sound,
    the_rig,
    to_the_cm,
)

LEAST = Limit(
    name="least_clearance",
    text="0.3 m",
    dimension="length",
    tighter="higher",
    because="You know sag, span and heights to a hand's breadth or two. A smaller gap may be none at all.",
    source=PRACTICE,
)
TOUCHING_M = 1e-6  # whatever is nearer lies on the ground; the last digits of a height are chance
HARD = frozenset({"rock", "asphalt", "concrete", "gravel"})
LEASH = {"gear": "LE-1", "hang": "2 m"}
LEASHED = {"shelf[0].items.LE-1": {"kind": "leash"}, "leash": LEASH}


def _heights(low: str, high: str | None = None) -> dict[str, object]:
    return {"chain[0].height": low, "chain[12].height": high or low}


ASKED = (
    "chain[0].height",
    "chain[12].height",
    "chain[5].gear",
    "chain[8].open",
    "plan.standing_tension",
    "plan.users",
    "plan.users[0].mass",
    "shelf[0].items.W-1.mass_per_metre",
    "shelf[0].items.W-1.stretch",
    "spot",
    "spot.ground",
    "spot.ground.profile",
    "spot.ground.surface",
    "spot.span",
)


@rule(
    title="The line comes too close to the ground",
    each=the_rig,
    signal=Signal.CAUTION,
    worst=Signal.WARNING,
    why="A line that touches the ground stops dead under the walker and throws them onto whatever lies there.",
    formula="height of the loaded place above the ground ≥ least clearance, over the whole walk zone; never below 0",
    limits=(LEAST,),
    prevents=("sag_meets_the_ground", "ends_unequal"),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("highline"),
        sound("low", _heights("0.98 m")),
        faulty(
            "low",
            _heights("0.96 m"),
            at="chain[0].height",
            signal=Signal.CAUTION,
            shows="sag_meets_the_ground",
        ),
        faulty(
            "low",
            _heights("1.35 m", "0.5 m"),
            at="chain[0].height",
            signal=Signal.CAUTION,
            shows="ends_unequal",
        ),
        faulty("low", {**_heights("1 m"), "plan.users[0].mass": "110 kg"}, at="chain[0].height"),
        faulty("low", {"plan.at_once": 3}, at="chain[0].height"),
        # A line that hangs below the ground carries nobody, whatever lies there and whatever a fall means.
        faulty("long_haul", _heights("1.47 m"), signal=Signal.CAUTION),
        faulty("long_haul", _heights("1.45 m"), signal=Signal.WARNING),
        faulty("low", _heights("0.68 m"), signal=Signal.CAUTION),
        faulty("low", _heights("0.66 m"), signal=Signal.WARNING),
        faulty("low", {**_heights("0.05 m"), "spot.ground.surface": "water"}, signal=Signal.WARNING),
        faulty("low", LEASHED, at="chain[0].height", signal=Signal.CAUTION),
        faulty("low", {"spot.ground.surface": "water"}, at="chain[0].height"),
        *(open_("low", {key: REMOVE}, at=key) for key in ASKED),
        open_("low", {"spot.ground.profile[2]": REMOVE}, at="spot.ground.profile"),
    ),
)
def clearance(case: Case, _rig: None) -> Iterator[Fault]:
    surface = _what_the_files_say(case)
    tied = case.rig.leash is not None or surface == "water"
    states = case.loads.cleared("line", "line_when_tied") if tied else case.loads.cleared("line")
    found = [(one.least_clearance_m, one) for one in states if one.least_clearance_m is not None]
    if not found:
        return
    clear, state = min(found, key=lambda one: one[0])
    least = case.limit(LEAST)
    if clear >= least:
        return
    # Whatever is below and whatever a fall means: nobody can stand on a line that lies on the ground.
    unwalkable = any(found_m <= TOUCHING_M and one.kind.clearance == "line" for found_m, one in found)
    hard = clear <= TOUCHING_M and surface in HARD and case.consequence != "ground"
    first, last = case.path.anchors
    # Rounded up: advice to raise it by so much must be enough.
    missing = ceil((least - clear) * 100.0) / 100.0
    how = (
        f"comes down to {to_the_cm(clear, 'down')} m above"
        if clear > TOUCHING_M
        else f"would hang {to_the_cm(max(-clear, 0.0), 'up')} m below"
    )
    at = case.on_part(first, "height")
    remedies = case.put_right(at, higher_anchors, more_tension, fewer_at_once)
    yield Fault(
        at,
        f"{first_up(state.words)}: the line {how} the {surface}, {rounded(_from_first_m(state))} "
        f"m from '{first.part.at}'. At least {least:g} m.",
        either(
            *remedies.or_else(f"raise both anchors by {missing:.2f} m", "tension the line more"),
            *(() if remedies else ("use a shorter line or webbing that stretches less",)),
        ),
        value=clear,
        limit=least,
        unit="m",
        inputs=(
            *(
                case.given(f"height at {one.part.at}", "h", one.part.height, case.on_part(one, "height"))
                for one in (first, last)
                if one.part.height is not None
            ),
            Input("standing tension", "T0", case.loads.standing.tension_n / 1e3, "kN"),
            Input("load on the line", "W", state.rest.load_n / 1e3 if state.rest else 0.0, "kN"),
        ),
        state=state.name,
        signal=Signal.WARNING if unwalkable or hard else None,
        remedies=remedies,
    )


def _what_the_files_say(case: Case) -> str:
    """Return the surface below the line, once everything that the clearance rests on is there."""
    first, last = case.path.anchors
    need_all(
        (first.part.height, case.on_part(first, "height")),
        (last.part.height, case.on_part(last, "height")),
    )
    spot = need(case.spot, case.at("spot"))
    ground = need(spot.ground, case.on_spot("ground"))
    case.loads.geometry.ground()  # asks for a profile that reaches the far end
    return need(ground.surface, case.on_spot("ground", "surface"))


def _from_first_m(state: State) -> float:
    """Return how far from the first anchor the governing place lies."""
    return next(
        (one.load_x_m for one in state.soft_positions if one.fraction == state.least_clearance_at), 0.0
    )
