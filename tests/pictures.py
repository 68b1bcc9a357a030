"""The pictures of the README, made from real output: `python -m tests.pictures` writes them to examples/pictures/.

The terminal is drawn from the coloured spans of the audit; report and card are what a headless Chromium shows of their
pages. Chromium may draw letters otherwise from version to version, so tests compare only the text of the terminal.
"""

import base64
import html
import io
import re
import tempfile
from dataclasses import replace
from datetime import date
from pathlib import Path

from rich.console import Console
from rich.terminal_theme import DIMMED_MONOKAI
from rich.text import Text

from riglint.cli import main
from riglint.findings import audit
from riglint.page.build import build_page
from riglint.reports.audit.text import audit_text
from riglint.rulebook import load_rulebook
from tests.browser.devtools import Browser, installed, opened
from tests.browser.page.conftest import serving
from tests.browser.page.screens import library, open_files

CHECKOUT = Path(__file__).parents[1]
PICTURES = CHECKOUT / "examples" / "pictures"
RIG = CHECKOUT / "examples" / "faulty" / "low-line.yaml"
SOUND = CHECKOUT / "examples" / "rigs" / "low-line.yaml"
ON = "2026-05-02"
WIDTH = 80  # characters
NO_SEAL = "0" * 12
# Of rich's own drawing without its window and without the letters that it would fetch from the net.
TERMINAL = """\
<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {height}" role="img" aria-label="riglint audit">
<style>
.{unique_id}-matrix {{ font-family: "DejaVu Sans Mono", Menlo, Consolas, monospace; font-size: {char_height}px;
  line-height: {line_height}px; }}
{styles}
</style>
<defs>{lines}</defs>
<rect width="{width}" height="{height}" rx="8" fill="#191919"/>
<g transform="translate({terminal_x}, {terminal_y})">{backgrounds}
<g class="{unique_id}-matrix">
{matrix}
</g></g>
</svg>
"""
SHOTS = {
    "report.webp": (["audit", str(RIG), "--on", ON, "--format", "html"], 900, 1500),
    "card.webp": (["card", str(SOUND), "--on", ON, "--format", "html"], 794, 1123),
}

# Of the page that `riglint page` builds: on a phone and on a desk.
PAGE_SHOTS = {"page-phone.webp": (390, 844), "page-desk.webp": (1280, 800)}


def terminal() -> str:
    """Return the audit of a faulty rig as it looks on a terminal, as SVG."""
    book = replace(load_rulebook(), seal=NO_SEAL)  # that of the book changes with every rule
    result = audit([RIG], book, date.fromisoformat(ON))
    console = Console(record=True, width=WIDTH, highlight=False, file=io.StringIO(), force_terminal=True)
    for line in audit_text(result, WIDTH):
        console.print(Text.assemble(*((span.text, span.look) for span in line)), soft_wrap=True)
    return console.export_svg(code_format=TERMINAL, theme=DIMMED_MONOKAI, unique_id="audit", title="")


def words(svg: str) -> list[str]:
    """Return the words of a terminal's picture, in reading order."""
    return html.unescape(" ".join(re.findall(r"<text[^>]*>([^<]*)</text>", svg))).split()


def write() -> None:
    """Write every picture."""
    PICTURES.mkdir(exist_ok=True)
    (PICTURES / "terminal.svg").write_text(terminal(), encoding="utf-8", newline="\n")
    executable = installed()
    if executable is None:
        raise SystemExit("Only terminal.svg was written: no Chromium was found.")
    with tempfile.TemporaryDirectory() as name:
        browser = Browser(executable, Path(name) / "profile")
        for picture, (call, width, height) in SHOTS.items():
            page = Path(name) / f"{picture}.html"
            main([*call, "--output", str(page)])
            with opened(browser, page, width, height) as tab:
                shot = tab.call("Page.captureScreenshot", format="webp", quality=75)
            (PICTURES / picture).write_bytes(base64.b64decode(shot["data"]))
        _write_page(browser, Path(name))
        browser.close()


def _write_page(browser: Browser, work: Path) -> None:
    """Write what the page shows of the faulty rig; building it needs npm and a package index."""
    build_page(work / "page")
    files = library("faulty", "spots", "shelf")
    rig = RIG.relative_to(CHECKOUT / "examples").as_posix()
    with serving(work / "page") as address:
        for picture, size in PAGE_SHOTS.items():
            with opened(browser, address, *size) as tab:
                tab.run(f"riglint.page.on = '{ON}'")
                open_files(
                    tab, {name: files[name] for name in files if name == rig or "faulty" not in name}, rig
                )
                tab.run("riglint.page.tell('')")
                shot = tab.call("Page.captureScreenshot", format="webp", quality=75)
            (PICTURES / picture).write_bytes(base64.b64decode(shot["data"]))


if __name__ == "__main__":
    write()
