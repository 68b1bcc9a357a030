"""What a person does on the page, as a test does it: press, write, choose, wait."""

import json
import time
from collections.abc import Mapping
from pathlib import Path

from tests.browser.devtools import Page

PATIENCE_S = 90.0
EXAMPLES = Path(__file__).parents[3] / "examples"


def library(*folders: str) -> dict[str, str]:
    """Files of the example library by their paths in it."""
    return {
        file.relative_to(EXAMPLES).as_posix(): file.read_text(encoding="utf-8")
        for folder in folders
        for file in sorted((EXAMPLES / folder).glob("*.yaml"))
    }


def wait(tab: Page, condition: str) -> None:
    until = time.monotonic() + PATIENCE_S
    while not tab.run(f"Boolean({condition})"):
        if time.monotonic() > until:
            raise TimeoutError(f"{condition}; the page says: {tab.run('document.body.innerText')[:600]}")
        time.sleep(0.05)


def open_files(tab: Page, files: Mapping[str, str], rig: str) -> None:
    """Open files as a drop of a folder does, and wait for the answer."""
    tab.run(
        f"riglint.page.library.open({json.dumps(files)}, {{over: true}}); riglint.page.choose({json.dumps(rig)})"
    )
    settled(tab)


def settled(tab: Page) -> None:
    """Wait until what is on the screen is about the newest text."""
    wait(tab, "riglint.page.audits.fresh && riglint.page.audits.found")


def show(tab: Page, screen: str) -> None:
    tab.run(f"document.querySelector('.ways [data-screen={screen}]').click()")


def press(tab: Page, words: str) -> None:
    """Press the first button with these words."""
    pressed = tab.run(
        f"""(() => {{
          const called = (one) => one.getAttribute('aria-label') ?? one.textContent;
          const all = [...document.querySelectorAll('main button, .top button')];
          const one = all.find((each) => each.getClientRects().length && called(each).startsWith({json.dumps(words)}));
          if (!one || one.disabled) return all.map((each) => each.textContent);
          one.click();
          return true;
        }})()"""
    )
    assert pressed is True, f"no button {words} to press; there are {pressed}"


def write(tab: Page, label: str, text: str) -> None:
    """Write into the field with this label."""
    written = tab.run(
        f"""(() => {{
          const labels = [...document.querySelectorAll('main label')];
          const label = labels.find((one) => one.textContent.startsWith({json.dumps(label)}));
          const field = label && document.getElementById(label.htmlFor);
          if (!field) return false;
          field.value = {json.dumps(text)};
          for (const name of ['input', 'change']) field.dispatchEvent(new Event(name, {{bubbles: true}}));
          return true;
        }})()"""
    )
    assert written, f"no field {label}"


def text_of(tab: Page, name: str) -> str:
    text: str = tab.run(f"riglint.page.library.text({json.dumps(name)})")
    return text


def said(tab: Page, where: str = "main") -> str:
    text: str = tab.run(f"document.querySelector({json.dumps(where)}).innerText")
    return text
