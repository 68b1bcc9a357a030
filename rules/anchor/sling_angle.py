"""A sling is long enough to close at a narrow angle."""

from collections.abc import Iterator
from math import degrees

from riglint.rulekit import (
    REMOVE,
    Case,
    Fault,
    Input,
    LaidSling,
    Limit,
    Signal,
    Source,
    each_sling,
    faulty,
    need,
    open_,
    rule,
    sound,
)

ADVISED = Limit(
    name="advised_angle",
    text="90 deg",
    dimension="angle",
    tighter="lower",
    because="Up to 90° between its legs a basket holds 1.4 × its straight strength, beyond that only 1.0 ×.",
    source=Source(
        "EN 1492 mode factors, from a sling user manual: 45° from the vertical", "standard", ("en_1492",)
    ),
)
GREATEST = Limit(
    name="greatest_angle",
    text="120 deg",
    dimension="angle",
    tighter="lower",
    because="Beyond 120° between the legs each leg carries more than the line, and no sling is rated for it.",
    source=Source(
        "EN 1492 mode bands, and the limit of shackle makers: 60° from the vertical", "standard", ("en_1492",)
    ),
)


def _spread(**first: str) -> dict[str, object]:
    slings = ({"part": "sling", "gear": "RS-1"} | first, {"part": "sling", "hitch": "straight"})
    legs = [{"to": "gate", "chain": [sling]} for sling in slings]
    return {"part": "legs", "share": "fixed", "included_angle": "60 deg", "legs": legs}


TREE_BACKUP: dict[str, object] = {
    "spot.anchors.west": {
        "kind": "tree",
        "girth": "1.6 m",
        "bark": "rough",
        "health": "sound",
        "fork": "none",
    },
    "backups[0].chain[1]": {"part": "sling", "gear": "RS-7", "hitch": "basket"},
}


@rule(
    title="The sling is too short for its anchor",
    each=each_sling,
    signal=Signal.CAUTION,
    raised={"fall": Signal.WARNING, "life": Signal.WARNING},
    worst=Signal.DANGER,
    why=(
        "A short sling opens wide at its shackle. Each leg carries more, and the shackle is "
        "pulled apart sideways."
    ),
    formula="θ from ℓ/C = (2·cot(θ/2) + π + θ)/(2π); θ ≤ 90°, never above 120°",
    limits=(ADVISED, GREATEST),
    prevents=("sling_legs_too_wide", "sling_short_for_girth"),
    examples=(
        sound("long_haul"),
        sound("long_haul", {"shelf[0].items.RS-1.length": "1.75 m"}),
        faulty(
            "long_haul", {"shelf[0].items.RS-1.length": "1.72 m"}, at="chain[2].gear", signal=Signal.WARNING
        ),
        faulty("low", {"shelf[0].items.RS-1.length": "1.6 m"}, at="chain[2].gear", signal=Signal.CAUTION),
        faulty(
            "long_haul", {"shelf[0].items.RS-1.length": "1.66 m"}, at="chain[2].gear", signal=Signal.WARNING
        ),
        faulty(
            "long_haul", {"shelf[0].items.RS-1.length": "1.65 m"}, at="chain[2].gear", signal=Signal.DANGER
        ),
        faulty(
            "low",
            {"shelf[0].items.RS-1.length": "1.5 m"},
            at="chain[2].gear",
            signal=Signal.DANGER,
            shows="sling_short_for_girth",
        ),
        sound("long_haul", {"chain[2].included_angle": "90 deg"}),
        faulty(
            "long_haul",
            {"chain[2].included_angle": "91 deg"},
            at="chain[2].included_angle",
            shows="sling_legs_too_wide",
        ),
        faulty(
            "long_haul",
            {"chain[2].hitch": "choke", "shelf[0].items.RS-1.length": "1.6 m"},
            signal=Signal.DANGER,
        ),
        sound("long_haul", {"chain[2].hitch": "choke", "shelf[0].items.RS-1.length": "1.7 m"}),
        # An angle that somebody stated does not make a sling longer than it is.
        faulty(
            "low",
            {"chain[2].included_angle": "60 deg", "shelf[0].items.RS-1.length": "1.5 m"},
            at="chain[2].gear",
            signal=Signal.DANGER,
        ),
        sound("low", {"chain[2].included_angle": "60 deg", "shelf[0].items.RS-1.length": REMOVE}),
        sound("low", {"chain[2]": _spread(hitch="straight")}),
        # Between two parts, and round another of the spot's trees.
        sound(
            "low",
            {"chain[2].hitch": "basket", "chain[2].around": "SH-1", "shelf[0].items.RS-1.length": "0.4 m"},
        ),
        faulty(
            "low", {"chain[2].around": "barn", "shelf[0].items.RS-1.length": "1.4 m"}, signal=Signal.DANGER
        ),
        faulty("highline", TREE_BACKUP, at="backups[0].chain[1].gear", signal=Signal.DANGER),
        faulty("low", {"chain[2]": _spread(hitch="basket", included_angle="121 deg")}, signal=Signal.DANGER),
        sound("low", {"chain[2]": _spread(hitch="basket")}),
        faulty(
            "low",
            {"chain[2]": _spread(hitch="basket"), "shelf[0].items.RS-1.length": "1.5 m"},
            at="chain[2].legs[0].chain[0].gear",
        ),
        open_(
            "low",
            {"spot.anchors.gate": {"kind": "boulder", "mass": "9 t"}},
            at="chain[2].included_angle",
        ),
        open_("long_haul", {"shelf[0].items.RS-1.length": REMOVE}, at="shelf[0].items.RS-1.length"),
        open_("long_haul", {"spot.anchors.north.girth": REMOVE}, at="spot.anchors.north.girth"),
        open_("long_haul", {"chain[2].hitch": REMOVE}, at="chain[2].hitch"),
        open_("long_haul", {"chain[2].gear": REMOVE}, at="chain[2].gear"),
    ),
)
def sling_angle(case: Case, sling: LaidSling) -> Iterator[Fault]:
    placed, contact = sling.placed, sling.contact
    hitch = need(placed.part.hitch, sling.at("hitch"))
    if hitch == "straight":
        return
    stated = placed.part.included_angle
    # An angle measured on site beats a computed one, unless no sling that short can lie as stated.
    if stated is not None and not _known_to_be_short(sling):
        yield from _too_wide(case, sling, stated.si)
    elif contact.kind == "tree":
        yield from _round_trunk(case, sling, hitch)
    # Round a pin or ring both legs lie side by side. A boulder has no girth to compute the angle from.
    elif not contact.thin and hitch in {"basket", "wrap"}:
        need(stated, sling.at("included_angle"))


def _known_to_be_short(sling: LaidSling) -> bool:
    """Return whether sling and girth on file show that no angle can be right: it does not close round the trunk."""
    tree, item = sling.contact.structure, sling.placed.item
    if (
        sling.contact.kind != "tree"
        or tree is None
        or tree.girth is None
        or item is None
        or item.gear.length is None
    ):
        return False
    return sling.geometry.sling_shape(sling.placed).angle_rad is None


def _round_trunk(case: Case, sling: LaidSling, hitch: str) -> Iterator[Fault]:
    shape = sling.geometry.sling_shape(sling.placed)
    inputs = (
        Input("sling", "ℓ", shape.length_m, "m"),
        Input("girth with protector", "C", shape.girth_m, "m"),
    )
    if shape.angle_rad is None:
        yield Fault(
            sling.at("gear"),
            f"{shape.length_m:.3g} m of {sling.words} is too short for {shape.girth_m:.3g} m of girth.",
            _longer(case, sling),
            value=shape.length_m,
            limit=shape.girth_m,
            unit="m",
            inputs=inputs,
            signal=Signal.DANGER,
        )
    elif hitch in {"basket", "wrap"}:
        yield from _too_wide(case, sling, shape.angle_rad, inputs)


def _too_wide(case: Case, sling: LaidSling, angle: float, inputs: tuple[Input, ...] = ()) -> Iterator[Fault]:
    advised, greatest = case.limit(ADVISED), case.limit(GREATEST)
    beyond = angle > greatest
    if not beyond and angle <= advised:
        return
    limit = greatest if beyond else advised
    yield Fault(
        sling.at("gear" if inputs else "included_angle"),
        f"The legs of {sling.words} open to {degrees(angle):.0f}°. At most {degrees(limit):.0f}°.",
        _longer(case, sling)
        if inputs
        else f"Use a longer sling, so that its legs close to {degrees(advised):.0f}°.",
        value=degrees(angle),
        limit=degrees(limit),
        unit="deg",
        inputs=inputs,
        signal=Signal.DANGER if beyond else None,
        source=GREATEST.source if beyond else ADVISED.source,
    )


def _longer(case: Case, sling: LaidSling) -> str:
    advised = case.limit(ADVISED)
    length = sling.geometry.sling_length_m(sling.placed, advised) + 0.005  # rounded up when printed
    return f"Use a sling of at least {length:.2f} m there. It closes to {degrees(advised):.0f}° or less."
