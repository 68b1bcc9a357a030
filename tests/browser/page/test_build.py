"""What the build makes: the size, the same bytes again, a club's files in it."""

import gzip
import json
from pathlib import Path

import pytest

from riglint import __version__
from riglint.page.build import LIST, build_page
from riglint.page.packing import digest, files_of
from tests.browser.devtools import Browser, opened
from tests.browser.page.conftest import PHONE, build_once, serving
from tests.browser.page.screens import press, settled, wait

MOST_BYTES = 12_000_000  # compressed, to somebody who opens the page for the first time
EXAMPLES = Path(__file__).parents[3] / "examples"


def test_it_is_small_enough_for_a_phone(built: Path) -> None:
    """Whatever comes packed counts as it is; scripts and pages as a web space sends them, with gzip."""
    sizes = {
        file.name: min(file.stat().st_size, len(gzip.compress(file.read_bytes(), 6)))
        for file in files_of(built)
    }
    assert 5_000_000 < sum(sizes.values()) <= MOST_BYTES, sizes


def test_the_list_names_every_file_with_its_hash(built: Path) -> None:
    told = json.loads((built / LIST).read_text(encoding="utf-8"))
    assert told["version"] == __version__
    there = {file.relative_to(built).as_posix(): digest(file.read_bytes()) for file in files_of(built)}
    assert told["files"] == {name: hashed for name, hashed in there.items() if name != LIST}


def test_no_file_names_another_machine(built: Path) -> None:
    for name in ("index.html", "page.css", "offline.js", "library.json"):
        assert (
            "//"
            not in (built / name)
            .read_text(encoding="utf-8")
            .replace("http://www.w3.org/", "")
            .split("\n// ")[0]
        )


@pytest.mark.slow
def test_the_same_version_gives_the_same_bytes(built: Path, tmp_path: Path) -> None:
    build_page(tmp_path / "again")
    before = {file.relative_to(built).as_posix(): digest(file.read_bytes()) for file in files_of(built)}
    again = tmp_path / "again"
    assert {
        file.relative_to(again).as_posix(): digest(file.read_bytes()) for file in files_of(again)
    } == before


@pytest.mark.slow
@pytest.mark.usefixtures("built")
def test_a_club_s_library_is_in_it(browser: Browser, tmp_path: Path) -> None:
    build_once(tmp_path / "page", EXAMPLES)
    with serving(tmp_path / "page") as address, opened(browser, address, *PHONE) as tab:
        wait(tab, "riglint.page.shared")
        press(tab, "Open all")
        settled(tab)
        assert tab.run("riglint.page.library.rigs.length") >= 40
