"""What matters most on the sheet: the ± that is stated, the guidance where none is, never one taken for the other."""

import json
from datetime import date
from math import hypot
from typing import Any

import pytest

from riglint.loadpath import build
from riglint.loads import Loads
from riglint.loads.what_if.sensitivity import ranking, results
from riglint.model.values.policy import Values
from riglint.reports.layout.spans import characters
from riglint.reports.sheet.html import sheet_html
from riglint.reports.sheet.json_report import sheet_json
from riglint.reports.sheet.markdown import sheet_markdown
from riglint.reports.sheet.text import sheet_text
from riglint.rulekit import REMOVE, sound
from riglint.testing import edited, rig_of
from riglint.views.sheet.build import build_sheet
from riglint.views.sheet.content import Sheet
from riglint.views.sheet.inputs import GUIDE, NONE, TITLE

ON = date(2026, 5, 2)
EXACT = {"spot.span": "16 m"}
STATED = {
    "plan.standing_tension": "3 kN ± 0.3 kN",
    "plan.users[0].mass": "80 kg ± 1 kg",
    "spot.span": "16 m ± 0.1 m",
}


def sheet_of(edits: dict[str, Any], baseline: str = "low") -> tuple[Loads, Sheet]:
    loads = Loads(build(rig_of(edited(sound(baseline, edits)))), Values(), ON)
    return loads, build_sheet(loads, ON)


def text(sheet: Sheet) -> str:
    return " ".join(characters(sheet_text(sheet, 100)).split())


def test_shares_are_whole_and_the_ranking_falls() -> None:
    ranked = ranking(sheet_of(STATED)[0])
    assert len(ranked.stated) == 3
    for name in ("peak_n", "ratio", "clearance_m"):
        shares = [ranked.share(one, name) or 0.0 for one in ranked.stated]
        assert sum(shares) == pytest.approx(1.0)
        whole = ranked.plus_minus(name)
        assert whole == pytest.approx(hypot(*(getattr(one, name) for one in ranked.stated)))
    of_ratio = [ranked.share(one, "ratio") or 0.0 for one in ranked.stated]
    assert of_ratio == sorted(of_ratio, reverse=True)
    assert [one.input.at.key_text for one in ranked.stated] == [
        "plan.users[0].mass",
        "plan.standing_tension",
        "spot.span",
    ]


def test_every_form_has_the_section() -> None:
    _, sheet = sheet_of(STATED)
    key = "plan.users[0].mass"
    for form in (characters(sheet_text(sheet, 100)), sheet_markdown(sheet), sheet_html(sheet)):
        said = form.replace("\\", "")
        assert TITLE in said
        assert key in said[said.index(TITLE) :]
    told = json.loads(sheet_json(sheet))["uncertainty"]
    assert told["stated"][0]["at"]["key"] == key
    assert told["results"]["peak_kN"]["plus_minus"] == pytest.approx(
        hypot(*(one["peak_kN"] for one in told["stated"])), rel=1e-4
    )
    assert told["results"]["clearance_m"]["of"] == "walker"


def test_without_any_plus_minus_one_sentence_says_so_and_guidance_follows() -> None:
    _, sheet = sheet_of(EXACT)
    assert NONE in text(sheet)
    assert GUIDE in text(sheet)
    told = json.loads(sheet_json(sheet))["uncertainty"]
    assert told["stated"] == []
    assert [one["plus_minus"] for one in told["results"].values()] == [None, None, None]
    moved = {one["at"]["key"]: one["moved_by"] for one in told["guidance"]}
    assert moved == {
        "plan.standing_tension": "1 %",
        "plan.users[0].mass": "1 %",
        "shelf[0].items.W-1.stretch": "1 %",
        "spot.span": "1 %",
        "chain[0].height": "0.1 m",
        "chain[12].height": "0.1 m",
        "spot.ground.profile": "0.1 m",
    }


def test_guidance_leaves_out_what_states_its_own() -> None:
    ranked = ranking(sheet_of(STATED)[0])
    assumed = {one.input.at.key_text for one in ranked.assumed}
    assert not assumed & set(STATED)
    assert assumed == {
        "shelf[0].items.W-1.stretch",
        "chain[0].height",
        "chain[12].height",
        "spot.ground.profile",
    }


@pytest.mark.parametrize(
    ("key", "more"),
    [("plan.standing_tension", "3.03 kN"), ("spot.span", "16.16 m"), ("plan.users[0].mass", "80.8 kg")],
)
def test_guidance_is_what_an_edit_of_the_file_does(key: str, more: str) -> None:
    # One end of a central difference, by editing the file itself; curvature is left out.
    loads, _ = sheet_of(EXACT)
    (one,) = [one for one in ranking(loads).assumed if one.input.at.key_text == key]
    here, there = results(loads).peak_n, results(sheet_of({**EXACT, key: more})[0]).peak_n
    assert here is not None
    assert there is not None
    assert one.peak_n == pytest.approx(there - here, rel=0.05, abs=0.05)


def test_raising_the_ground_takes_its_height_off_the_clearance() -> None:
    (one,) = [
        one for one in ranking(sheet_of(EXACT)[0]).assumed if one.input.at.key_text == "spot.ground.profile"
    ]
    assert one.clearance_m == pytest.approx(-0.1, abs=0.02)
    assert one.peak_n == 0.0


def test_both_anchors_raised_raise_the_line_by_as_much() -> None:
    # Geometry: 0.1 m more at one end lifts the place by its share of the span, at both ends by 0.1 m together.
    found = {one.input.at.key_text: one.clearance_m or 0.0 for one in ranking(sheet_of(EXACT)[0]).assumed}
    assert found["chain[0].height"] + found["chain[12].height"] == pytest.approx(0.1, abs=0.002)


def test_only_states_that_must_clear_the_ground_count() -> None:
    # A bounce on a low line ends on the ground, and people step off; on a leash it must clear.
    assert ranking(sheet_of(EXACT)[0]).results.clearance_state == "walker"
    assert ranking(sheet_of({}, "highline")[0]).results.clearance_state == "leash_fall"


@pytest.mark.parametrize(
    "key", ["plan.standing_tension", "plan.users", "spot.span", "shelf[0].items.W-1.stretch"]
)
def test_a_rig_that_is_not_whole_has_no_such_section_and_no_crash(key: str) -> None:
    loads, sheet = sheet_of({key: REMOVE})
    assert TITLE not in [section.title for section in sheet.sections]
    assert json.loads(sheet_json(sheet))["uncertainty"]["results"]["peak_kN"]["value"] is None
    assert ranking(loads).plus_minus("peak_n") is None


def test_a_tension_from_a_reading_names_it_on_the_sheet() -> None:
    pulse = {"what": "pulse", "date": "2026-05-01", "returns": 10, "time": "4.6 s ± 0.1 s", "over": "73 m"}
    edits = {"stage": "built", "plan.standing_from": "measured", "measured": [pulse]}
    loads, sheet = sheet_of(edits, "long_haul")
    said = text(sheet)
    assert "from pulse read on 2026-05-01" in said
    assert "by first order" in said
    assert "tension by the pulse: T = μ·(2·L·n/t)²" in said
    told = json.loads(sheet_json(sheet))
    assert told["standing_from"]["from"] == "measured"
    read = told["standing_from"]["reading"]
    # dT/T = 2·dt/t (T goes with the inverse square of the time).
    assert (read["high_kN"] - read["low_kN"]) / 2.0 == pytest.approx(
        read["tension_kN"] * 2.0 * 0.1 / 4.6, rel=1e-4
    )
    assert told["standing_from"]["reading"]["tension_kN"] == pytest.approx(
        loads.standing_tension_n / 1000.0, rel=1e-5
    )
    assert told["uncertainty"]["stated"][0]["at"]["key"] == "measured[0].time"
    assert json.loads(sheet_json(sheet_of(EXACT)[1]))["standing_from"] == {"from": "plan", "reading": None}
