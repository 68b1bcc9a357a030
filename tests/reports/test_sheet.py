"""The calculation sheet in its four forms: whole at every width, one page without a stranger in it."""

import json
import os
import re
import shutil
import subprocess
from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from functools import cache
from html.parser import HTMLParser
from pathlib import Path

import pytest

from riglint.cli import main
from riglint.findings import load_rig
from riglint.loads import Loads
from riglint.reports.layout.spans import characters
from riglint.reports.sheet.html import STYLE, sheet_html
from riglint.reports.sheet.json_report import sheet_json
from riglint.reports.sheet.markdown import sheet_markdown
from riglint.reports.sheet.text import sheet_text
from riglint.testing import BASELINES
from riglint.views.blocks import Worked
from riglint.views.sheet.build import build_sheet
from riglint.views.sheet.content import Sheet

ON = date(2026, 5, 2)
CHECKOUT = Path(__file__).parents[2]
RIGS = ("low", "long_haul", "highline")
HOSTILE = "<script>alert(1)</script>\"'><img src=x onerror=y>| [a](http://b.example) & more"
VOID = {"meta", "br", "img", "link", "input", "hr"}
BROWSERS = ("chromium", "chromium-browser", "google-chrome")


def loads_of(rig: Path) -> Loads:
    loads, problems = load_rig(rig, ON, None)
    assert loads is not None, problems
    return loads


@cache
def rig(name: str) -> tuple[Loads, Sheet]:
    loads = loads_of(BASELINES / f"{name}.yaml")
    return loads, build_sheet(loads, ON)


@cache
def page(name: str) -> str:
    return sheet_html(rig(name)[1])


@pytest.fixture(scope="module")
def hostile(tmp_path_factory: pytest.TempPathFactory) -> Loads:
    text = (BASELINES / "low.yaml").read_text(encoding="utf-8")
    file = tmp_path_factory.mktemp("hostile") / "rig.yaml"
    file.write_text(
        re.sub(r"(?m)^title: .*$", lambda _: f"title: {json.dumps(HOSTILE)}", text, count=1), encoding="utf-8"
    )
    return loads_of(file)


class Reader(HTMLParser):
    """Reads a page strictly: every element must be closed by its own end."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.stack: list[str] = []
        self.seen: list[tuple[str, dict[str, str | None]]] = []
        self.text: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.seen.append((tag, dict(attrs)))
        if tag not in VOID:
            self.stack.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.seen.append((tag, dict(attrs)))

    def handle_endtag(self, tag: str) -> None:
        assert self.stack, f"</{tag}> closes nothing"
        assert self.stack.pop() == tag

    def handle_data(self, data: str) -> None:
        self.text.append(data)


def read(html: str) -> Reader:
    reader = Reader()
    reader.feed(html)
    reader.close()
    assert not reader.stack
    return reader


# Text


@pytest.mark.parametrize("name", RIGS)
@pytest.mark.parametrize("width", [60, 160])
def test_no_row_is_wider_than_the_terminal(name: str, width: int) -> None:
    rows = characters(sheet_text(rig(name)[1], width)).splitlines()
    assert [row for row in rows if len(row) > width] == []


@pytest.mark.parametrize("name", RIGS)
def test_every_width_says_the_same_words(name: str) -> None:
    narrow, wide = (sorted(characters(sheet_text(rig(name)[1], width)).split()) for width in (60, 160))
    assert narrow == wide


# Content


def worked(name: str) -> Iterator[Worked]:
    for section in rig(name)[1].sections:
        yield from section.worked


@pytest.mark.parametrize("name", RIGS)
def test_every_part_is_worked_or_said_to_be_open(name: str) -> None:
    found = {line.part for line in worked(name) if line.part}
    assert found >= {load.id for load in rig(name)[0].parts}


@pytest.mark.parametrize("name", RIGS)
def test_numbers_put_into_a_formula_give_its_result(name: str) -> None:
    """Redone from the printed digits alone, with plain arithmetic; the printed digits allow about one in a hundred."""
    redone = 0
    for line in worked(name):
        if not line.working or line.value is None:
            continue
        value = redo(line.working)
        if value is None:
            continue
        if line.unit == "kJ":  # worked in J
            value /= 1000.0
        assert value == pytest.approx(line.value, rel=0.02, abs=0.011), line.calculation
        redone += 1
    assert redone > 20


def redo(working: str) -> float | None:
    from math import cos, pi, radians, sin, sqrt  # noqa: PLC0415

    text = (
        working.replace("×", "*")
        .replace("−", "-")
        .replace("²", "**2")
        .replace("³", "**3")
        .replace("⁶", "**6")
    )
    text = re.sub(r"(sin|cos) ([\d.]+)°", r"\1(radians(\2))", text)
    text = text.replace("½", "0.5").replace("π", "pi").replace("√", "sqrt")
    if not re.fullmatch(r"[\d.\s*/+()\-]*", re.sub(r"sin|cos|radians|pi|sqrt", "", text)):
        return None
    names = {"cos": cos, "pi": pi, "radians": radians, "sin": sin, "sqrt": sqrt, "__builtins__": {}}
    return float(eval(text, names))  # noqa: S307 - digits and signs only, checked above


@pytest.mark.parametrize("name", RIGS)
def test_what_a_faller_gives_up_is_what_the_line_takes(name: str) -> None:
    """Energy is kept: the two sides are found from different figures (height of fall; stretch and weight)."""
    labels = {
        "bounce",
        "leash_fall",
        "standing",
        "hanging",
        "near ends",
    }  # the last three: catches on a backup
    peaks = [line for line in worked(name) if line.symbol == "E" and line.label in labels]
    assert len(peaks) == (5 if name == "highline" else 1)
    for line in peaks:
        stored = next(one.value for one in line.inputs if one.symbol == "E(P) − E₀")
        assert line.value == pytest.approx(stored, rel=1e-4)


@pytest.mark.parametrize("name", RIGS)
def test_sag_by_hand_is_that_of_the_exact_line(name: str) -> None:
    """Statics of a loaded cable (any textbook): H times sag is the bending moment of a plain beam."""
    checks = [line for line in worked(name) if line.symbol == "s"]
    assert checks
    for line in checks:
        exact = next(one.value for one in line.inputs if one.symbol == "exact sag")
        assert line.value == pytest.approx(exact, rel=1e-4)


@pytest.mark.parametrize("name", RIGS)
def test_the_pieces_of_an_end_are_its_whole_length(name: str) -> None:
    """Straight reaches in a row (geometry): what the line is computed with is the sum of what is printed."""
    ends = [line for line in worked(name) if line.formula == "Σ of its pieces"]
    assert [line.symbol for line in ends] == ["a", "b"]
    for line in ends:
        assert sum(float(one.value) for one in line.inputs) == pytest.approx(line.value, abs=1e-9)


def test_the_tie_back_is_worked_from_its_curve_and_length() -> None:
    """The worked example of the design: T 6 kN, s 0.2 m, k 130 kN/m gives 25 kN (own, energy balance)."""
    stiffness, _, catch, _ = (line for line in worked("long_haul") if line.label == "tie-back")
    k, slack = stiffness.value, next(one.value for one in catch.inputs if one.symbol == "s")
    assert k == next(one.value for one in catch.inputs if one.symbol == "k")
    assert isinstance(k, float)
    assert isinstance(slack, float)
    assert catch.value == pytest.approx(6.0 + (36.0 + 2.0 * k * 6.0 * slack) ** 0.5, rel=1e-9)
    told = json.loads(sheet_json(rig("long_haul")[1]))["haul"]
    assert told["tie_back_stiffness_kN_per_m"] == pytest.approx(k, rel=1e-5)
    assert told["tie_back_catch_kN"] == pytest.approx(catch.value, rel=1e-5)


def test_backups_in_json_say_how_far_the_fall_is() -> None:
    (backup,) = json.loads(sheet_json(rig("highline")[1]))["backups"]
    assert [one["catch"] for one in backup["catches"]] == ["standing", "hanging", "near ends"]
    for one in backup["catches"]:
        fall = one["fall"]
        parts = fall["main_y_m"] - fall["backup_above_main_m"] + fall["from_line_m"] - fall["backup_y_m"]
        assert fall["height_m"] == pytest.approx(parts, abs=1e-4)
    standing, hanging, _ = backup["catches"]
    # The harness stands 1 m above the line (common practice, no source), and the leash is 2.2 m long.
    assert standing["fall"]["from_line_m"] == pytest.approx(1.0 + 2.2)
    assert hanging["fall"]["from_line_m"] == 0
    assert backup["unstressed_m"] == pytest.approx(
        backup["between_ends_m"] * (1.0 + backup["extra"]), rel=1e-5
    )
    assert min(part["ratio"] for part in backup["parts"]) > 1.0
    assert json.loads(sheet_json(rig("low")[1]))["backups"] == []


# HTML


@pytest.mark.parametrize("name", RIGS)
def test_html_is_whole_and_alone(name: str) -> None:
    reader = read(page(name))
    names = {attribute for _, attributes in reader.seen for attribute in attributes}
    assert not {tag for tag, _ in reader.seen} & {
        "script",
        "link",
        "iframe",
        "object",
        "embed",
        "img",
        "base",
    }
    assert not {one for one in names if one.startswith("on") or one in {"src", "href", "xlink:href"}}
    assert "://" not in page(name).replace('xmlns="http://www.w3.org/2000/svg"', "")
    assert "url(" not in STYLE
    assert "@import" not in STYLE


@pytest.mark.parametrize("name", RIGS)
def test_html_names_every_part(name: str) -> None:
    _, sheet = rig(name)
    shown = " ".join(read(page(name)).text)
    parts = json.loads(sheet_json(sheet))["parts"]
    assert parts
    assert [one["id"] for one in parts if one["id"] not in shown] == []


@pytest.mark.parametrize("name", RIGS)
def test_every_drawing_says_in_words_what_it_shows(name: str) -> None:
    reader = read(page(name))
    ids = {attributes.get("id") for _, attributes in reader.seen}
    drawn = [attributes for tag, attributes in reader.seen if tag == "svg"]
    assert len(drawn) == 3
    for attributes in drawn:
        assert attributes["role"] == "img"
        assert set((attributes["aria-labelledby"] or "").split()) <= ids


def test_html_prints_a_hostile_title_as_text(hostile: Loads) -> None:
    reader = read(sheet_html(build_sheet(hostile, ON)))
    assert not {"script", "img"} & {tag for tag, _ in reader.seen}
    assert "<script>alert(1)</script>" in " ".join(reader.text)


def test_no_form_prints_a_character_that_steers_a_terminal() -> None:
    sheet = replace(rig("low")[1], title="Low \x1b[31mline")
    for told in (sheet_html(sheet), sheet_markdown(sheet), characters(sheet_text(sheet, 80))):
        assert "\x1b" not in told
        assert "u001b" in told


def test_markdown_prints_a_hostile_title_as_text(hostile: Loads) -> None:
    title = sheet_markdown(build_sheet(hostile, ON)).splitlines()[0]
    assert "<" not in title
    assert re.search(r"(?<!\\)[\[|]", title) is None
    assert "://" not in title


def luminance(colour: str) -> float:
    parts = [int(colour[n : n + 2], 16) / 255.0 for n in (1, 3, 5)]
    linear = [one / 12.92 if one <= 0.04045 else ((one + 0.055) / 1.055) ** 2.4 for one in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


@pytest.mark.parametrize("name", RIGS)
def test_words_stand_out_from_their_ground(name: str) -> None:
    """WCAG 2.1, success criterion 1.4.3: text at least 4.5 : 1, by its definition of relative luminance."""
    colours = {attributes["fill"] for tag, attributes in read(page(name)).seen if tag == "text"}
    colours |= set(re.findall(r"[; {]color: (#[0-9a-f]{6})", STYLE))
    assert len(colours) >= 3
    for colour in colours:
        assert colour is not None
        assert 1.05 / (luminance(colour) + 0.05) >= 4.5, colour


# The command


@pytest.mark.parametrize(("form", "first"), [("html", "<!DOCTYPE html>"), ("markdown", "# "), ("json", "{")])
def test_the_command_writes_each_form(form: str, first: str, tmp_path: Path) -> None:
    out = tmp_path / "sheet"
    call = [
        "sheet",
        str(BASELINES / "low.yaml"),
        "--on",
        "2026-05-02",
        "--format",
        form,
        "--output",
        str(out),
    ]
    assert main(call) == 0
    assert out.read_text(encoding="utf-8").startswith(first)


def test_a_sheet_with_fields_missing_has_every_form() -> None:
    loads = loads_of(CHECKOUT / "examples/open/low-line-six-open.yaml")
    sheet = build_sheet(loads, ON)
    assert sheet.missing
    for told in (
        sheet_html(sheet),
        sheet_markdown(sheet),
        characters(sheet_text(sheet, 80)),
    ):
        assert "not computed for want of" in " ".join(told.split())


BROWSER = next((found for found in map(shutil.which, BROWSERS) if found), None)


@pytest.mark.skipif(BROWSER is None, reason="no Chromium is installed, so nobody looks at the page")
@pytest.mark.parametrize("width", [1000, 500])
def test_a_browser_shows_the_page_without_overflow(width: int, tmp_path: Path) -> None:
    """The page is put in a frame as wide as a screen; the browser itself says whether it runs over."""
    # Its policy forbids scripts, so the probe is let in by taking that out.
    unguarded = re.sub(r'<meta http-equiv="Content-Security-Policy"[^>]*>', "", page("highline"))
    (tmp_path / "sheet.html").write_text(unguarded + PROBE, encoding="utf-8")
    flags = ["--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run"]
    flags += ["--disable-background-networking", "--disable-component-update", "--disable-sync"]
    flags += [f"--user-data-dir={tmp_path / 'browser'}", f"--window-size={width},2000", "--dump-dom"]
    call = [str(BROWSER), *flags, f"file://{tmp_path / 'sheet.html'}"]
    done = subprocess.run(
        call, capture_output=True, text=True, timeout=60, check=True, env=os.environ | {"LANG": "C"}
    )
    found = re.search(r'data-inside="(\d+)" data-window="(\d+)"', done.stdout)
    assert found is not None
    assert int(found[1]) <= int(found[2])


PROBE = """<script>document.body.setAttribute("data-inside", document.documentElement.scrollWidth);
document.body.setAttribute("data-window", document.documentElement.clientWidth);</script>"""
