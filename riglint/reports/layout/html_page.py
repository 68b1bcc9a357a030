"""What every page of HTML has around it: a head that lets nothing run and nothing be fetched."""

from __future__ import annotations

from base64 import b64encode
from hashlib import sha256

from riglint.read.problems import command_escaped


def html_page(title: str, style: str, body: str) -> str:
    """Return a whole page; title and body are finished HTML, and the style is the only one that the page takes."""
    return command_escaped(
        '<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        f'<meta http-equiv="Content-Security-Policy" content="{policy(style)}">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f"<title>{title}</title>\n<style>{style}</style>\n</head>\n<body>\n{body}</body>\n</html>\n",
        "&#35;",
    )


def policy(style: str) -> str:
    """Return what a page may do (W3C Content Security Policy Level 3): look as this style says, and no more."""
    digest = b64encode(sha256(style.encode()).digest()).decode()
    return f"default-src 'none'; style-src 'sha256-{digest}'; base-uri 'none'; form-action 'none'"
