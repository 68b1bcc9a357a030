"""Of a library in which one file was changed, the rest of the report is copied, and gear lists are not judged again."""

import re
import shutil
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import pytest

from riglint.findings.library.across_rigs import LibraryRun
from riglint.findings.library.again import FilesAgain, Recent
from riglint.findings.library.as_record import Records
from riglint.findings.remembering.on_shelves import ShelvesBefore
from riglint.model.library import Library
from riglint.remembered.pieces import Pieces, _unpacked
from riglint.rulekit import Case, LibraryCase
from riglint.rulekit.facts import planned, uses
from riglint.rulekit.library import ShelfInUse
from tests.cli.calling import club_of
from tests.remembered.asking import Memory
from tests.remembered.conftest import RIG, SHELF, SPOT
from tests.rigs import ON

OTHER, ITS_SPOT = "rigs/06-trickline.yaml", "spots/fairground.yaml"
AGAIN = "rigs/again.yaml"


@pytest.fixture
def club_of_three(of_folder: Memory, club: Path) -> Memory:
    """Three rigs, two of them at one spot, as text."""
    club_of(club, OTHER, ITS_SPOT)
    shutil.copy(club / RIG, club / AGAIN)
    of_folder.call[-1] = "text"
    return of_folder


def pieces(memory: Memory) -> dict[bytes, bytes]:
    found: dict[bytes, bytes] = {}
    for file in (memory.cache / "riglint").glob("*.pieces"):
        found |= _unpacked(file.name.encode(), file.read_bytes())
    return found


def replaced(file: Path, old: str, new: str) -> None:
    text = file.read_text("utf-8")
    assert re.search(old, text)
    file.write_text(re.sub(old, new, text, count=1), "utf-8")


CHANGES = {
    "a title": (RIG, r"(?m)^title: .*$", "title: Another"),
    "a tension": (RIG, r"standing_tension: [\d.]+ kN", "standing_tension: 9 kN"),
    "a stage": (OTHER, r"(?m)^use:", "stage: lowered\nuse:"),
    "a check of gear": (SHELF, r"inspected: \d{4}", "inspected: 2019"),
    "a spot": (SPOT, r"(?m)^title: .*$", "title: Elsewhere"),
    "a line more": (RIG, r"(?m)^title:", "# more\n\ntitle:"),
    "a fault of the file": (RIG, r"(?m)^use:", "user:"),
}


@pytest.mark.parametrize("change", CHANGES)
@pytest.mark.parametrize("form", [(), ("--all",), ("--leave-out", "accepted"), ("--units", "imperial")])
def test_the_report_is_the_one_that_would_be_made_now(
    change: str, form: tuple[str, ...], club_of_three: Memory, club: Path
) -> None:
    club_of_three.call += form
    before = club_of_three.fill()
    file, old, new = CHANGES[change]
    replaced(club / file, old, new)
    club_of_three.is_not_deceived(before, changes=change != "a line more" or form != ())


def test_a_rig_that_another_names_as_its_gear_list_keeps_its_findings(
    club_of_three: Memory, club: Path
) -> None:
    """The other one comes first and refers to a file that is no gear list."""
    before = club_of_three.fill()
    shutil.copy(club / OTHER, club / "rigs/01-first.yaml")
    replaced(club / "rigs/01-first.yaml", r"(?m)^shelf: .*$", f"shelf: [../{RIG}]")
    club_of_three.is_not_deceived(before)


def test_what_is_unchanged_is_copied(club_of_three: Memory, club: Path) -> None:
    club_of_three.fill()
    before = pieces(club_of_three)
    assert len(before) > 6
    replaced(club / OTHER, r"(?m)^title: .*$", "title: Another")
    club_of_three.ask()
    after = pieces(club_of_three)
    new, title = after.keys() - before.keys(), b"Another"
    assert any(title in after[one] for one in new)
    assert len(after.keys() & before.keys()) > len(new)
    assert not any(title in piece for key, piece in after.items() if key not in new)


def test_another_width_is_another_report(club_of_three: Memory) -> None:
    wide, narrow = club_of_three.ask(COLUMNS="100"), club_of_three.ask(COLUMNS="60")
    assert wide != narrow
    assert narrow == club_of_three.afresh(COLUMNS="60")


@pytest.mark.parametrize("how", ["torn", "altered", "empty"])
def test_damaged_pieces_are_made_again(how: str, club_of_three: Memory, club: Path) -> None:
    before = club_of_three.fill()
    for file in (club_of_three.cache / "riglint").glob("*.pieces"):
        raw = file.read_bytes()
        middle = len(raw) // 2
        changed = raw[:middle] + bytes([raw[middle] ^ 1]) + raw[middle + 1 :]
        file.write_bytes({"torn": raw[:-3], "altered": changed, "empty": b""}[how])
    replaced(club / RIG, r"(?m)^title: .*$", "title: Another")
    club_of_three.is_not_deceived(before)


# What rules for gear lists ask


class _Rig(Case):
    """A rig of which only facts are told."""

    def __init__(self, recent: Recent) -> None:
        self.recent = recent

    def fact(self, look_up: Any) -> Any:
        self.recent.asked.add(look_up)
        return "told"


class _Rule(LibraryRun):
    def __init__(self) -> None:
        self.found, self.crashed = [], False


@pytest.mark.parametrize(
    ("asks", "known"), [([], True), ([planned], True), ([uses], False), (["loads"], False)]
)
def test_a_list_is_judged_each_time_where_a_rule_asks_more(
    asks: Sequence[object], known: bool, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    file, recent, runs = tmp_path / "shelf.yaml", Recent(), [_Rule()]
    library = Library(tmp_path, most=0)
    file.write_text("riglint: shelf/1\nitems: {}\n", "utf-8")
    library.load(file)
    before = ShelvesBefore(Pieces(b"test"), FilesAgain(library, [file], recent), recent, Records())
    whole = LibraryCase((), (), ON, {})
    shelf = ShelfInUse(whole, "shelf.yaml", 0, {"W-1": [_Rig(recent)]})
    with before.judging(shelf, runs):
        recent.asked |= set(asks)
    before.pieces.keep()
    again = ShelvesBefore(Pieces(b"test"), before.shelves, recent, Records())
    assert again.say_again(shelf, runs) == known
    file.write_text("riglint: shelf/1\nitems: {SH-1: {}}\n", "utf-8")
    library = Library(tmp_path, most=0)
    library.load(file)
    other = ShelvesBefore(Pieces(b"test"), FilesAgain(library, [file], recent), recent, Records())
    assert not other.say_again(shelf, runs)
