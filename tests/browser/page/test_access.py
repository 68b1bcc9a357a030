"""For a screen reader, a keyboard, one thumb, and the sun: the checker finds nothing, and targets can be hit."""

from importlib.resources import files as package_files

import pytest

from tests.browser.devtools import Page
from tests.browser.page.conftest import DESK, PHONE, sized
from tests.browser.page.screens import library, open_files, settled, show, text_of, wait

AXE = package_files("axe_core_python").joinpath("axe.min.js").read_text(encoding="utf-8")
FILES = library("rigs", "faulty", "spots", "shelf")
LONG = "faulty/long-line.yaml"
SCREENS = ("open", "ask", "rig", "text", "card", "gauge", "more")
LEAST_PX = 44  # of a target; WCAG 2.2, success criterion 2.5.5
SMALL = """
[...document.querySelectorAll('button, select, input:not([type=checkbox]), textarea, summary, label.tick')]
  .filter((one) => one.getClientRects().length)
  .map((one) => [one.textContent.slice(0, 30) || one.id, one.getBoundingClientRect()])
  .filter(([, box]) => box.height < 43.5 || box.width < 43.5).map(([words, box]) => [words, box.width, box.height])
"""


@pytest.fixture(scope="module", params=["phone", "desk", "phone in the dark"])
def tab(request: pytest.FixtureRequest, loaded: Page) -> Page:
    sized(loaded, DESK if request.param == "desk" else PHONE, "dark" if "dark" in request.param else "light")
    open_files(loaded, FILES, LONG)
    loaded.run(AXE + ";0")
    return loaded


def reached(tab: Page, screen: str) -> None:
    show(tab, screen)
    settled(tab)
    if screen == "card":
        wait(tab, "document.querySelector('.card .paper')")


@pytest.mark.parametrize("screen", SCREENS)
def test_axe_finds_nothing(tab: Page, screen: str) -> None:
    reached(tab, screen)
    found, passed = tab.run("axe.run().then((one) => [one.violations, one.passes.length])")
    assert passed > 10
    assert [(one["id"], one["nodes"][0]["html"][:160], len(one["nodes"])) for one in found] == []


@pytest.mark.parametrize("screen", SCREENS)
def test_it_fits_and_every_target_can_be_hit(tab: Page, screen: str) -> None:
    reached(tab, screen)
    wide, room = tab.run("[document.documentElement.scrollWidth, document.documentElement.clientWidth]")
    assert wide <= room
    assert tab.run(SMALL) == []


def key(tab: Page, name: str, code: int, text: str = "") -> None:
    for kind in ("keyDown", "keyUp"):
        tab.call(
            "Input.dispatchKeyEvent", type=kind, key=name, code=name, windowsVirtualKeyCode=code, text=text
        )


def tab_to(tab: Page, words: str) -> None:
    """Press the tab key until what is focused is called so."""
    for _ in range(200):
        key(tab, "Tab", 9)
        one = "document.activeElement"
        if tab.run(f"({one}.getAttribute('aria-label') ?? {one}.textContent).trim()").startswith(words):
            return
    raise AssertionError(f"the tab key does not reach {words}")


def test_keyboard_only(page: Page) -> None:
    """From the first screen to a changed rig and back without a pointer; what had the focus keeps it."""
    sized(page, DESK)
    open_files(page, FILES, LONG)
    tab_to(page, "Text")
    key(page, "Enter", 13, "\r")
    assert page.run("riglint.page.screen") == "text"
    tab_to(page, "Rig")
    key(page, "Enter", 13, "\r")
    tab_to(page, "Lay the line out")
    key(page, "Enter", 13, "\r")
    settled(page)
    assert text_of(page, LONG) != FILES[LONG]
    tab_to(page, "More standing tension")
    key(page, "Enter", 13, "\r")
    settled(page)
    wait(page, "document.activeElement.getAttribute('aria-label') === 'More standing tension'")
    key(page, "Enter", 13, "\r")
    settled(page)
    assert "standing_tension: 6.2 kN" in text_of(page, LONG)


def test_the_answer_is_never_about_an_older_text_without_saying_so(page: Page) -> None:
    open_files(page, FILES, LONG)
    told = page.run(
        "riglint.page.library.append(riglint.page.rig, '# more');"
        "[document.querySelector('.answer').innerText, document.querySelector('.answer').getAttribute('aria-busy')]"
    )
    assert "before your last change" in told[0]
    assert told[1] == "true"
    settled(page)
    assert "before your last change" not in page.run("document.querySelector('.answer').innerText")
