"""A line that aircraft could meet is known to the aviation authority."""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    Case,
    Fault,
    Input,
    Limit,
    MissingInput,
    NotComputable,
    OnCard,
    Signal,
    Source,
    faulty,
    open_,
    review,
    rounded,
    rule,
    sound,
    the_rig,
)

NOTICE_HEIGHT = Limit(
    name="notice_height",
    text="61 m",
    dimension="length",
    tighter="lower",
    because="Above 200 ft aircraft may fly, so you must announce anything that tall.",
    source=Source(
        "14 CFR 77 and AC 70/7460-1 (US): notice above 200 ft above ground",
        "standard",
        ("cfr_14_77", "ac_70_7460"),
    ),
)
LONG = Limit(
    name="long_line",
    text="300 m",
    dimension="length",
    tighter="lower",
    because="Rescue and farm pilots fly below any limit, and can't see a line this long and thin.",
    source=PRACTICE,
)
AIRFIELD = Limit(
    name="airfield_within",
    text="5 km",
    dimension="length",
    tighter="higher",
    because="Near an airfield aircraft fly low, whatever the height of the line.",
    source=PRACTICE,
)
TREETOPS = Limit(
    name="below_treetops",
    text="10 m",
    dimension="length",
    tighter="lower",
    because="Lower lines are below the tops of the trees that hold them, where nobody flies.",
    source=PRACTICE,
)
PROFILE, NEAR = "spot.ground.profile", "spot.surroundings.airfield_within"


def _gully(depth_m: float, span_m: float = 52.0) -> dict[str, object]:
    """Return the edits for anchors 0.5 m above the rims of a gully."""
    profile = [["0 m", "0 m"], [f"{span_m / 2} m", f"-{depth_m} m"], [f"{span_m} m", "0 m"]]
    return {PROFILE: profile, "spot.span": f"{span_m} m", NEAR: "20 km"}


@rule(
    title="The line stands in the way of aircraft",
    each=the_rig,
    signal=Signal.WARNING,
    why=(
        "In 2026 a helicopter hit a marked line over 1 km long, about 180 m up, in Arizona; four people died."
    ),
    formula="height above ground ≤ 61 m; span ≤ 300 m; above 10 m: distance to the nearest airfield ≥ 5 km",
    limits=(NOTICE_HEIGHT, LONG, AIRFIELD, TREETOPS),
    prevents=("aircraft_meets_line",),
    on_card=OnCard(advice=True),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("highline"),
        sound("highline", _gully(60.0)),
        faulty("highline", _gully(61.0), at=PROFILE, signal=Signal.WARNING),
        sound("highline", _gully(40.0, 299.0)),
        review("highline", _gully(40.0, 301.0), at="spot.span", signal=Signal.CAUTION),
        sound("highline", {NEAR: "5.1 km"}),
        faulty("highline", {NEAR: "4.9 km"}, at=NEAR, signal=Signal.WARNING),
        review("highline", {NEAR: REMOVE}, at=NEAR, signal=Signal.NOTICE),
        sound("low", {NEAR: "1 km"}),
        sound("highline", {**_gully(9.4), NEAR: "1 km"}),
        faulty("highline", {**_gully(9.6), NEAR: "1 km"}, at=NEAR),
        # Nobody knows how high it is.
        faulty("low", {PROFILE: REMOVE, NEAR: "1 km"}, at=NEAR),
        sound("low", {PROFILE: REMOVE}),
        *(
            open_("highline", {key: REMOVE}, at=key)
            for key in (PROFILE, "chain[0].height", "chain[8].height")
        ),
        open_("highline", {"spot.ground": REMOVE}, at="spot.ground"),
        open_("low", {"spot.span": REMOVE}, at="spot.span"),
        open_("low", {"spot": REMOVE}, at="spot"),
    ),
)
def aircraft(case: Case, _rig: None) -> Iterator[Fault]:
    span, long = case.loads.geometry.span_m, case.limit(LONG)
    height = _height_m(case)
    yield from _high(case, height, span)
    if span > long:
        yield Fault(
            case.on_spot("span"),
            f"The line is {rounded(span)} m long. Low-flying pilots should know of a line longer "
            f"than {long:g} m.",
            "Give the aviation authority and the rescue service the place, length, height and "
            "days, and mark the line.",
            value=span,
            limit=long,
            unit="m",
            kind="review",
            signal=Signal.CAUTION,
            source=LONG.source,
        )
    if height is None or height > case.limit(TREETOPS):
        yield from _airfield(case, height)


def _height_m(case: Case) -> float | None:
    """Return the greatest height above ground in m; only a highline needs it, others ask for it elsewhere."""
    if not case.path.whole:
        raise NotComputable("the chain does not run from anchor to anchor")
    try:
        return case.loads.geometry.greatest_height_m()[0]
    except MissingInput:
        if case.highline:
            raise
        return None


def _high(case: Case, height_m: float | None, span_m: float) -> Iterator[Fault]:
    most = case.limit(NOTICE_HEIGHT)
    if height_m is None or height_m <= most:
        return
    yield Fault(
        case.on_spot("ground", "profile"),
        f"The line is up to {rounded(height_m, 'up')} m above the ground over {rounded(span_m)} "
        f"m. Above {most:g} m you must tell the aviation authority.",
        "Give the aviation authority the place, length, height and days, and mark the line. Your "
        "country may ask for it from a lower height.",
        value=height_m,
        limit=most,
        unit="m",
        inputs=(Input("span", "L", span_m, "m"),),
    )


def _airfield(case: Case, height_m: float | None) -> Iterator[Fault]:
    around, at = (
        case.spot.surroundings if case.spot else None,
        case.on_spot("surroundings", "airfield_within"),
    )
    away, least = around.airfield_within if around else None, case.limit(AIRFIELD)
    if away is not None and away.si < least:
        high = "of unknown height" if height_m is None else f"{rounded(height_m)} m above the ground"
        yield Fault(
            at,
            f"An airfield is {away.text} from this line, {high}. Closer than {least / 1e3:g} km "
            "you have to ask.",
            "Ask the airfield before you rig. Give it length, height and days, and tell it when "
            "the line is down.",
            value=away.si / 1e3,
            limit=least / 1e3,
            unit="km",
            inputs=(case.given("distance of the airfield", "d", away, at),),
            source=AIRFIELD.source,
        )
    elif away is None and height_m is not None:
        yield Fault(
            at,
            f"The line is {rounded(height_m)} m up. The file doesn't say how far the nearest "
            "airfield or helipad is.",
            f"Look it up. If it is closer than {least / 1e3:g} km, ask there before you rig.",
            kind="review",
            signal=Signal.NOTICE,
            source=AIRFIELD.source,
        )
