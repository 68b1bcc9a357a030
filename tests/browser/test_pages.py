"""Pages in a real browser: they fit, print, ask nothing of the network, and a screen reader can follow them."""

import re
from collections.abc import Iterator
from importlib.resources import files as package_files
from pathlib import Path
from typing import Any

import pytest
import yaml

from riglint.reports.drawing.haul import build_html, haul_drawing
from riglint.views.drawing.haul import haul_of
from tests.browser.conftest import NAMES, OPEN_CARD
from tests.browser.devtools import Browser, Page, opened
from tests.reports.test_reeving import haul_data
from tests.rigs import loads_of

PHONE, NARROW_PHONE, DESK = (390, 844), (360, 740), (1280, 900)
BLANK = 8_000  # bytes; an empty screen makes a smaller PNG
# A4 less the margins of the style sheets, at 96 px an inch: 182 mm by 267 mm.
PAPER = (688, 1009)
AXE = package_files("axe_core_python").joinpath("axe.min.js").read_text(encoding="utf-8")
# Words of a drawing that cover each other by more than a stroke's width, run out of it, or lie under a sign.
CLASHES = """
[...document.querySelectorAll('svg[role=img]')].flatMap(svg => {
  const view = svg.viewBox.baseVal, said = [], slack = 1.5;
  const box = one => { const b = one.getBBox(); return {l: b.x, t: b.y + 1, r: b.x + b.width, b: b.y + b.height - 1}; };
  const cross = (p, q) => Math.min(p.r, q.r) - Math.max(p.l, q.l) > slack
    && Math.min(p.b, q.b) - Math.max(p.t, q.t) > slack;
  const words = [...svg.querySelectorAll('text')].map(one => ({words: one.textContent, ...box(one)}));
  const panels = [...svg.querySelectorAll('rect[rx="2"]')].map(box);
  const rings = [...svg.querySelectorAll('circle')].filter(one => one.r.baseVal.value >= 8).map(box);
  rings.forEach((one, n) => {
    if (one.l < view.x - slack || one.t < view.y - slack || one.r > view.x + view.width + slack
        || one.b > view.y + view.height + slack)
      said.push('a number out of the drawing');
    if (rings.slice(n + 1).some(other => cross(one, other) && Math.hypot(one.l - other.l, one.t - other.t) < 14))
      said.push('two numbers on each other');
    words.filter(other => !/^\\d+$/.test(other.words) && cross(one, other))
      .forEach(other => said.push(`under a number: ${other.words}`));
  });
  words.forEach((one, n) => {
    if (one.l < view.x - slack || one.t < view.y - slack || one.r > view.x + view.width + slack
        || one.b > view.y + view.height + slack)
      said.push(`out of the drawing: ${one.words}`);
    words.slice(n + 1).filter(other => cross(one, other)).forEach(other => said.push(`${one.words} | ${other.words}`));
    panels.filter(panel => cross(one, panel) && one.l < panel.l).forEach(() => said.push(`under a sign: ${one.words}`));
  });
  return said.map(one => `${svg.querySelector('title').textContent}: ${one}`);
})
"""
SMALLEST_PT = """
Math.min(...[...document.querySelectorAll('body *')]
  .filter(one => !one.closest('svg') && one.getClientRects().length)
  .filter(one => [...one.childNodes].some(node => node.nodeType === 3 && node.data.trim()))
  .map(one => parseFloat(getComputedStyle(one).fontSize) * .75))
"""
BREAKABLE = """
[...document.querySelectorAll('section:not(.found), figure, tr, .caution')]
  .filter(one => getComputedStyle(one).breakInside !== 'avoid').map(one => one.tagName + one.textContent.slice(0, 40))
"""
CUT = """
[...document.querySelectorAll('tr, figure, .caution, .caution-text, .finding h4, li')]
  .filter(one => one.getBoundingClientRect().height > %d)
  .map(one => one.tagName + ': ' + one.textContent.slice(0, 60))
"""


@pytest.fixture(params=NAMES)
def file(request: pytest.FixtureRequest, browser: Browser, files: dict[str, Path]) -> Path:  # noqa: ARG001 - skips first
    name: str = request.param
    return files[name]


@pytest.fixture
def desk(browser: Browser, file: Path) -> Iterator[Page]:
    with opened(browser, file, *DESK) as page:
        yield page


@pytest.mark.parametrize("size", [NARROW_PHONE, PHONE, DESK], ids=["360", "phone", "desk"])
def test_it_fits_the_screen_and_makes_a_picture(browser: Browser, file: Path, size: tuple[int, int]) -> None:
    with opened(browser, file, *size) as page:
        wide, room = page.run("[document.documentElement.scrollWidth, document.documentElement.clientWidth]")
        assert room == size[0]
        assert wide <= room
        assert len(page.picture()) > BLANK


def test_it_asks_nothing_of_the_network_and_complains_of_nothing(desk: Page, file: Path) -> None:
    asked = {one["request"]["url"] for one in desk.events("Network.requestWillBeSent")}
    assert {one for one in asked if not one.startswith("data:")} == {
        desk.url
    }  # a field of days draws its own icon
    assert desk.events("Runtime.exceptionThrown", "Runtime.consoleAPICalled") == []
    assert [one["entry"]["text"] for one in desk.events("Log.entryAdded")] == []
    assert desk.run("document.title") != "taken"
    tickable = file.name.startswith("card") and "day" not in file.name
    assert desk.run("document.scripts.length") == tickable


def test_no_words_on_a_drawing_cover_each_other(desk: Page) -> None:
    assert desk.run("document.querySelectorAll('svg[role=img] text').length") > 10
    assert desk.run(CLASHES) == []


HAULS: dict[str, dict[str, Any]] = {
    **{f"{strands} strands": {"strands": strands} for strands in (1, 2, 3, 4, 8, 15)},
    "no multiplier": {"multiplier": None},
    **{f"multiplier of {ratio}": {"multiplier__ratio": ratio} for ratio in (2, 4, 5)},
    **{f"{n} on the tail": {"multiplier__ratio": n, "multiplier__strand": "tail"} for n in (2, 3, 4, 5)},
    "brake on the moving block": {"brake__side": "moving"},
    "the same with two strands": {"brake__side": "moving", "strands": 2},
    "no brake": {"brake": None},
    "people behind": {"pull__stand": "behind"},
    "a redirect": {"pull__redirect": {"gear": "SP-1", "turn": "90 deg"}},
    "long names": {},
}


@pytest.mark.parametrize("name", HAULS)
def test_nor_on_a_haul_of_any_reeving(browser: Browser, tmp_path: Path, name: str) -> None:
    text = yaml.safe_dump(haul_data(**HAULS[name]), sort_keys=False)
    if name == "long names":
        text = text.replace("DB-", "of_the_beginners_bag_in_the_far_hut_DB-")
    view = haul_of(loads_of(yaml.safe_load(text)))
    assert view is not None
    drawing = haul_drawing(view, "haul") + build_html(view, "build")
    file = tmp_path / "haul.html"
    file.write_text(f"<!DOCTYPE html><meta charset='utf-8'>{drawing}", encoding="utf-8")
    with opened(browser, file, *DESK) as page:
        assert page.run("document.querySelectorAll('svg[role=img] text').length") > 10
        assert page.run(CLASHES) == []


def test_a_screen_reader_gets_headings_and_drawings_by_name(desk: Page) -> None:
    nodes = desk.call("Accessibility.getFullAXTree")["nodes"]

    def of(role: str) -> list[str]:
        return [one["name"]["value"] for one in nodes if one.get("role", {}).get("value") == role]

    headings, drawings = of("heading"), of("image")
    assert len(headings) > 2
    assert all(name.strip() for name in headings)
    assert len(drawings) == desk.run("document.querySelectorAll('svg[role=img]').length") > 0
    assert all(name.strip() for name in drawings)
    assert len(of("main")) == 1
    described = desk.run(
        "[...document.querySelectorAll('svg[role=img] > desc')].every(one => one.textContent.length > 20)"
    )
    assert described


def test_axe_finds_nothing_serious(browser: Browser, file: Path) -> None:
    with opened(browser, file, *NARROW_PHONE) as page:  # where parts of a page scroll, more can be wrong
        page.run(AXE + ";0")
        found, passed = page.run("axe.run().then(one => [one.violations, one.passes.length])")
    assert passed > 10
    told = [(one["id"], one["impact"], one["nodes"][0]["html"][:200], len(one["nodes"])) for one in found]
    assert [one for one in told if one[1] in {"serious", "critical"}] == []


def test_it_prints_on_a4_with_nothing_cut(browser: Browser, file: Path) -> None:
    with opened(browser, file, *PAPER) as page:
        printed = page.pdf()
        page.call("Emulation.setEmulatedMedia", media="print")
        wide, room = page.run("[document.documentElement.scrollWidth, document.documentElement.clientWidth]")
        assert wide <= room
        assert page.run(CUT % PAPER[1]) == []
    assert printed.startswith(b"%PDF")
    sheets = re.findall(rb"/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]", printed)
    assert sheets
    for across, down in sheets:
        assert (float(across), float(down)) == pytest.approx(
            (595.3, 841.9), abs=1.0
        )  # A4, ISO 216, in points


@pytest.mark.parametrize("name", ["card of a low line", "card of the long line", "card of a highline"])
def test_a_card_is_one_sheet_of_a4_at_a_size_to_read(
    browser: Browser, files: dict[str, Path], name: str
) -> None:
    """Both sides of one sheet; no letter under 8 pt, and no block in two columns or on two pages."""
    with opened(browser, files[name], *PAPER) as page:
        assert len(re.findall(rb"/MediaBox \[", page.pdf())) <= 2
        page.call("Emulation.setEmulatedMedia", media="print")
        assert page.run(SMALLEST_PT) >= 8.0 - 0.01
        assert page.run(BREAKABLE) == []


@pytest.mark.parametrize(("size", "last"), [(NARROW_PHONE, ".profile svg"), (PHONE, ".finding h4")])
def test_a_phone_shows_answer_drawing_and_the_first_fault_before_it_scrolls(
    browser: Browser, files: dict[str, Path], size: tuple[int, int], last: str
) -> None:
    """On a screen of 360 by 740 the answer, which holds the worst fault, and the whole drawing."""
    with opened(browser, files["audit of one highline"], *size) as page:
        tops = "['.answer', '.profile svg', '.finding h4'].map(one => document.querySelector(one)"
        places = page.run(tops + ".getBoundingClientRect().top)")
        assert places == sorted(places)
        side = "bottom" if last == ".profile svg" else "top"
        assert page.run(f"document.querySelector('{last}').getBoundingClientRect().{side}") < size[1]


@pytest.mark.parametrize("size", [NARROW_PHONE, PHONE, DESK], ids=["360", "phone", "desk"])
def test_a_card_with_open_fields_fits_and_names_them_first(
    browser: Browser, files: dict[str, Path], size: tuple[int, int]
) -> None:
    with opened(browser, files[OPEN_CARD], *size) as page:
        assert page.run("document.documentElement.scrollWidth") <= size[0]
        top = page.run("document.querySelector('.verdict').getBoundingClientRect().bottom")
        assert 0 < top < size[1] / 2
