"""The sheet's ends: bolts, trees, boulders and other anchors."""

from __future__ import annotations

from math import degrees, pi

from riglint.loads import Loads
from riglint.loads.inputs import known
from riglint.loads.path.ends import End
from riglint.mechanics.anchors.green_wood_table import WORKS
from riglint.model.values.defaults import DEFAULTS
from riglint.model.values.ratios import PEAK
from riglint.model.values.sources import OWN, Mark, Source
from riglint.views.blocks import GEOMETRY, Block, Column, Note, Section, Table, Worked, WorkedInput, sourced
from riglint.views.figures import fixed, kn, number

POINTS = (
    Column("bolt"),
    Column("force", "kN"),
    Column("ratio"),
    Column("asked"),
    Column("one lost", "kN", "force with one lost"),
    Column("ratio", "", "ratio with one lost"),
    Column("asked", "", "asked with one lost"),
)
POINT_FORMULA = (
    "ratio = 1/(axial pull/axial strength + radial pull/radial strength); "
    "two legs carry T/(2·cos(θ/2)), of three or more only two are credited"
)
BENDING = Source("beam theory; 1.5 as in tree statics; quality factor own choice", "own")
ROOTS = "stem only: roots, decay, forks and lean are for a person to look at"


def anchors_section(loads: Loads) -> Section | None:
    """Return what each end's anchor sees."""
    blocks: list[Block] = []
    for end in known(lambda: list(loads.ends())) or []:
        blocks += known(lambda end=end: _end(loads, end)) or []  # type: ignore[misc]
    return Section("Anchors", tuple(blocks)) if blocks else None


def end_name(end: End) -> str:
    """Return which end this is, in words."""
    return f"{end.name}, {end.backup}" if end.backup else end.name


def _end(loads: Loads, end: End) -> list[Block]:
    kind = end.structure.kind
    if not end.carries:
        return []
    if kind == "tree":
        return [] if end.backup else _tree(loads, end)
    if kind == "bolts":
        return _bolts(loads, end)
    return _resists(loads, end)


def _bolts(loads: Loads, end: End) -> list[Block]:
    pull, word = end.pull(), loads.consequence.word
    held, lost = ("backup", None) if end.backup else ("anchor_point", "anchor_point_one_lost")
    all_hold = loads.values.required(held, word)
    one_lost = loads.values.required(lost, word) if lost else None
    rows = [
        (
            f"{end_name(end)}: {one.name}",
            kn(one.force_n),
            fixed(one.ratio),
            number(all_hold) or "–",
            kn(one.force_one_lost_n),
            fixed(one.ratio_one_lost),
            number(one_lost) or "–",
        )
        for one in end.points(pull.line_n)
    ]
    return [
        Table(POINTS, tuple(rows), f"{end_name(end)}: {pull.state}, {kn(pull.line_n)} kN in the line"),
        *(_point(end, held, one.name, one.force_n, one.ratio) for one in end.points(pull.line_n)),
        Note("formula", POINT_FORMULA),
        Note("asked", sourced(PEAK[held].source)),
    ]


def _point(end: End, row: str, name: str, force_n: float, ratio: float) -> Worked:
    point = end.structure.points[name]
    angle = point.pull_from_radial.si if point.pull_from_radial else 0.0
    radial = point.radial.si if point.radial else 0.0
    axial = point.axial.si if point.axial else radial
    legs = end.legs
    opening = legs.part.included_angle if legs is not None else None
    inputs = [
        WorkedInput(
            "F", force_n / 1000.0, "kN", f"θ {degrees(opening.si):.3g}°" if opening else "all of the line"
        ),
        WorkedInput("α", degrees(angle), "°", "pull from radial"),
        WorkedInput("N", axial / 1000.0, "kN", "axial strength"),
        WorkedInput("V", radial / 1000.0, "kN", "radial strength"),
    ]
    pull, alpha = kn(force_n), f"{degrees(angle):.3g}°"
    working = f"1/({pull} × sin {alpha} / {kn(axial)} + {pull} × cos {alpha} / {kn(radial)})"
    formula = "1/(F·sin α/N + F·cos α/V)"
    label = f"{end_name(end)} {name}"
    return Worked(label, "bolt", "ratio", formula, working, ratio, "", PEAK[row].source, tuple(inputs))


def _tree(loads: Loads, end: End) -> list[Block]:
    stem, tree = end.stem(), end.structure
    girth = tree.girth.si if tree.girth else 0.0
    mark: Mark = "own" if stem.wood.how == "unknown" else "published" if stem.wood.read else "memory"
    words = ". ".join(filter(None, (stem.wood_words, stem.wood.source)))
    wood = Source(words, mark, WORKS.get(stem.wood.source, ()))
    diameter = Worked(
        end.name,
        "diameter of the wood",
        "d",
        "C/π − 2·bark",
        f"{girth:.3f} / π − 2 × {stem.bark_m:.3f}",
        stem.diameter_m,
        "m",
        GEOMETRY,
        (
            WorkedInput("C", girth, "m", "girth"),
            WorkedInput("bark", stem.bark_m, "m", str(tree.bark), DEFAULTS[f"bark.{tree.bark}"].source),
        ),
        digits=3,
    )
    pull = stem.pull
    stress = Worked(
        end.name,
        "bending stress at the ground",
        "σ",
        "32·T·h/(π·d³)",
        f"32 × {pull.tension_n:.0f} × {pull.height_m:.2f} / ({pi:.4f} × {stem.diameter_m:.3f}³) / 10⁶",
        stem.stress_pa / 1e6,
        "MPa",
        BENDING,
        (
            WorkedInput("T", pull.tension_n / 1000.0, "kN", pull.state),
            WorkedInput("h", pull.height_m, "m", "height of the sling"),
        ),
    )
    allowed = Worked(
        end.name,
        "stress that the stem is credited with",
        "σ_a",
        "f_c/(1.5·q)",
        f"{stem.wood.compression_pa / 1e6:.1f} / ({loads.values['stem_safety']:g} × {stem.quality:g})",
        stem.allowable_pa / 1e6,
        "MPa",
        BENDING,
        (
            WorkedInput("f_c", stem.wood.compression_pa / 1e6, "MPa", "", wood),
            WorkedInput("q", stem.quality, "", f"health: {tree.health or 'not said'}", OWN),
        ),
    )
    ratio = Worked(
        end.name,
        "stem",
        "ratio",
        "σ_a/σ",
        f"{stem.allowable_pa / 1e6:.2f} / {stem.stress_pa / 1e6:.2f}",
        stem.ratio,
        "",
        BENDING,
        (WorkedInput("asked", 1.0),),
    )
    return [diameter, stress, allowed, ratio, Note(end.name, ROOTS)]


def _resists(loads: Loads, end: End) -> list[Block]:
    pull = end.pull()
    resists = end.resistance_n(pull.uplift_n)
    if resists is None:
        return []
    structure = end.structure
    row = "boulder" if structure.kind == "boulder" else "ground_anchor"
    asked = loads.values.required(row, loads.consequence.word)
    inputs = [
        WorkedInput("T", pull.tension_n / 1000.0, "kN", pull.state),
        WorkedInput("asked", asked or "none", "", row),
    ]
    if structure.kind == "boulder" and structure.mass is not None:
        inputs += [
            WorkedInput("m", structure.mass.si, "kg"),
            WorkedInput("μ", structure.friction or 0.0),
            WorkedInput("uplift", pull.uplift_n / 1000.0, "kN"),
            WorkedInput("R", resists / 1000.0, "kN", "μ·(m·g − uplift)"),
        ]
    else:
        inputs.append(WorkedInput("R", resists / 1000.0, "kN", "tested or designed for"))
    working = f"{kn(resists)} / {kn(pull.tension_n)}"
    ratio = resists / pull.tension_n if pull.tension_n else None
    source = PEAK[row].source
    kind = structure.kind.replace("_", " ")
    return [Worked(end_name(end), kind, "ratio", "R/T", working, ratio, "", source, tuple(inputs))]
