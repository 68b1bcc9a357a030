"""What every page of HTML has around it: a head that lets nothing be fetched, and nothing run but what we wrote."""

from __future__ import annotations

from base64 import b64encode
from hashlib import sha256

from riglint.read.problems import command_escaped


def html_page(title: str, style: str, body: str, script: str = "") -> str:
    """Return a whole page; title and body are finished HTML, style and script the only ones that the page takes."""
    run = f"<script>{script}</script>\n" if script else ""
    return command_escaped(
        '<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        f'<meta http-equiv="Content-Security-Policy" content="{policy(style, script)}">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f"<title>{title}</title>\n<style>{style}</style>\n</head>\n<body>\n{body}{run}</body>\n</html>\n",
        "&#35;",
    )


def policy(style: str, script: str = "") -> str:
    """Return what a page may do (W3C Content Security Policy Level 3): look as this style says, run this script."""
    runs = f"script-src '{_digest(script)}'; " if script else ""
    return f"default-src 'none'; {runs}style-src '{_digest(style)}'; base-uri 'none'; form-action 'none'"


def _digest(text: str) -> str:
    return f"sha256-{b64encode(sha256(text.encode()).digest()).decode()}"
