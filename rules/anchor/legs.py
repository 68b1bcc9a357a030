"""A spread of legs shares the load at a narrow angle, and barely drops when one leg goes."""

from collections.abc import Iterator
from math import cos, degrees

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    Case,
    Fault,
    Limit,
    Placed,
    Quantity,
    Signal,
    Source,
    everywhere,
    faulty,
    need,
    need_all,
    open_,
    rounded,
    rule,
    sound,
)

ADVISED = Limit(
    name="advised_angle",
    text="90 deg",
    dimension="angle",
    tighter="lower",
    because="At 90° each of two legs carries 0.71 of the line. Beyond that its share climbs fast.",
    source=Source("a climbing book: 60° good, 90° normal, 120° the limit", "unnamed"),
)
GREATEST = Limit(
    name="greatest_angle",
    text="120 deg",
    dimension="angle",
    tighter="lower",
    because="Beyond 120° each leg carries more than the whole line.",
    source=Source("a climbing book; F ÷ (2·cos(θ/2)) is 1 there", "unnamed"),
)
EXTENSION = Limit(
    name="most_extension",
    text="0.1 m",
    dimension="length",
    tighter="lower",
    because="The line's own stretch absorbs a drop of a hand's breadth. A longer drop hits hard.",
    source=PRACTICE,
)
FALL = Limit(
    name="falling_extension",
    text="0.3 m",
    dimension="length",
    tighter="lower",
    because="A drop longer than a forearm throws the whole line onto the legs that are left.",
    source=PRACTICE,
)
WEST = "chain[1]"
FIELDS = ("share", "included_angle", "extension")


def _spread(share: str, extension: str) -> dict[str, object]:
    """Return legs to one trunk, as they would hold the low line."""
    two = [{"to": "gate"}, {"to": "gate"}]
    return {"part": "legs", "share": share, "included_angle": "50 deg", "extension": extension, "legs": two}


@rule(
    title="The legs share the load badly, or drop when one fails",
    each=everywhere("legs"),
    signal=Signal.WARNING,
    raised={"life": Signal.DANGER},
    worst=Signal.DANGER,
    why="When one leg fails, the master point drops onto the rest. A sliding point drops furthest.",
    formula=(
        "θ ≤ 90°, never above 120°; extension ≤ most extension, and never above falling extension; "
        "a sliding point is limited"
    ),
    limits=(ADVISED, GREATEST, EXTENSION, FALL),
    sources=(Source("rescue course cards: equalised, no extension, angles", "unnamed"),),
    prevents=("legs_share_badly",),
    examples=(
        sound("highline"),
        sound("low"),
        sound("highline", {f"{WEST}.included_angle": "89 deg", f"{WEST}.extension": "0.098 m"}),
        faulty(
            "highline",
            {f"{WEST}.included_angle": "91 deg"},
            at=f"{WEST}.included_angle",
            signal=Signal.WARNING,
        ),
        faulty("highline", {f"{WEST}.included_angle": "119 deg"}, signal=Signal.WARNING),
        faulty("highline", {f"{WEST}.included_angle": "121 deg"}, signal=Signal.DANGER),
        faulty("highline", {f"{WEST}.extension": "0.102 m"}, at=f"{WEST}.extension", signal=Signal.CAUTION),
        faulty("highline", {f"{WEST}.extension": "0.295 m"}, signal=Signal.CAUTION),
        faulty("highline", {f"{WEST}.extension": "0.305 m"}, at=f"{WEST}.extension", signal=Signal.DANGER),
        faulty("highline", {f"{WEST}.extension": "3 m"}, signal=Signal.DANGER),
        faulty("low", {"chain[2]": _spread("fixed", "3 m")}, at="chain[2].extension", signal=Signal.WARNING),
        sound("highline", {f"{WEST}.share": "sliding_limited"}),
        sound("highline", {f"{WEST}.share": "sliding", f"{WEST}.extension": "0 m"}),
        faulty("highline", {f"{WEST}.share": "sliding"}, at=f"{WEST}.share", signal=Signal.DANGER),
        faulty("highline", {"backups[0].chain[1].share": "sliding"}, at="backups[0].chain[1].share"),
        faulty("highline", {f"{WEST}.share": "sliding", f"{WEST}.extension": "3 m"}, signal=Signal.DANGER),
        faulty("low", {"chain[2]": _spread("sliding", "0.3 m")}, at="chain[2].share", signal=Signal.WARNING),
        sound("highline", {f"{WEST}.share": REMOVE, f"{WEST}.legs": [{"to": "w1"}]}),
        *(open_("highline", {f"{WEST}.{key}": REMOVE}, at=f"{WEST}.{key}") for key in FIELDS),
        sound("highline", {f"{WEST}.included_angle": "90 deg"}),
        faulty("highline", {f"{WEST}.included_angle": "120 deg"}, signal=Signal.WARNING),
    ),
)
def legs(case: Case, placed: Placed) -> Iterator[Fault]:
    part = placed.part
    if len(part.legs or []) < 2:  # noqa: PLR2004 - one leg is no spread
        return
    if part.included_angle is not None:
        yield from _angle(case, placed, part.included_angle)
    if part.extension is not None and part.share is not None:
        yield from _extension(case, placed, part.extension)
    need_all(*((getattr(part, key), case.on_part(placed, key)) for key in FIELDS))


def _angle(case: Case, placed: Placed, angle: Quantity) -> Iterator[Fault]:
    beyond = angle.si > case.limit(GREATEST)
    limit = GREATEST if beyond else ADVISED
    if angle.si <= case.limit(limit):
        return
    at = case.on_part(placed, "included_angle")
    yield Fault(
        at,
        f"The legs open to {degrees(angle.si):.0f}°, so each of two carries "
        f"{rounded(0.5 / max(cos(angle.si / 2), 0.001))} × the line. At most "
        f"{degrees(case.limit(limit)):.0f}°.",
        f"Lengthen the legs until they close to {degrees(case.limit(ADVISED)):.0f}° or less. 60° is better.",
        value=degrees(angle.si),
        limit=degrees(case.limit(limit)),
        unit="deg",
        inputs=(case.given("included angle", "θ", angle, at),),
        signal=Signal.DANGER if beyond else Signal.WARNING,
        source=limit.source,
    )


def _extension(case: Case, placed: Placed, extension: Quantity) -> Iterator[Fault]:
    share = need(placed.part.share, case.on_part(placed, "share"))
    most = case.limit(EXTENSION)
    # Without a stop in the legs nothing but their length ends the slide, so no drop is short enough.
    sliding = share == "sliding" and extension.si > 0.0
    if not sliding and extension.si <= most:
        return
    far = extension.si > case.limit(FALL)
    how = "slides without a limit and falls" if sliding else "falls"
    limit = 0.0 if sliding else case.limit(FALL) if far else most
    yield Fault(
        case.on_part(placed, "share" if sliding else "extension"),
        f"If one leg fails, the point where the legs meet {how} {extension.text} onto the legs that are left.",
        _to_change(most, sliding=sliding, drops=extension.si > most),
        value=extension.si,
        limit=limit,
        unit="m",
        inputs=(case.given("extension", "e", extension, case.on_part(placed, "extension")),),
        signal=None if sliding or far else Signal.CAUTION,
        source=Source("rescue course cards: equalised, no extension", "unnamed")
        if sliding
        else EXTENSION.source,
    )


def _to_change(most_m: float, *, sliding: bool, drops: bool) -> str:
    """Say what to change: how the load is shared, where the point slides, and how far it may drop."""
    so_that = f", so that it drops at most {most_m:g} m" if drops else ""
    if not sliding:
        return f"Tie the point off closer, or put the knots in the legs nearer to it{so_that}."
    return (
        "Share the load another way: tie the point off (share: fixed), or limit its slide with "
        f"knots in the legs (share: sliding_limited){so_that}."
    )
