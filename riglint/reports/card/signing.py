"""The boxes of the card that are signed at full tension and go into the rig file, and what keeps them in a browser."""

from __future__ import annotations

import json
from collections.abc import Callable
from hashlib import sha256
from html import escape
from importlib.resources import files

from riglint.read.problems import visible
from riglint.views.card.content import Card, CheckBox

Safe = Callable[[str], str]  # text as HTML prints it
STYLE = """
label.box { display: grid; grid-template-columns: 1.9rem 1fr; padding: .2rem 0; cursor: pointer; }
.tick { appearance: none; -webkit-appearance: none; flex: none; margin: .05rem 0 0; padding: 0; border-radius: 0;
  background: #ffffff; print-color-adjust: exact; -webkit-print-color-adjust: exact; cursor: pointer; }
.tick:checked::before { content: ""; display: block; width: 100%; height: 100%; background: #1a1a1b;
  clip-path: polygon(12% 52%, 24% 40%, 42% 58%, 78% 14%, 92% 26%, 43% 84%);
  print-color-adjust: exact; -webkit-print-color-adjust: exact; }
.tick:focus-visible, .pen input:focus-visible, .pen button:focus-visible, .pen select:focus-visible,
  .pen textarea:focus-visible { outline: 3px solid #1a4fa0; outline-offset: 2px; }
.who { font-weight: 600; display: block; }
.pen { border: 2px solid #1a1a1b; padding: .5rem .7rem; margin: .6rem 0; }
.pen .fields { display: grid; grid-template-columns: repeat(auto-fit, minmax(9rem, 1fr)); gap: .5rem .8rem; }
.pen .fields label { display: block; font-weight: 600; }
.pen input, .pen select, .pen textarea, .pen button { font: inherit; color: #1a1a1b; background: #ffffff;
  border: 1.5px solid #1a1a1b; border-radius: .2rem; min-height: 2.75rem; padding: .3rem .5rem; max-width: 100%; }
.pen .fields input { width: 100%; } .pen .pair { display: flex; gap: .3rem; }
.pen textarea { width: 100%; min-height: 9rem; font: .85rem/1.3 "Liberation Mono", ui-monospace, monospace; }
.pen button { font-weight: 700; cursor: pointer; padding: .3rem .9rem; }
.pen button:disabled { color: #5a5a5e; border-color: #8a8a8e; cursor: default; }
.pen .row { display: flex; flex-wrap: wrap; gap: .5rem; margin: .6rem 0 .2rem; }
.pen .told { font-weight: 600; min-height: 1.4em; }
.pen[hidden], .pen [hidden] { display: none; }
@media screen and (max-width: 44rem) {
  label.box { grid-template-columns: 2.4rem 1fr; min-height: 2.75rem; align-items: start; padding: .35rem 0; }
}
@media print {
  .pen, .last-look:not(.signed) { display: none; } label.box { grid-template-columns: 4.9mm 1fr; padding: 0; }
}
"""
UNITS = ("kN", "N", "lbf")


def script() -> str:
    """Return the page's only script."""
    return (files("riglint.reports.card") / "signing.js").read_text(encoding="utf-8")


def box_html(name: str, words: str, box: CheckBox | None = None) -> str:
    """Return a box with finished words; `box` is what it stands for in the rig file."""
    marked, who = "", ""
    if box is not None:
        marked = f' data-names="{escape(json.dumps(box.names, ensure_ascii=False))}"'
        marked += " data-second" if box.second else ""
        marked += "" if box.tight else " data-slack"
        who = '<span class="who"></span>'
    return (
        f'<label class="box"><input type="checkbox" class="tick" autocomplete="off" data-box="{name}"{marked}>'
        f"<span>{words}{who}</span></label>"
    )


def content_of(card: Card) -> str:
    """Return a word that changes with the files of the rig and with any box of its card."""
    told = [card.fingerprint, *(tick.words for step in card.work for tick in step.ticks)]
    told += [f"{box.words} {box.names}" for box in card.boxes]
    return sha256("\n".join(told).encode()).hexdigest()[:16]


def card_data(card: Card) -> str:
    """Return what the script knows of the card, as attributes."""
    held = {
        "rig": card.path,
        "content": content_of(card),
        "files": card.fingerprint,
        "standing": card.standing_text,
    }
    return "".join(f' data-{name}="{escape(visible(value))}"' for name, value in held.items())


def signing_html(card: Card, safe: Safe, second: str) -> str:
    """Return the section that is signed; `second` marks what a second person looks at."""
    rows = "".join(
        f"<li>{box_html(f'c{n}', words, box)}</li>\n"
        for n, box in enumerate(card.boxes)
        for words in [(second if box.second else "") + safe(box.words)]
    )
    looks = (
        "<p>Look at each once more at full tension. Tick only what you have checked yourself.</p>\n"
        f"<ul>\n{rows}</ul>\n"
        if rows
        else "<p>The rig file waits for no check.</p>\n"
    )
    return f'<section class="last-look">\n<h2>Last look, for the rig file</h2>\n{looks}{_pen(card, safe)}</section>\n'


def _pen(card: Card, safe: Safe) -> str:
    """Return what only a screen shows, and only where the script runs."""
    planned = (
        f"<p>Planned: {safe(card.standing_text)}. The audit counts no check at less.</p>\n"
        if card.standing_text
        else ""
    )
    units = "".join(f"<option>{one}</option>" for one in UNITS)
    return (
        '<div class="pen" id="pen" hidden>\n'
        '<p id="count"></p>\n<p id="kept">Ticks stay on this device, in this browser.</p>\n<div class="fields">\n'
        '<label>Role<input id="role" autocomplete="off" placeholder="rigger"></label>\n'
        '<label>Initials<input id="initials" autocomplete="off" autocapitalize="off" maxlength="6"></label>\n'
        '<label>Day<input id="day" type="date" autocomplete="off"></label>\n'
        f'<div><label for="tension">Tension you read</label>\n<div class="pair">'
        '<input id="tension" inputmode="decimal" autocomplete="off">'
        f'<select id="unit" aria-label="Unit of the tension" autocomplete="off">{units}</select></div></div>\n</div>\n'
        f"{planned}"
        '<div class="row"><button type="button" id="sign">Sign what is ticked</button>'
        '<button type="button" id="export">Lines for the rig file</button>'
        '<button type="button" id="empty">Empty all boxes</button></div>\n'
        '<p class="told" id="told" role="status"></p>\n'
        '<div id="lines" hidden>\n<label for="text">Lines for the rig file</label>\n'
        '<textarea id="text" readonly spellcheck="false"></textarea>\n'
        '<div class="row"><button type="button" id="copy">Copy</button>'
        '<button type="button" id="save">Save as checks.yaml</button></div>\n</div>\n</div>\n'
    )
