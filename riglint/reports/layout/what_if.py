"""A page with other values than the file's: it says so at its top, and on paper on each sheet."""

from __future__ import annotations

from collections.abc import Sequence
from html import escape

from riglint.read.problems import visible

# A fixed text: nothing from a file gets into a style. It stands in the margin of each sheet that is printed.
STYLE = """
.what-if { border: 3px dashed #2b2b2c; padding: .3rem .6rem; font-weight: 700; }
@page { @top-left { content: "WHAT IF: these values are not in the rig file";
  font: bold 8pt "Liberation Sans", Arial, sans-serif; } }
"""


def style_of(style: str, what_if: Sequence[str]) -> str:
    """Return the style of a page, with the mark of a what-if where it has other values."""
    return style + STYLE if what_if else style


def what_if_html(what_if: Sequence[str]) -> str:
    """Return which values were taken instead of the file's, for the top of a page; nothing where none were."""
    return "".join(f'<p class="what-if">{escape(visible(one))}</p>\n' for one in what_if)
