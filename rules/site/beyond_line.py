"""Places along the line lie on the line, and people have room to walk between its ends."""

from collections.abc import Iterator

from riglint.rulekit import (
    OWN,
    PRACTICE,
    REMOVE,
    Case,
    Fault,
    Input,
    Limit,
    Quantity,
    Signal,
    faulty,
    known,
    rounded,
    rule,
    sound,
    the_rig,
)

ROOM = Limit(
    name="least_to_walk",
    text="1 m",
    dimension="length",
    tighter="higher",
    because="A zone shorter than a step is a typing error. We calculate forces only where people walk.",
    source=OWN,
)
BEHIND = Limit(
    name="most_behind",
    text="10 m",
    dimension="length",
    tighter="lower",
    because=(
        "A bench a few steps behind the far anchor is worth an entry. A bench across the "
        "park is a typing error."
    ),
    source=OWN,
)
ZONE, SPAN = "plan.walk_zone", "spot.span"
NO_TENSION = {"plan.standing_tension": REMOVE}
BENCH = {"what": "bench", "aside": "3 m", "height": "0.5 m"}


def _zone(near: str, far: str) -> dict[str, object]:
    return {ZONE: [near, far]}


@rule(
    title="An entry in the file is beyond the line",
    each=the_rig,
    signal=Signal.CAUTION,
    raised={"fall": Signal.WARNING, "life": Signal.WARNING},
    worst=Signal.WARNING,
    why="If a place is beyond the line on paper, it is elsewhere on site, and nobody has judged it there.",
    formula="walk zone: span − both ends ≥ least; edges nearer to their own anchor; obstacles not far behind the line",
    limits=(ROOM, BEHIND),
    sources=(PRACTICE,),
    prevents=("place_beyond_the_line", "span_wrong"),
    examples=(
        sound("low"),
        sound("highline"),
        sound("low", _zone("7 m", "7.97 m") | NO_TENSION),
        faulty(
            "low", _zone("7 m", "8.03 m") | NO_TENSION, at=ZONE, signal=Signal.CAUTION, shows="span_wrong"
        ),
        # Longer than the webbing: site/walk_zone tells it, once the webbing is computed.
        sound("low", _zone("9 m", "9 m")),
        faulty("low", _zone("9 m", "9 m") | NO_TENSION, at=ZONE, signal=Signal.CAUTION),
        faulty("highline", _zone("40 m", "40 m") | NO_TENSION, at=ZONE, signal=Signal.WARNING),
        faulty(
            "highline",
            {"edges[0].from_anchor": "60 m"},
            at="edges[0].from_anchor",
            signal=Signal.WARNING,
            shows="place_beyond_the_line",
        ),
        sound("highline", {"edges[0].from_anchor": "20 m"}),
        faulty(
            "highline", {"edges[0].from_anchor": "30 m"}, at="edges[0].from_anchor"
        ),  # nearer to the other anchor
        faulty(
            "low",
            {"spot.surroundings.obstacles": [BENCH | {"along": "26.2 m"}]},
            at="spot.surroundings.obstacles[0].along",
            signal=Signal.CAUTION,
        ),
        sound("low", {"spot.surroundings.obstacles": [BENCH | {"along": "25.8 m"}]}),
        faulty("highline", {"backups[0].taped_every": ["2.6 m", "1.8 m"]}, at="backups[0].taped_every"),
        faulty("highline", {"backups[0].taped_every": ["2 m", "60 m"]}, at="backups[0].taped_every"),
        sound("low", {SPAN: REMOVE}),  # asked for where forces are computed
    ),
)
def beyond_line(case: Case, _rig: None) -> Iterator[Fault]:
    span = case.spot.span if case.spot else None
    if span is None:
        return
    yield from _zone_too_long(case, span)
    for n, edge in enumerate(case.rig.edges or []):
        if edge.from_anchor is not None and 2.0 * edge.from_anchor.si > span.si:
            at = case.at("edges", n, "from_anchor")
            where = "beyond the line" if edge.from_anchor.si > span.si else "nearer to the other anchor"
            yield Fault(
                at,
                f"The edge at '{edge.at}' is entered {edge.from_anchor.text} from it, {where}. "
                f"The span is {span.text}.",
                "Measure from the anchor at that edge. Is the decimal point wrong, or the anchor?",
                value=edge.from_anchor.si,
                limit=span.si / 2.0,
                unit="m",
            )
    around = case.spot.surroundings if case.spot else None
    for n, one in enumerate((around.obstacles if around else None) or []):
        if one.along is not None and one.along.si > span.si + case.limit(BEHIND):
            yield Fault(
                case.on_spot("surroundings", "obstacles", n, "along"),
                f"The {one.what} is entered {one.along.text} along a span of {span.text}, far "
                "behind the far anchor.",
                "Measure again from the anchor where the profile begins.",
                value=one.along.si,
                limit=span.si + case.limit(BEHIND),
                unit="m",
                source=BEHIND.source,
            )
    yield from _tapes(case, span)


def _zone_too_long(case: Case, span: Quantity) -> Iterator[Fault]:
    zone = case.plan.walk_zone if case.plan else None
    if zone is None:
        return
    left_out = sum(end.si for end in zone)
    room, least = span.si - left_out, case.limit(ROOM)
    webbing = known(lambda: case.loads.standing.line.unstressed_m)
    if room >= least or (webbing is not None and left_out >= webbing):
        return  # site/walk_zone tells that the zone is longer than the webbing
    kept = " and ".join(end.text for end in zone)
    yield Fault(
        case.at("plan", "walk_zone"),
        f"The walk zone keeps {kept} from the ends of a span of {span.text}: "
        + ("nothing is left to walk." if room <= 0 else f"{rounded(room, 'down')} m are left to walk."),
        "Enter how close a user comes to each end: two short lengths, such as [2 m, 2 m].",
        value=room,
        limit=least,
        unit="m",
        inputs=(Input("span", "L", span.si, "m", case.on_spot("span").reference),),
        source=ROOM.source,
    )


def _tapes(case: Case, span: Quantity) -> Iterator[Fault]:
    for n, backup in enumerate(case.rig.backups or []):
        gaps = backup.taped_every
        if gaps is None or gaps[0].si <= gaps[1].si <= span.si:
            continue
        wrong = (
            "the shortest is longer than the longest" if gaps[0].si > gaps[1].si else "longer than the span"
        )
        yield Fault(
            case.at("backups", n, "taped_every", part=f"backups[{n}]"),
            f"The gaps between tapes are entered as {gaps[0].text} and {gaps[1].text}: {wrong}.",
            "Enter the shortest gap, then the longest.",
            value=gaps[1].si,
            limit=span.si,
            unit="m",
        )
