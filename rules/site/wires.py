"""Neither the line nor what flies off it can come near an overhead wire."""

from collections.abc import Iterator

from riglint.rulekit import (
    OWN,
    REMOVE,
    Case,
    Fault,
    Input,
    Limit,
    MissingInput,
    Quantity,
    Signal,
    Source,
    faulty,
    need,
    open_,
    review,
    rounded,
    rule,
    sound,
    the_rig,
)

SOURCE = Source("US safety plans: 10 ft up to 50 kV, more by voltage", "unnamed")
# Up to which voltage (kV), and the least distance there.
TABLE = ((50, "3.05 m"), (69, "3.66 m"), (161, "4.57 m"), (287, "6.1 m"), (345, "7.62 m"), (500, "10.67 m"))
LIMITS = {
    up_to_kv: Limit(
        name=f"up_to_{up_to_kv}_kv",
        text=distance,
        dimension="length",
        tighter="higher",
        because=(f"At up to {up_to_kv} kV a shorter gap can arc over, or the wire can swing across it."),
        source=SOURCE,
    )
    for up_to_kv, distance in TABLE
}
WIRES = "spot.surroundings.wires"
FIRST = f"{WIRES}[0]"


def _wire(distance_m: float, voltage: str | None = "20 kV") -> dict[str, object]:
    """Return the edit that puts up one wire."""
    wire = {"distance": f"{distance_m:.3f} m", "voltage": voltage}
    return {WIRES: [{key: value for key, value in wire.items() if value}]}


@rule(
    title="An overhead wire within reach",
    each=the_rig,
    signal=Signal.DANGER,
    why=("If damp webbing, a wet rope or a flying block touches a wire, the current goes to the hands."),
    formula=(
        "distance of the wire, its uncertainty taken off ≥ least distance for its voltage; and ≥ span, "
        "since a broken line swings about its anchor with all its length"
    ),
    limits=tuple(LIMITS.values()),
    sources=(OWN,),
    prevents=("wire_in_reach",),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("highline"),
        # Nothing on 16 m of line reaches further than 16 m.
        sound("low", _wire(16.1)),
        review("low", _wire(15.9), at=f"{FIRST}.distance", signal=Signal.WARNING),
        review("low", {WIRES: [{"distance": "16.5 m ± 1 m", "voltage": "20 kV"}]}, at=f"{FIRST}.distance"),
        *(
            faulty("low", _wire(limit.si * 0.99, f"{kv} kV"), at=f"{FIRST}.distance")
            for kv, limit in LIMITS.items()
        ),
        *(
            review("low", _wire(limit.si * 1.01, f"{kv} kV"), signal=Signal.WARNING)
            for kv, limit in LIMITS.items()
        ),
        faulty("low", _wire(3.1, "51 kV"), at=f"{FIRST}.distance", signal=Signal.DANGER),
        review("low", _wire(30.0, "501 kV"), at=f"{FIRST}.voltage", signal=Signal.WARNING),
        faulty("low", _wire(3.0, None), at=f"{FIRST}.distance", signal=Signal.DANGER),
        open_("low", _wire(3.1, None), at=f"{FIRST}.voltage"),
        review("low", _wire(11.0, None), at=f"{FIRST}.distance", signal=Signal.WARNING),
        open_("low", {"spot": REMOVE}, at="spot"),
        open_("low", {"spot.surroundings": REMOVE}, at=WIRES),
        open_("low", {WIRES: REMOVE}, at=WIRES),
        open_("low", {**_wire(12.0), "spot.span": REMOVE}, at="spot.span"),
        sound("low", _wire(16.0)),
    ),
)
def wires(case: Case, _rig: None) -> Iterator[Fault]:
    around = need(case.spot, case.at("spot")).surroundings
    found = need(around.wires if around else None, case.on_spot("surroundings", "wires"))
    unknown = []
    for n, wire in enumerate(found):
        # A distance that was only guessed counts at the near end of its ±.
        nearest, least = wire.distance.si - wire.distance.plus_minus, _least(case, wire.voltage)
        if least is not None and nearest < least:
            yield _too_near(case, n, wire.distance, wire.voltage, least)
        else:
            yield from _within_reach(case, n, wire.distance, wire.voltage)
            # Without a voltage the least clearance of the table is a fault; up to the greatest it stays open.
            if wire.voltage is None and nearest < max(case.limit(one) for one in LIMITS.values()):
                unknown.append(case.on_spot("surroundings", "wires", n, "voltage"))
    if unknown:
        raise MissingInput(*unknown)


def _least(case: Case, voltage: Quantity | None) -> float | None:
    """Return the least distance in m: the lowest row if the voltage is not known, none above the table."""
    rows = (case.limit(limit) for kv, limit in LIMITS.items() if voltage is None or voltage.si <= kv * 1e3)
    return next(rows, None)


def _too_near(case: Case, n: int, distance: Quantity, voltage: Quantity | None, least_m: float) -> Fault:
    at, words = case.on_spot("surroundings", "wires", n, "distance"), f" of {voltage.text}" if voltage else ""
    return Fault(
        at,
        f"An overhead wire{words} runs {distance.text} from the line. At least {rounded(least_m, 'up')} m.",
        "Rig elsewhere. Only the network operator can say that a wire is dead, and only in writing.",
        value=distance.si - distance.plus_minus,
        limit=least_m,
        unit="m",
        inputs=(case.given("distance of the wire", "d", distance, at),),
    )


def _within_reach(case: Case, n: int, distance: Quantity, voltage: Quantity | None) -> Iterator[Fault]:
    """Say that a broken line could touch a wire, or that its voltage is above the table."""
    do = "Stop, and ask the network operator before you rig anything"
    if voltage is not None and voltage.si > max(LIMITS) * 1e3:
        at = case.on_spot("surroundings", "wires", n, "voltage")
        message = (
            f"A wire of {voltage.text} is {distance.text} away. We know no clearance for more "
            f"than {max(LIMITS)} kV."
        )
        yield Fault(at, message, f"{do}.", kind="review", signal=Signal.WARNING)
        return
    # A line that parts at one anchor can fly as far as it is long.
    reach = case.loads.geometry.span_m
    if distance.si - distance.plus_minus >= reach:
        return
    at = case.on_spot("surroundings", "wires", n, "distance")
    yield Fault(
        at,
        f"A wire is {distance.text} away. If the line breaks, it can swing {rounded(reach, 'up')} "
        "m about its anchor.",
        f"{do}, or keep {rounded(reach, 'up')} m from the wire.",
        value=distance.si - distance.plus_minus,
        limit=reach,
        unit="m",
        inputs=(case.given("distance of the wire", "d", distance, at), Input("span", "L", reach, "m")),
        kind="review",
        signal=Signal.WARNING,
        source=OWN,
    )
