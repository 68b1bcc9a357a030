"""The block of a page that says what was taken where the files do not say."""

from __future__ import annotations

from collections.abc import Sequence
from html import escape

from riglint.read.problems import visible
from riglint.views.assumed import TITLE, AssumedRow


def assumed_html(rows: Sequence[AssumedRow], level: int = 3) -> str:
    """Return the block; nothing where nothing was assumed."""
    if not rows:
        return ""
    items = "".join(f"<li><b>{_safe(one.label)}</b>: {_safe(one.text)}</li>\n" for one in rows)
    head = f"<h{level}>{TITLE}</h{level}>"
    return f'<section class="assumed" aria-label="Assumed">\n{head}\n<ul>\n{items}</ul>\n</section>\n'


def _safe(text: str) -> str:
    return escape(visible(text))
