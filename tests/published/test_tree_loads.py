"""The stem of a tree in a rig: the same published values, taken from girth, bark, species and pull."""

import math
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from riglint.loadpath import build
from riglint.loads import Loads
from riglint.loads.inputs import MissingInput, NotComputable
from riglint.loads.strength.trees import TreePull, TreeStem, stem_under
from riglint.mechanics.anchors.trunk import BARK_THICKNESS_M
from riglint.model.documents.spot import Anchor
from riglint.model.library import Library
from riglint.model.references import resolve
from riglint.model.values.defaults import DEFAULTS
from riglint.model.values.policy import Values
from riglint.read.quantity import Quantity
from riglint.rulekit import REMOVE, Example, sound
from riglint.testing import edited
from tests.published.sources import Case, read_source

BARK_M = 0.010


def tree(diameter_m: float, species: str | None = None) -> Anchor:
    """A tree whose wood inside the bark has that diameter."""
    girth_m = math.pi * (diameter_m + 2 * BARK_M)
    return Anchor.model_construct(kind="tree", girth=Quantity(girth_m, 0.0, f"{girth_m} m"), species=species)


def loads_of(example: Example) -> Loads:
    path = Path("/example/rig.yaml")
    library = Library(path.parent)
    library.take(path, edited(example).encode())
    rig, _, _ = resolve(library, path)
    assert rig is not None
    return Loads(build(rig), Values(), date(2026, 5, 2))


def stem_in(example: Example, end: int = 0) -> TreeStem:
    loads = loads_of(example)
    return list(loads.ends())[end].stem()


@pytest.mark.parametrize("case", [one for one in read_source("trunk_section").cases if "stress_mpa" in one])
def test_stress_of_a_stem_from_its_girth(case: Case) -> None:
    stem = stem_under(tree(case["diameter_m"]), TreePull("bounce", 8000.0, 1.0), BARK_M, 2.0)
    assert stem.diameter_m == pytest.approx(case["diameter_m"], rel=1e-12)
    assert read_source("trunk_section").agrees(stem.stress_pa / 1e6, case["stress_mpa"])


@pytest.mark.parametrize("case", read_source("white_oak_moment").cases)
def test_credited_moment_is_a_third_of_the_failure_moment(case: Case) -> None:
    """1.5 (tree statics) times quality 2.0 is 3: a third of a clear stem's failure moment gives ratio 1."""
    moment_nm = float(case["compression_moment_knm"]) * 1e3 / 3.0
    pull = TreePull("bounce", moment_nm / 1.3, 1.3)
    stem = stem_under(tree(case["diameter_m"], case["species"]), pull, BARK_M, 2.0)
    assert stem.ratio == pytest.approx(1.0, abs=0.005 / 64.94 + 1e-9)  # printed to 0.01 kNm


def test_solved_for_each_answer_gives_the_ratio_asked() -> None:
    pull = TreePull("bounce", 20e3, 2.0)
    stem = stem_under(tree(0.30, "oak, white"), pull, BARK_M, 2.0)
    for other in (
        stem_under(
            tree(0.30, "oak, white"), TreePull("bounce", 20e3, stem.greatest_height_m(1.2)), BARK_M, 2.0
        ),
        stem_under(
            tree(0.30, "oak, white"), TreePull("bounce", stem.greatest_tension_n(1.2), 2.0), BARK_M, 2.0
        ),
        stem_under(tree(stem.least_girth_m(1.2) / math.pi - 2 * BARK_M, "oak, white"), pull, BARK_M, 2.0),
    ):
        assert other.ratio == pytest.approx(1.2, rel=1e-9)


@pytest.mark.parametrize("end", [0, 1])
@pytest.mark.parametrize("baseline", ["low", "long_haul"])
def test_stem_of_a_rig_is_beam_theory_on_its_greatest_peak(baseline: str, end: int) -> None:
    loads = loads_of(sound(baseline, {"plan.moves": ["walk", "bounce", "jump"]}))
    stem = list(loads.ends())[end].stem()
    jump, bounce = loads.state("jump"), loads.state("bounce")
    at_end = (jump.tension_a_n, jump.tension_b_n)[end]
    assert at_end > (bounce.tension_a_n, bounce.tension_b_n)[end]
    spot, placed = loads.path.rig.spot, loads.path.anchors[end]
    assert spot is not None
    assert placed.part.height is not None
    girth = spot.anchors[placed.part.at or ""].girth
    assert girth is not None
    diameter_m = girth.si / math.pi - 2 * 0.030  # rough bark: common practice, no source
    expected = 32 * at_end * placed.part.height.si / (math.pi * diameter_m**3)
    assert stem.pull.state == "jump"
    assert stem.stress_pa == pytest.approx(expected, rel=1e-12)


# Green compression strength in MPa as the tables print it, see wood_handbook.yaml and european_green_wood.yaml.
@pytest.mark.parametrize(
    ("species", "compression_mpa", "words", "one"),
    [
        ("oak, white", 24.5, "green oak, white", False),
        ("oak", 20.7, "green oak, willow, the weakest of 17 kinds of oak, a figure from memory", False),
        ("lime", 17.0, "green lime, a figure from memory", False),
        ("English oak", 27.5, "green oak, european, a figure from memory", False),
        (
            "larch",
            17.0,
            "green larch, european, the weakest of 2 kinds of larch, a figure from memory",
            False,
        ),
        ("cherry", 24.4, "green cherry, black, the only cherry in the tables: others may be weaker", True),
        (
            "monkey puzzle",
            11.7,
            "'monkey puzzle' is not in the table of green wood, so the weakest wood in it is taken",
            False,
        ),
        (None, 11.7, "species not named, so the weakest wood in the table is taken", False),
    ],
)
def test_which_wood_is_taken(species: str | None, compression_mpa: float, words: str, one: bool) -> None:
    stem = stem_under(tree(0.40, species), TreePull("bounce", 8000.0, 1.0), BARK_M, 3.0)
    assert stem.allowable_pa == pytest.approx(compression_mpa * 1e6 / 4.5)
    assert (stem.wood_words, stem.one_species_for_genus) == (words, one)
    assert stem.ratio_of_weakest == pytest.approx(11.7e6 / 4.5 / stem.stress_pa)


def test_health_and_bark_of_a_rig_choose_quality_and_diameter() -> None:
    sound_stem = stem_in(sound("low"))
    unseen = stem_in(sound("low", {"spot.anchors.gate.health": REMOVE}))
    smooth = stem_in(sound("low", {"spot.anchors.gate.bark": "smooth"}))
    assert (sound_stem.quality, unseen.quality) == (2.0, 3.0)
    assert unseen.ratio == pytest.approx(sound_stem.ratio * 2.0 / 3.0)
    assert smooth.diameter_m - sound_stem.diameter_m == pytest.approx(2 * (0.030 - 0.010))


@pytest.mark.parametrize(
    ("key", "where"),
    [
        ("spot.anchors.gate.girth", "spot.anchors.gate.girth"),
        ("spot.anchors.gate.bark", "spot.anchors.gate.bark"),
        ("chain[0].height", "chain[0].height"),
    ],
)
def test_what_is_missing_is_named(key: str, where: str) -> None:
    edits: dict[str, Any] = {key: REMOVE}
    with pytest.raises(MissingInput) as missing:
        stem_in(sound("low", edits))
    assert [at.key_text for at in missing.value.fields] == [where]


@pytest.mark.parametrize("edits", [{"spot.anchors.gate.girth": "0.15 m"}, {"chain[0].height": "-0.5 m"}])
def test_outside_the_formula_there_is_no_number(edits: dict[str, Any]) -> None:
    with pytest.raises(NotComputable, match="gate"):
        stem_in(sound("low", edits))


def test_bark_stands_alike_where_it_stands_twice() -> None:
    assert {name: DEFAULTS[f"bark.{name}"].si for name in BARK_THICKNESS_M} == dict(BARK_THICKNESS_M)


@pytest.mark.parametrize(("hitch", "printed_turns"), [("basket", None), ("choke", 1.0), ("wrap", 1.0)])
def test_bark_under_a_sling(hitch: str, printed_turns: float | None) -> None:
    """In basket the sling touches from tangent point to tangent point: the trunk's girth times (180° + θ)/360°."""
    loads = loads_of(sound("low", {"chain[2].hitch": hitch}))
    sling = loads.path.parts[2]
    shape = loads.geometry.sling_shape(sling)
    assert shape.angle_rad is not None
    turns = printed_turns or (180.0 + math.degrees(shape.angle_rad)) / 360.0
    assert loads.geometry.contact_m(sling) == pytest.approx(turns * 1.4)


@pytest.mark.parametrize("case", read_source("sling_geometry").cases)
def test_length_that_closes_at_an_angle(case: Case) -> None:
    loads = loads_of(sound("low"))
    sling = loads.path.parts[2]
    length_m = loads.geometry.sling_length_m(sling, math.radians(case["angle_deg"]))
    girth_m = 1.40 + 2 * math.pi * 0.020  # trunk and protector as the baseline states them
    assert read_source("sling_geometry").agrees(length_m / girth_m, case["length_over_girth"])
