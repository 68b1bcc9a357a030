"""The gear page: every piece with its dates where they belong, what is pressing on top, nothing that runs."""

import re
from datetime import date, timedelta
from typing import Any

import pytest

from riglint.reports.gear.html import AFTER, BEFORE, EDGE, WIDE, gear_html
from riglint.views.gear.content import GearBook, Piece, Use

DAY = date(2026, 5, 2)


def piece(**other: Any) -> Piece:
    given: dict[str, Any] = {
        "id": "SH-7",
        "listed_in": "club.yaml",
        "kind": "shackle",
        "checked": DAY - timedelta(100),
        "due": DAY + timedelta(265),
        "retires": None,
        "ages": False,
        "asked": True,
        "out": "",
        "uses": (),
    }
    return Piece(**given | other)


def page(*pieces: Piece, unread: tuple[str, ...] = ()) -> str:
    return gear_html(GearBook("club", DAY, pieces, None, None, (), unread, "A calculation is no inspection."))


def test_each_date_stands_at_its_day() -> None:
    text = page(piece(retires=DAY + timedelta(AFTER)))
    across = [float(one) for one in re.findall(r'cx="([0-9.]+)"', text)]
    length = WIDE - 2 * EDGE
    expected = [EDGE + length * (BEFORE + days) / (BEFORE + AFTER) for days in (-100, 265)]
    assert across == pytest.approx(expected, abs=0.1)
    assert f'x="{WIDE - EDGE - 4.5:.1f}"' in text
    assert "last check 2026-01-22, due 2027-01-22, retires 2028-05-01" in text


def test_what_is_overdue_too_old_or_out_stands_on_top_and_says_so() -> None:
    text = page(
        piece(id="fine"),
        piece(id="late", due=DAY - timedelta(1)),
        piece(id="old", retires=DAY - timedelta(1)),
        piece(id="gone", out="recalled"),
        piece(id="none", checked=None, due=None),
    )
    assert text.index("<td>fine") > max(text.index(f"<td>{one}") for one in ("late", "old", "gone", "none"))
    for words in (
        "2026-05-01, overdue",
        "2026-05-01, too old",
        "out of use: recalled",
        "not on file, overdue",
    ):
        assert words in text


def test_rigs_unread_files_and_the_caution_are_there_and_nothing_runs() -> None:
    use = Use("rigs/<b>.yaml", "planned", DAY, DAY + timedelta(2))
    text = page(piece(uses=(use,)), unread=("club.yaml, line 3: wrong & so on",))
    assert "rigs/&lt;b&gt;.yaml (planned" in text
    assert "wrong &amp; so on" in text
    assert "A calculation is no inspection" in text
    assert "<script" not in text
    assert "<b>.yaml" not in text
