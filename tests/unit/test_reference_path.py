"""The path that was meant by a wrong one: a file of the library, and never one outside it."""

from pathlib import Path

import pytest

from riglint.model.library import Library
from riglint.model.reference_path import wrong_path
from riglint.model.references import resolve
from riglint.read.problems import MOST_SUGGESTIONS


@pytest.fixture
def club(tmp_path: Path) -> Path:
    folder = tmp_path / "club"
    for name in ("rigs/long/a.yaml", "spots/meadow.yaml", "shelf/club.yaml", "rig-library"):
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).touch()
    (tmp_path / "spots").mkdir()
    (tmp_path / "spots/secret.yaml").touch()
    return folder


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("../spots/meadow.yaml", "../../spots/meadow.yaml"),
        ("spots/meadow.yaml", "../../spots/meadow.yaml"),
        ("../../../../spots/meadow.yaml", "../../spots/meadow.yaml"),
        ("../../spot/medow.yaml", "../../spots/meadow.yaml"),
        ("../../Spots/Meadow.yaml", "../../spots/meadow.yaml"),
        ("../../spots/meadow.yml", "../../spots/meadow.yaml"),
        ("../../../spots/secret.yaml", None),
        ("../../spots/secret.yaml", None),
        ("../../elsewhere/orchard.yaml", None),
        ("\0", None),
        ("x" * 5000, None),
    ],
)
def test_the_one_that_was_meant(club: Path, written: str, meant: str | None) -> None:
    wrong = wrong_path(written, club / "rigs/long" / written, "spot", club)
    assert wrong is not None
    assert wrong.meant == (() if meant is None else (meant,))
    assert (f"Write `{meant}` if you mean that." in wrong.do) == (meant is not None)


def test_a_link_out_of_the_library_is_not_followed(club: Path) -> None:
    (club / "places").symlink_to(club.parent / "spots")
    wrong = wrong_path("../../place/secret.yaml", club / "rigs/long/../../place/secret.yaml", "spot", club)
    assert wrong is not None
    assert wrong.meant == ()


def test_after_many_wrong_paths_none_is_looked_for(club: Path) -> None:
    """A file with thousands of them must not take minutes."""
    lists = ", ".join(f"../../shelf/clubb{n % 10}.yaml" for n in range(60))
    file = club / "rigs/long/a.yaml"
    file.write_text(f"riglint: rig/1\ntitle: x\nshelf: [{lists}]\nchain: []\n", encoding="utf-8")
    found = [one for one in resolve(Library(club), file)[1] if one.message.startswith("There is no file")]
    assert len(found) > MOST_SUGGESTIONS
    assert sum(bool(one.instead) for one in found) == MOST_SUGGESTIONS
