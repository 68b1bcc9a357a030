"""The stem of a tree bends less than green wood is credited with. The stem only: roots are for the eyes."""

from collections.abc import Iterator
from math import floor, pi

from riglint.rulekit import (
    OWN,
    REMOVE,
    At,
    Case,
    End,
    Fault,
    Input,
    Limit,
    MissingInput,
    Signal,
    Source,
    anchor_height,
    either,
    ends,
    faulty,
    lower_tension,
    open_,
    review,
    rounded,
    rule,
    sound,
)

LEAST_DIAMETER = Limit(
    name="least_diameter",
    text="0.30 m",
    dimension="length",
    tighter="higher",
    because="The sling damages a thinner tree, and the tree bends too far.",
    source=Source(
        "DIN 79400 as carried by Swiss, Indian and German federations",
        "standard",
        ("din_79400", "swiss_ten_principles", "portuguese_rules"),
    ),
)
LEAST_RATIO = Limit(
    name="least_ratio",
    text="1.0",
    dimension=None,
    tighter="higher",
    because="The allowable stress already includes a factor of 1.5 and the quality factor of a standing tree.",
    source=Source(
        "tree statics practice asks 1.5 and judges compression first; quality factor own choice",
        "published",
        ("sag_baumstatik",),
    ),
)
SWELL = Limit(
    name="above_the_root_swell",
    text="0.5 m",
    dimension="length",
    tighter="higher",
    because=(
        "Below this height the stem flares into its roots. A girth taken there makes the "
        "stem look far stronger."
    ),
    source=Source("forestry measures stems at breast height, 1.3 m, above the root swell", "practice"),
)
NORTH = "spot.anchors.north"
GATE = "spot.anchors.gate"
WESTERN = {f"{NORTH}.species": "western larch"}
SMOOTH = {f"{GATE}.bark": "smooth"}
SNAG: dict[str, object] = {
    "spot.anchors.snag": {
        "kind": "tree",
        "species": "oak",
        "girth": "1.6 m",
        "bark": "smooth",
        "health": "dead",
        "fork": "none",
    },
    "backups[0].chain[0].at": "snag",
    "backups[0].chain[1]": {"part": "sling", "gear": "RS-7", "hitch": "choke"},
}


def _lime(girth: str, height: str | None = None, **keys: str) -> dict[str, object]:
    """Share the long line's north end with a lime, whose leg may hang at another height than the anchor's."""
    legs = [{"to": "north"}, {"to": "lime"} | ({"height": height} if height else {})]
    spread = {"part": "legs", "share": "fixed", "included_angle": "60 deg", "legs": legs}
    lime = {
        "kind": "tree",
        "species": "lime",
        "girth": girth,
        "bark": "rough",
        "health": "sound",
        "fork": "none",
    }
    return {"chain[2]": spread, "spot.anchors.lime": lime | keys}


@rule(
    title="The tree's stem is too weak for this pull, or in doubt",
    each=ends("tree"),
    signal=Signal.WARNING,
    raised={"life": Signal.DANGER},
    worst=Signal.DANGER,
    why="A stem that breaks falls on the people beside it and drops the whole line.",
    formula="σ = 32·T·h/(π·d³) ≤ green compression strength/(1.5·quality); girth/π ≥ least diameter",
    limits=(LEAST_RATIO, LEAST_DIAMETER, SWELL),
    sources=(
        Source(
            "USDA Wood Handbook FPL-GTR-282, table 5-3a: green, small clear specimens, mean values",
            "published",
            ("wood_handbook",),
        ),
        OWN,
    ),
    prevents=(
        "tree_too_thin",
        "tree_sick_or_forked",
        "sling_high_on_trunk",
        "local_tree_rule_broken",
    ),
    examples=(
        sound("long_haul"),
        sound("low"),
        sound("long_haul", WESTERN | {f"{NORTH}.girth": "1.01 m"}),
        faulty(
            "long_haul",
            WESTERN | {f"{NORTH}.girth": "1.00 m"},
            at="chain[0].height",
            signal=Signal.WARNING,
            shows="sling_high_on_trunk",
        ),
        faulty(
            "long_haul",
            {f"{NORTH}.girth": "1.00 m", "plan.consequence": "life"},
            at="chain[0].height",
            signal=Signal.DANGER,
        ),
        faulty(
            "long_haul",
            {f"{NORTH}.girth": "1.15 m", f"{NORTH}.species": "horse chestnut"},
            at="chain[0].height",
        ),
        sound("low", SMOOTH | {f"{GATE}.girth": "0.95 m"}),
        faulty(
            "low",
            SMOOTH | {f"{GATE}.girth": "0.94 m"},
            at=f"{GATE}.girth",
            signal=Signal.WARNING,
            shows=("tree_too_thin", "local_tree_rule_broken"),
        ),
        faulty(
            "low",
            {f"{GATE}.health": "doubtful"},
            at=f"{GATE}.health",
            signal=Signal.DANGER,
            shows="tree_sick_or_forked",
        ),
        faulty("low", {f"{GATE}.health": "dead"}, at=f"{GATE}.health", signal=Signal.DANGER),
        faulty("highline", SNAG, at="spot.anchors.snag.health", signal=Signal.DANGER),
        sound("highline", {**SNAG, "spot.anchors.snag.health": "sound"}),
        # A leg to another tree counts like an end: with its share, at its height.
        sound("long_haul", _lime("0.98 m")),
        faulty("long_haul", _lime("0.97 m"), at="chain[0].height", signal=Signal.WARNING),
        faulty("long_haul", _lime("0.98 m", "2.5 m"), at="chain[2].legs[1].height", signal=Signal.WARNING),
        faulty("long_haul", _lime("2 m", health="dead"), at="spot.anchors.lime.health", signal=Signal.DANGER),
        faulty("long_haul", _lime("0.9 m"), at="spot.anchors.lime.girth", signal=Signal.WARNING),
        open_("long_haul", _lime("2 m") | {"chain[2].share": REMOVE}, at="chain[2].share"),
        faulty("low", {f"{GATE}.fork": "v"}, at=f"{GATE}.fork", signal=Signal.WARNING),
        sound("low", {f"{GATE}.fork": "u"}),
        faulty("low", {f"{GATE}.deadwood": True}, at=f"{GATE}.deadwood", signal=Signal.WARNING),
        review(
            "low",
            {"spot.anchors.barn.girth": "0.96 m", "spot.anchors.barn.species": "cherry"},
            at="spot.anchors.barn.species",
            signal=Signal.CAUTION,
        ),
        sound("low", {f"{GATE}.girth_at": "0.51 m"}),
        faulty("low", {f"{GATE}.girth_at": "0.49 m"}, at=f"{GATE}.girth_at", signal=Signal.CAUTION),
        sound("low", {f"{GATE}.girth_at": "0.4 m", "chain[0].height": "0.4 m"}),
        open_("low", {f"{GATE}.girth": REMOVE}, at=f"{GATE}.girth"),
        open_("low", {f"{GATE}.bark": REMOVE}, at=f"{GATE}.bark"),
        open_("low", {f"{GATE}.health": REMOVE}, at=f"{GATE}.health"),
        open_("low", {f"{GATE}.fork": REMOVE}, at=f"{GATE}.fork"),
        open_("low", {"chain[0].height": REMOVE}, at="chain[0].height"),
        open_("low", {"plan.users": REMOVE}, at="plan.users"),
    ),
)
def tree_stem(case: Case, end: End) -> Iterator[Fault]:
    name, tree = end.name, end.structure
    told = end.backup is not None and name in case.main_structures
    missing: list[At] = []
    if not told:
        yield from _seen(case, end)
        fields = ("girth", "bark", "fork", "health")
        missing = [case.on_spot("anchors", name, field) for field in fields if getattr(tree, field) is None]
    # Tables give the strength of sound wood: rotten wood gets no number, which could only mislead.
    if tree.girth is not None and tree.bark is not None and tree.health not in {"doubtful", "dead"}:
        try:
            yield from _bending(case, end)
        except MissingInput as more:
            missing += more.fields
    elif end.anchor.part.height is None:
        missing.append(end.height_at)
    if missing:
        raise MissingInput(*missing)


def _seen(case: Case, end: End) -> Iterator[Fault]:
    """Judge what a look and a tape tell, without any force."""
    anchor, name, tree = end.anchor, end.name, end.structure
    if tree.health in {"doubtful", "dead"}:
        yield Fault(
            case.on_spot("anchors", name, "health", part=anchor.id),
            f"The tree '{name}' is {tree.health}. We credit its stem with no strength.",
            f"Choose another tree for the end '{name}', or have someone who knows trees judge it.",
            signal=Signal.DANGER,
        )
    if tree.fork == "v":
        yield Fault(
            case.on_spot("anchors", name, "fork", part=anchor.id),
            f"The stem of '{name}' has a V-shaped fork. Such forks split, and no bending formula covers that.",
            f"Choose another tree for '{name}', or have someone who knows trees judge the fork.",
            signal=Signal.WARNING,
        )
    if tree.deadwood:
        yield Fault(
            case.on_spot("anchors", name, "deadwood", part=anchor.id),
            f"Dead limbs of '{name}' hang over the line or people. A bouncing line shakes them down.",
            f"Choose another tree for '{name}', or have someone who knows trees take the dead limbs out.",
            signal=Signal.WARNING,
        )
    yield from _at_the_root_swell(case, end)
    least = case.limit(LEAST_DIAMETER)
    # Over the bark, as a tape measure lies; the bending is computed inside the bark.
    if tree.girth is not None and tree.girth.si < pi * least:
        at = case.on_spot("anchors", name, "girth", part=anchor.id)
        yield Fault(
            at,
            f"The tree '{name}' is {tree.girth.si / pi:.3f} m thick. At least {least:.2f} m.",
            f"Choose a tree of at least {rounded(pi * least, 'up')} m girth for '{name}'.",
            value=tree.girth.si / pi,
            limit=least,
            unit="m",
            inputs=(case.given("girth", "C", tree.girth, at),),
            signal=Signal.WARNING,
            source=LEAST_DIAMETER.source,
        )


def _at_the_root_swell(case: Case, end: End) -> Iterator[Fault]:
    taken, height = end.structure.girth_at, end.anchor.part.height
    least = case.limit(SWELL)
    if taken is None or taken.si >= least or (height is not None and height.si <= least):
        return
    at = case.on_spot("anchors", end.name, "girth_at", part=end.anchor.id)
    yield Fault(
        at,
        f"The girth of '{end.name}' was measured {taken.text} up, at the root flare. The stem above is thinner.",
        f"Measure the girth again at least {least:g} m up, best at the sling.",
        value=taken.si,
        limit=least,
        unit="m",
        inputs=(case.given("height of the measurement", "h", taken, at),),
        signal=Signal.CAUTION,
        source=SWELL.source,
    )


def _bending(case: Case, end: End) -> Iterator[Fault]:
    name, stem, least = end.name, end.stem(), case.limit(LEAST_RATIO)
    pull, mpa = stem.pull, 1e-6
    inputs = (
        Input("peak at this end", "T", pull.tension_n / 1e3, "kN"),
        Input("height of the pull", "h", pull.height_m, "m", end.height_at.reference),
        Input("diameter inside the bark", "d", stem.diameter_m, "m"),
        Input(stem.wood_words, "σc", stem.wood.compression_pa * mpa, "MPa"),
        Input("quality factor", "q", stem.quality, "1"),
    )
    if stem.ratio < least:
        # Rounded down, so that the height advised holds when it is taken at its word.
        height = floor(stem.greatest_height_m(least) * 100) / 100
        at = end.height_at
        remedies = case.put_right(at, anchor_height(end.anchor, "down"), lower_tension)
        by_hand = (
            f"sling '{name}' at {height:.2f} m or lower",
            f"keep the peak under {stem.greatest_tension_n(least) / 1e3:.3g} kN",
        )
        yield Fault(
            at,
            f"{pull.tension_n / 1e3:.3g} kN at {pull.height_m:.3g} m bends the stem of "
            f"'{name}' to {stem.stress_pa * mpa:.3g} MPa. We credit it with "
            f"{stem.allowable_pa / least * mpa:.3g} MPa ({stem.wood_words}).",
            either(
                *remedies.or_else(*by_hand),
                (f"use a tree of at least {rounded(stem.least_girth_m(least), 'up')} m girth"),
            ),
            value=stem.ratio,
            limit=least,
            unit="1",
            inputs=inputs,
            state=pull.state,
            remedies=remedies,
        )
    # A review and no fault: the tree may be of a weaker species, and only somebody who knows trees can tell.
    elif stem.one_species_for_genus and stem.ratio_of_weakest < least:
        height = floor(pull.height_m * stem.ratio_of_weakest / least * 100) / 100
        yield Fault(
            case.on_spot("anchors", name, "species", part=end.anchor.id),
            f"The stem of '{name}' passes only as {stem.wood_words}.",
            f"Name the full species of '{name}'. If it is the weakest of its genus, put the sling "
            f"at {height:.2f} m or lower.",
            value=stem.ratio_of_weakest,
            limit=least,
            unit="1",
            inputs=inputs,
            state=pull.state,
            kind="review",
            signal=Signal.CAUTION,
        )
