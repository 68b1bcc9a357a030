"""The card: the one last read, its figures, its ticks, its widths, its colours, and letters that mean harm."""

import os
import re
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from riglint.findings import audit, load_rig
from riglint.findings.finding import NotJudged
from riglint.hazards import for_the_eyes, places
from riglint.loads.measure.expected import expected_pulse, expected_sags
from riglint.loads.path.geometry import G
from riglint.loads.path.used import used_names
from riglint.mechanics.span.pulse import tension_from_pulse
from riglint.reports.card.html import card_html
from riglint.reports.card.json_report import card_json
from riglint.reports.card.signing import script
from riglint.reports.card.style import STYLE
from riglint.reports.card.text import card_text
from riglint.reports.card.words import asked_in_words
from riglint.reports.layout.spans import characters
from riglint.rulebook import load_rulebook
from riglint.testing import BASELINES
from riglint.views.audit.verdict import verdicts
from riglint.views.card.build import build_card
from riglint.views.card.content import Card, Fact
from riglint.views.card.pack import packing
from tests.rigs import loads_of, rig_data

EXAMPLES = Path(__file__).parents[2] / "examples"
CARDS = Path(__file__).parents[1] / "golden/cards"
LONG = EXAMPLES / "rigs/long-line.yaml"
ON = date(2026, 5, 2)
RIGS = {path.stem: path for path in sorted((EXAMPLES / "rigs").glob("*.yaml"))}


def card_of(path: Path) -> Card:
    book = replace(load_rulebook(), seal="0" * 12)  # that of the book changes with every rule
    loads, problems = load_rig(path, ON, None)
    assert loads is not None, problems
    return build_card(loads, audit([path], book, ON), book)


@pytest.mark.parametrize("form", ["txt", "json"])
def test_the_card_of_the_long_line_is_the_one_last_read(form: str) -> None:
    golden = CARDS / f"long-line.{form}"
    card = card_of(LONG)
    found = card_json(card) if form == "json" else characters(card_text(card, 80))
    if os.environ.get("UPDATE_GOLDEN") == "1":
        golden.parent.mkdir(exist_ok=True)
        golden.write_text(found, encoding="utf-8", newline="\n")
    assert golden.is_file(), "No such card yet: run with UPDATE_GOLDEN=1, then read it."
    assert found == golden.read_text(encoding="utf-8")


@pytest.mark.parametrize("width", [40, 60, 80, 100])
@pytest.mark.parametrize("name", RIGS)
def test_text_keeps_to_its_width(name: str, width: int) -> None:
    rows = characters(card_text(card_of(RIGS[name]), width)).splitlines()
    assert [row for row in rows if len(row) > min(width, 80)] == []


# Figures


def test_ratio_of_what_lies_inside_a_webbing_anchor_names_its_strength() -> None:
    rows = [row for row in card_of(LONG).chain if row.of]
    assert rows
    for row in rows:
        assert row.words.startswith("webbing anchor")
        assert row.ratio is not None
        assert row.force_kn is not None
        of, _, kn = row.of.removesuffix(" kN").rpartition(", ")
        assert of == "webbing inside"
        assert float(kn) == pytest.approx(row.ratio * row.force_kn, rel=0.01)
        assert f"(of the {row.of})" in asked_in_words(row)


def test_the_pulse_is_that_of_a_string() -> None:
    """Wave speed, OpenStax University Physics 1, section 16.3: the time said must give the tension back."""
    wave = expected_pulse(loads_of(rig_data("long_haul")))
    read = tension_from_pulse(wave.mass_per_m, wave.over_m, wave.time_s, wave.returns)
    assert read.tension_n == pytest.approx(6000.0)


def test_the_sag_is_that_of_moments_about_the_place() -> None:
    """Statics: the bare parabola adds nothing below the bare line but what the tension's growth takes away."""
    loads = loads_of(rig_data("long_haul"))
    line = loads.standing.line
    for one in expected_sags(loads):
        rest = next(state for state in loads.people() if state.name == "walker").rest
        assert rest is not None
        x, far = one.from_a_m, line.span_m - one.from_a_m
        v_shape = one.mass_kg * G * x * far / line.span_m / rest.horizontal_n
        assert one.below_chord_m == pytest.approx(v_shape, rel=0.05)
        assert 0.0 < one.below_bare_m < one.below_chord_m


def test_a_slack_line_is_not_read_by_a_pulse_and_a_short_one_not_by_hand() -> None:
    assert "pulse" not in {one.label for one in card_of(RIGS["slackrope"]).reading}
    (pulse,) = [one for one in card_of(RIGS["low-line"]).reading if one.label == "pulse"]
    assert "too quick to count by hand" in pulse.text


def test_each_part_and_each_piece_has_its_row() -> None:
    card = card_of(LONG)
    assert [row.number for row in card.chain if row.number] == [str(n) for n in range(1, 14)]
    rows = " ".join(f"{row.words} {row.take}" for row in card.chain)
    for wanted in ("webbing W-90 cut 90 m", "rope RP-45 45 m", "tie-back TB-8", "multiplier grip GR-1"):
        assert wanted in rows
    weakest = min((row for row in card.chain if row.ratio), key=lambda row: row.ratio or 0.0)
    assert (weakest.words, round(weakest.ratio or 0.0, 2)) == ("sewn loop SE-90", 3.66)


# Ticks


@pytest.mark.parametrize("name", RIGS)
def test_every_line_for_the_eyes_is_a_tick_or_a_finding_that_says_it(name: str) -> None:
    path = RIGS[name]
    card, book = card_of(path), load_rulebook()
    loads, _ = load_rig(path, ON, None)
    assert loads is not None
    ticks = " ".join(tick.words for step in card.work for tick in step.ticks)
    reviews = [one for one in audit([path], book, ON).findings if one.kind == "review"]
    said = {book.rules[one.rule].prevents[0] for one in reviews} | {"tension_guessed"}
    eyes = [one for found in for_the_eyes(*places(loads.path.rig)).values() for one in found]
    assert len(eyes) > 20
    assert [one.id for one in eyes if one.id not in said and one.eyes not in ticks] == []
    assert "Tension read: ________ kN" in ticks


def test_ticks_that_differ_in_one_name_become_one() -> None:
    ticks = [tick.words for step in card_of(LONG).work for tick in step.ticks]
    assert len([one for one in ticks if "cut roots" in one]) == 1
    assert any(one.startswith("At 'north' and 'south', look for cut roots") for one in ticks)
    assert not any("\x00" in one for one in ticks)


def test_only_what_a_rig_has_is_asked() -> None:
    ticks = " ".join(tick.words for step in card_of(RIGS["slackrope"]).work for tick in step.ticks)
    assert "strands of the pulley" not in ticks
    assert "leash" not in ticks


def test_nobody_looks_for_the_brake_of_a_ratchet() -> None:
    ratchet = EXAMPLES / "ordinary/rigs/01-beginner-set.yaml"
    ticks = " ".join(tick.words for step in card_of(ratchet).work for tick in step.ticks).lower()
    assert [
        one for one in ("brake", "stopper", "stamped on the grip", "the plate hangs") if one in ticks
    ] == []
    assert "hair, sleeves and cords" in ticks


# The page


def page(card: Card) -> str:
    return card_html(card)


def test_nothing_is_fetched_and_nothing_runs_but_what_keeps_the_ticks() -> None:
    text = page(card_of(LONG))
    assert text == page(card_of(LONG))  # the same bytes each time
    assert text.count(f"<script>{script()}</script>") == 1
    assert re.findall(r"fetch\(|XMLHttp|WebSocket|sendBeacon|import\(|innerHTML|eval\(", script()) == []
    text = text.replace(f"<script>{script()}</script>", "")
    assert re.findall(r"(?:src|href)=\"(?!#)|url\(|@import|<script|<link|<img", text) == []


def test_letters_that_mean_harm_are_only_letters() -> None:
    harm = '<script>alert("x")</script>\u202eenil'
    text = page(replace(card_of(LONG), title=harm, spot=harm, policy=(harm,)))
    assert "<script" not in text.replace(f"<script>{script()}</script>", "")
    assert "\u202e" not in text
    assert text.count("&lt;script&gt;") >= 3


def luminance(colour: str) -> float:
    parts = [int(colour[n : n + 2], 16) / 255.0 for n in (1, 3, 5)]
    linear = [one / 12.92 if one <= 0.04045 else ((one + 0.055) / 1.055) ** 2.4 for one in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def test_words_stand_out_at_dusk() -> None:
    """WCAG 2.2, 1.4.6: 7 : 1 for text that is no sign; the signs are tested with the audit page."""
    inks = set(re.findall(r"(?<![-\w])color: (#[0-9a-f]{6})", STYLE.split(".sign.notice")[0]))
    assert inks
    for ink in inks:
        for ground in ("#ffffff", "#f3f1ec"):
            light, dark = sorted((luminance(ink), luminance(ground)), reverse=True)
            assert (light + 0.05) / (dark + 0.05) >= 7.0


def test_a_crash_or_an_unread_shelf_is_not_hidden() -> None:
    path = BASELINES / "low.yaml"
    loads, problems = load_rig(path, ON, None)
    assert loads is not None, problems
    found = audit([path], load_rulebook(), ON)
    lost = NotJudged("x.yaml could not be read", 3)
    files = [replace(one, not_judged=[lost]) if one.kind == "rig" else one for one in found.files]
    card = build_card(loads, replace(found, files=files), load_rulebook())
    assert card.answer.word == "NOT JUDGED"
    assert page(card).index("NOT JUDGED") < page(card).index("<table")
    assert "Not judged: 3 rules" in characters(card_text(card, 80))
    assert "Not judged:" in page(card)


@pytest.mark.parametrize(
    "path",
    [*RIGS.values(), EXAMPLES / "faulty/low-line.yaml"],
    ids=lambda path: f"{path.parent.name}-{path.stem}",
)
def test_the_card_begins_with_the_answer_of_the_audit(path: Path) -> None:
    found = audit([path], load_rulebook(), ON)
    told = next(verdict for one, verdict in verdicts(found) if one.kind == "rig")
    card = card_of(path)
    assert (card.answer.word, card.answer.sentence) == (told.word, told.sentence)
    assert card.answer.next_step == told.next_step
    assert " ".join(characters(card_text(card, 80)).split()).index(told.sentence) < 150


def test_phones_and_names_are_lines_to_write_on() -> None:
    """Roles only: no name and no number of a person comes from a file."""
    card = card_of(LONG)
    assert [one.label for one in card.sign] == ["rigged by", "second check", "owner of the land"]
    phones = [one for one in card.emergency if one.label.endswith("phone")]
    assert [one.label for one in phones][:2] == ["emergency phone", "owner's phone"]
    assert all(set(one.text) == {"_"} for one in phones[:2])
    assert all("____" in one.text for one in card.sign)


@pytest.mark.parametrize("name", RIGS)
def test_everything_that_the_rig_names_is_packed(name: str) -> None:
    loads, _ = load_rig(RIGS[name], ON, None)
    assert loads is not None
    card = card_of(RIGS[name])
    packed = [piece for one in card.pack for piece in one.text.split(", ")]
    assert [one for one in used_names(loads) if packed.count(one) != 1] == []
    assert "first aid" in card.pack[-1].text
    assert any(one.label == "spares" for one in card.pack)


def test_a_piece_that_is_on_no_gear_list_is_packed_all_the_same(monkeypatch: pytest.MonkeyPatch) -> None:
    loads = loads_of(rig_data("low"))
    monkeypatch.setattr("riglint.views.card.pack.used_names", lambda _: ["XX-1"])
    assert Fact("not on the gear list", "XX-1") in packing(loads)


def test_print_is_at_least_8_pt() -> None:
    sizes = [
        float(one)
        for one in re.findall(
            r"([\d.]+)pt[ /;\"]", " ".join(re.findall(r"font(?:-size)?: [^;]*;", STYLE)).replace(";", " ;")
        )
    ]
    assert len(sizes) >= 6
    assert min(sizes) >= 8.0
