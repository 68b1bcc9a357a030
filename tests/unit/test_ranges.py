"""`SH-1 to SH-6` stands for six pieces: each of its own, at the place of the entry; what it cannot mean is told."""

import pytest

from riglint.model.documents.gear import Shelf
from riglint.model.documents.spot import Spot
from riglint.model.library import load_bytes

LINK = "{kind: shackle, material: steel, wll: 2 t}"


def shelf(*lines: str) -> tuple[Shelf | None, list[str]]:
    loaded = load_bytes("\n".join(["riglint: shelf/1", "items:", *lines, ""]).encode(), "club.yaml")
    assert loaded.model is None or isinstance(loaded.model, Shelf)
    return loaded.model, [problem.message for problem in loaded.problems]


def test_six_shackles_in_one_entry() -> None:
    found, problems = shelf(f"  SH-1 to SH-6: {LINK}", f"  SH-7: {LINK}")
    assert (problems, list(found.items) if found else []) == ([], [f"SH-{n}" for n in range(1, 8)])


def test_places_are_those_of_the_entry() -> None:
    loaded = load_bytes(
        f"riglint: shelf/1\nitems:\n  A: {LINK}\n  SH-1 to SH-2: {LINK}\n".encode(), "club.yaml"
    )
    assert loaded.document is not None
    assert loaded.document.place(("items", "SH-2", "wll")).line == 4


def test_bolts_of_a_spot() -> None:
    text = "riglint: spot/1\nanchors:\n  west: {kind: bolts, points: {w1 to w3: {radial: 25 kN}}}\n"
    model = load_bytes(text.encode(), "tower.yaml").model
    assert isinstance(model, Spot)
    assert list(model.anchors["west"].points) == ["w1", "w2", "w3"]


@pytest.mark.parametrize(
    ("lines", "says"),
    [
        ([f"  SH-3 to SH-1: {LINK}"], "counts 0 pieces"),
        ([f"  SH-1 to SH-1: {LINK}"], "counts 1 pieces"),
        ([f"  SH-1 to SH-9999: {LINK}"], "counts 9999 pieces"),
        ([f"  SH-1 to SH-3: {LINK}", f"  SH-2: {LINK}"], "'SH-2' is there twice"),
        ([f"  SH-1 to SH-3: {LINK}", f"  SH-3 to SH-5: {LINK}"], "'SH-3' is there twice"),
    ],
)
def test_what_a_range_cannot_mean_is_told(lines: list[str], says: str) -> None:
    found, problems = shelf(*lines)
    assert found is None
    assert any(says in problem for problem in problems), problems


@pytest.mark.parametrize("name", ["SH-1 to RS-6", "road to 7", "1 too 3", "SH-08 to SH-12"])
def test_other_names_are_names(name: str) -> None:
    found, problems = shelf(f"  {name}: {LINK}")
    assert (problems, list(found.items) if found else []) == ([], [name])
