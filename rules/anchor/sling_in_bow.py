"""A flat sling lies flat in its shackle instead of folding into a narrow bow.

Judged where the shelf gives the shackle's jaw, which few labels do: without it this rule says nothing. The
curve that the band lies on is taken from the jaw: half of it in a dee, 0.8 of it in a bow, whose inside is
about 1.6 times as wide as its jaw (tables of bow shackles, from memory). Round slings are left out: their
core bunches by design.
"""

from collections.abc import Iterator

from riglint.rulekit import (
    Case,
    Fault,
    Input,
    Limit,
    Placed,
    Signal,
    Source,
    everywhere,
    faulty,
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
        "sling user manual: bands up to 75 mm need a radius of 0.75 times their bearing width", "published"
    ),
)
WIDEST = Limit(
    name="widest_band",
    text="75 mm",
    dimension="length",
    tighter="higher",
    because="The figure that was read holds for bands up to this width.",
    source=Source("sling user manual: bands up to 75 mm", "published"),
)
RADIUS_TO_JAW = {"bow": 0.8, "dee": 0.5}
SLING, SHACKLE = "shelf[0].items.RS-1", "shelf[0].items.SH-1"


def _band(width: str, jaw: str, shape: str = "bow") -> dict[str, object]:
    return {
        f"{SLING}.kind": "flat_sling",
        f"{SLING}.width": width,
        f"{SHACKLE}.jaw": jaw,
        f"{SHACKLE}.shape": shape,
    }


@rule(
    title="The sling folds in its shackle",
    each=everywhere("sling", "sewn_end"),
    signal=Signal.CAUTION,
    why="A band folded into a narrow bow carries on its middle alone and starts to tear there.",
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
        sound("low", _band("76 mm", "40 mm")),
        faulty("low", {"shelf[0].items.SH-2.jaw": "22 mm"}, at="chain[6].gear"),
        sound("low", {"shelf[0].items.SH-2.jaw": "27 mm"}),
    ),
)
def sling_in_bow(case: Case, placed: Placed) -> Iterator[Fault]:
    band = placed.item.gear if placed.item else None
    if band is None or band.kind not in {"flat_sling", "sewn_end"} or band.width is None:
        return
    if band.width.si > case.limit(WIDEST):
        return
    for shackle in case.beside(placed):
        gear = shackle.item.gear if shackle.item else None
        if gear is None or gear.kind != "shackle" or gear.jaw is None or gear.shape is None:
            continue
        radius, least = RADIUS_TO_JAW[gear.shape] * gear.jaw.si, case.limit(LEAST) * band.width.si
        if radius >= least:
            continue
        jaw = least / RADIUS_TO_JAW[gear.shape] * 1e3
        yield Fault(
            case.on_part(placed, "gear"),
            f"The {band.width.text} of {placed.words} lie on a curve of about {rounded(radius * 1e3)} mm in "
            f"{shackle.words}; {rounded(least * 1e3, 'up')} mm is the least.",
            f"Use a shackle with a jaw of {rounded(jaw, 'up')} mm or more there, or a sling with a narrower band.",
            value=radius * 1e3,
            limit=least * 1e3,
            unit="mm",
            inputs=(
                case.given("width of the band", "b", band.width, case.on_part(placed, "gear")),
                case.given("jaw", "w", gear.jaw, case.on_part(shackle, "gear")),
                Input("radius to jaw, from memory", "k", RADIUS_TO_JAW[gear.shape], "1"),
            ),
            source=LEAST.source,
        )
