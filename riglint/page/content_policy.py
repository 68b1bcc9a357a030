"""What the page may do in a browser (W3C Content Security Policy Level 3): nothing from anywhere else."""

from __future__ import annotations

from base64 import b64encode
from hashlib import sha256

from riglint.reports.card.html import CARD_STYLE
from riglint.reports.sheet.html import STYLE as SHEET_STYLE


def content_policy() -> str:
    """Return the policy: scripts, styles and data of the page's own folder, WebAssembly, and no other eval.

    Card and sheet are shown as the pages that the command line writes; each has one style, known by its hash.
    """
    styles = " ".join(f"'sha256-{_digest(style)}'" for style in (CARD_STYLE, SHEET_STYLE))
    return "; ".join(
        (
            "default-src 'none'",
            "script-src 'self' 'wasm-unsafe-eval'",
            f"style-src 'self' {styles}",
            "img-src 'self' blob: data:",
            "connect-src 'self'",
            "worker-src 'self'",
            "manifest-src 'self'",
            "frame-src 'self' blob:",
            "base-uri 'none'",
            "form-action 'none'",
        )
    )


def _digest(style: str) -> str:
    return b64encode(sha256(style.encode()).digest()).decode()
