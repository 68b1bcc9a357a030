"""A flat sling lies flat in its shackle instead of folding into a narrow bow.

The curve that the band lies on is taken from the jaw: half of it in a dee, 0.8 of it in a bow, whose inside is
about 1.6 times as wide as its jaw (tables of bow shackles, from memory). Few labels give a jaw: without it the inside
of a bow is guessed from the rated load, and a flat sling that is wider than that is for the eyes. Round slings are
left out: their core bunches by design.
"""

from collections.abc import Iterator
from math import sqrt

from riglint.rulekit import (
    Case,
    Fault,
    G,
    Input,
    Limit,
    Placed,
    Quantity,
    Signal,
    Source,
    everywhere,
    faulty,
    first_up,
    review,
    rounded,
    rule,
    sound,
)

LEAST = Limit(
    name="least_radius",
    text="0.75",
    dimension=None,
    tighter="higher",
    because="On a tighter curve the edges of the band carry less, and the middle tears first.",
    source=Source(
        "sling user manual: bands up to 75 mm need a radius of 0.75 times their bearing width", "unnamed"
    ),
)
WIDEST = Limit(
    name="widest_band",
    text="75 mm",
    dimension="length",
    tighter="lower",
    because="The published figure covers bands up to this width. No bow in use here takes a wider band flat.",
    source=Source("sling user manual: bands up to 75 mm", "unnamed"),
)
# Inside width of a bow by its rated load, from memory: 43 mm for 3.25 t, 51 mm for 4.75 t, 68 mm for 8.5 t.
# The root: shackles of one series are alike in shape, so their strength grows with the square of their size.
MM_AT_A_TONNE = 24.0
TABLES = Source("tables of bow shackles: inside width about 24 mm · √(rated load in t)", "memory")
SLING, SHACKLE = "shelf[0].items.RS-1", "shelf[0].items.SH-1"


def _band(width: str, jaw: str, shape: str = "bow") -> dict[str, object]:
    return {
        f"{SLING}.kind": "flat_sling",
        f"{SLING}.width": width,
        f"{SHACKLE}.jaw": jaw,
        f"{SHACKLE}.shape": shape,
    }


FLAT = {f"{SLING}.kind": "flat_sling"}


@rule(
    title="The sling folds in its shackle",
    each=everywhere("sling", "sewn_end"),
    signal=Signal.CAUTION,
    why="A band folded into a narrow bow carries its load on the middle alone and starts to tear there.",
    formula="radius of the bow ≥ 0.75 · width of the band, up to 75 mm",
    limits=(LEAST, WIDEST),
    prevents=("band_folded_in_shackle",),
    examples=(
        sound("low"),
        sound("highline"),
        sound("low", {f"{SHACKLE}.jaw": "27 mm"}),
        sound("low", _band("50 mm", "48 mm")),
        faulty("low", _band("50 mm", "46 mm"), at="chain[2].gear", signal=Signal.CAUTION),
        sound("low", _band("50 mm", "76 mm", "dee")),
        faulty("low", _band("50 mm", "74 mm", "dee"), at="chain[2].gear"),
        faulty("low", _band("74 mm", "40 mm"), at="chain[2].gear"),
        faulty("low", _band("76 mm", "40 mm"), at="chain[2].gear", signal=Signal.CAUTION),
        faulty("low", FLAT | {f"{SLING}.width": "76 mm"}, at="chain[2].gear"),
        sound("low", _band("76 mm", "72 mm")),
        # A bow for 3.25 t is about 43 mm wide inside; a flat sling may be folded at its eye, so somebody looks.
        review("low", FLAT | {f"{SLING}.width": "60 mm"}, at="chain[2].gear", signal=Signal.CAUTION),
        review("low", FLAT | {f"{SLING}.width": "74 mm"}, at="chain[2].gear", signal=Signal.CAUTION),
        sound("low", FLAT | {f"{SLING}.width": "40 mm"}),
        faulty("low", {"shelf[0].items.SH-2.jaw": "22 mm"}, at="chain[6].gear"),
        sound("low", {"shelf[0].items.SH-2.jaw": "27 mm"}),
    ),
)
def sling_in_bow(case: Case, placed: Placed) -> Iterator[Fault]:
    band = placed.item.gear if placed.item else None
    if band is None or band.kind not in {"flat_sling", "sewn_end"} or band.width is None:
        return
    for shackle in case.beside(placed):
        gear = shackle.item.gear if shackle.item else None
        if gear is None or gear.kind != "shackle":
            continue
        if band.width.si > case.limit(WIDEST):
            yield from _wider_than_any_bow(case, placed, shackle, band.width)
        elif gear.jaw is None or gear.shape is None:
            yield from _assumed(case, placed, shackle, band.width)
        else:
            yield from _on_a_tight_curve(case, placed, shackle, band.width)


def _assumed(case: Case, placed: Placed, shackle: Placed, width: Quantity) -> Iterator[Fault]:
    """Ask for a look at a flat sling that is wider than a bow of that rated load is inside."""
    gear = shackle.item.gear if shackle.item else None
    rated = gear.wll if gear else None
    if placed.item is None or placed.item.gear.kind != "flat_sling" or rated is None:
        return
    inside = MM_AT_A_TONNE * sqrt(rated.si / (1e3 * G)) / 1e3
    if width.si <= inside:
        return
    yield Fault(
        case.on_part(placed, "gear"),
        f"{first_up(placed.words)} is {width.text} wide and may not lie flat in {shackle.words}. A bow "
        f"rated {rated.text} is about {rounded(inside * 1e3)} mm wide inside.",
        f"Check that the band lies flat in {shackle.words} and enter its jaw in the gear list. If "
        "it doesn't, use a wider shackle.",
        value=width.si * 1e3,
        limit=inside * 1e3,
        unit="mm",
        kind="review",
        source=TABLES,
    )


def _wider_than_any_bow(case: Case, placed: Placed, shackle: Placed, width: Quantity) -> Iterator[Fault]:
    """Tell a band too wide for every bow, unless the curve of this one is known to be wide enough."""
    gear = shackle.item.gear if shackle.item else None
    jaw_m = gear.jaw.si if gear is not None and gear.jaw is not None else 0.0
    shape = gear.shape if gear is not None else None
    if _to_jaw(case, shape) * jaw_m >= case.limit(LEAST) * width.si:
        return
    yield Fault(
        case.on_part(placed, "gear"),
        f"{first_up(placed.words)} is {width.text} wide and folds in {shackle.words}. A bow takes "
        f"at most {case.limit(WIDEST) * 1e3:.3g} mm flat.",
        "Use a round sling there, or a sling shackle with a bow as wide as the band.",
        value=width.si * 1e3,
        limit=case.limit(WIDEST) * 1e3,
        unit="mm",
        inputs=(case.given("width of the band", "b", width, case.on_part(placed, "gear")),),
        source=WIDEST.source,
    )


def _on_a_tight_curve(case: Case, placed: Placed, shackle: Placed, width: Quantity) -> Iterator[Fault]:
    gear = shackle.item.gear if shackle.item else None
    if gear is None or gear.jaw is None or gear.shape is None:
        return
    radius, least = _to_jaw(case, gear.shape) * gear.jaw.si, case.limit(LEAST) * width.si
    if radius >= least:
        return
    jaw = least / _to_jaw(case, gear.shape) * 1e3
    yield Fault(
        case.on_part(placed, "gear"),
        f"{first_up(placed.words)} is {width.text} wide on a curve of about "
        f"{rounded(radius * 1e3)} mm in {shackle.words}. At least "
        f"{rounded(least * 1e3, 'up')} mm.",
        f"Use a shackle with a jaw of at least {rounded(jaw, 'up')} mm there, or a sling with a narrower band.",
        value=radius * 1e3,
        limit=least * 1e3,
        unit="mm",
        inputs=(
            case.given("width of the band", "b", width, case.on_part(placed, "gear")),
            case.given("jaw", "w", gear.jaw, case.on_part(shackle, "gear")),
            Input("radius to jaw, from memory", "k", _to_jaw(case, gear.shape), "1"),
        ),
        source=LEAST.source,
    )


def _to_jaw(case: Case, shape: str | None) -> float:
    return case.loads.values[f"{shape or 'dee'}_to_jaw"]
