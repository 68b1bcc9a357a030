"""A long line is not rigged or walked in strong wind, and no line in more than crews stop at."""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    Case,
    Fault,
    Input,
    Limit,
    Signal,
    faulty,
    need,
    open_,
    review,
    rounded,
    rule,
    sound,
    the_rig,
)

LONG = Limit(
    name="long_line",
    text="50 m",
    dimension="length",
    tighter="lower",
    because="In wind below the stop, shorter lines are too tight to swing far, and come down in minutes.",
    source=PRACTICE,
)
BREEZE = Limit(
    name="strong_wind",
    text="30 km/h",
    dimension="speed",
    tighter="lower",
    because="From here on a long line sways and hums, and its tapes and pads start to move.",
    source=PRACTICE,
)
STOP = Limit(
    name="stop_wind",
    text="40 km/h",
    dimension="speed",
    tighter="lower",
    because=(
        "Crews stop rigging long lines at 30 to 40 km/h. Gusts that move large branches "
        "reach short lines too."
    ),
    source=PRACTICE,
)
WIND = "plan.wind"


@rule(
    title="Too much wind",
    each=the_rig,
    signal=Signal.CAUTION,
    worst=Signal.WARNING,
    why="Wind makes a line gallop, saw at its edges and throw the walker. A longer line starts sooner.",
    formula="span > 50 m: strongest wind expected ≤ 30 km/h; at any span ≤ 40 km/h",
    limits=(LONG, BREEZE, STOP),
    prevents=("weather_turns", "line_gallops"),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("highline"),
        sound("low", {WIND: "39 km/h"}),
        sound("low", {WIND: "40 km/h"}),
        faulty("low", {WIND: "41 km/h"}, at=WIND, signal=Signal.CAUTION),
        faulty("low", {WIND: "90 km/h"}, at=WIND, signal=Signal.CAUTION, shows="weather_turns"),
        faulty("low", {WIND: "41 km/h", "plan.consequence": "fall"}, at=WIND, signal=Signal.WARNING),
        review("low", {WIND: REMOVE}, at=WIND, signal=Signal.NOTICE),
        sound("long_haul", {WIND: "29 km/h"}),
        faulty("long_haul", {WIND: "31 km/h"}, at=WIND, signal=Signal.CAUTION, shows="line_gallops"),
        faulty("long_haul", {WIND: "39 km/h"}, at=WIND, signal=Signal.CAUTION),
        faulty("long_haul", {WIND: "41 km/h"}, at=WIND, signal=Signal.WARNING, shows="weather_turns"),
        sound("highline", {WIND: "39 km/h", "spot.span": "49.5 m"}),
        faulty("highline", {WIND: "39 km/h", "spot.span": "50.5 m"}, at=WIND, signal=Signal.CAUTION),
        faulty("highline", {WIND: "41 km/h", "spot.span": "49.5 m"}, at=WIND, signal=Signal.WARNING),
        faulty("highline", {WIND: "90 km/h", "spot.span": "20 m"}, at=WIND, signal=Signal.WARNING),
        open_("long_haul", {WIND: REMOVE}, at=WIND),
        open_("highline", {WIND: REMOVE}, at=WIND),
        open_("highline", {"plan": REMOVE}, at=WIND),
        open_("low", {"spot.span": REMOVE}, at="spot.span"),
        open_("low", {"spot": REMOVE}, at="spot"),
        faulty("long_haul", {WIND: "40 km/h"}, at=WIND, signal=Signal.CAUTION),
    ),
)
def wind(case: Case, _rig: None) -> Iterator[Fault]:
    span = case.loads.geometry.span_m
    long = span > case.limit(LONG)
    at = case.at("plan", "wind")
    expected = case.plan.wind if case.plan else None
    # A short line has little face for the wind: a look at the forecast will do, nothing is left open.
    if expected is None and not long:
        yield Fault(
            at,
            f"The file does not say how much wind to expect; at {rounded(case.limit(STOP) * 3.6)} km/h rigging stops.",
            "Look at the forecast, gusts as well, and enter the strongest wind.",
            kind="review",
            signal=Signal.NOTICE,
        )
        return
    expected = need(expected, at)
    stop = expected.si > case.limit(STOP)
    most = case.limit(STOP if stop else BREEZE)
    if expected.si <= most or not (long or stop):
        return
    yield Fault(
        at,
        f"The forecast is {expected.text} of wind, on {rounded(span)} m of line. "
        f"{'Rigging stops at' if stop else 'Extra care starts at'} {rounded(most * 3.6)} km/h.",
        "Wait for another day. If the line is up, let the tension off."
        if stop
        else (
            f"Take the line down at {rounded(case.limit(STOP) * 3.6)} km/h or at the first "
            "thunder. Check pads and tapes every hour."
        ),
        value=round(expected.si * 3.6, 6),
        limit=round(most * 3.6, 6),
        unit="km/h",
        inputs=(case.given("wind", "v", expected, at), Input("span", "L", span, "m")),
        signal=Signal.WARNING if stop and (long or case.consequence != "ground") else None,
    )
