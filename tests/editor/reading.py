"""What an audit says and what an editor shows, put side by side."""

import json
from pathlib import Path
from typing import Any

import pytest

from riglint.cli import main
from tests.editor.client import DAY

ERROR, WARNING, INFORMATION, HINT = 1, 2, 3, 4  # of the protocol


def audited(capsys: pytest.CaptureFixture[str], file: Path, *options: str) -> list[dict[str, Any]]:
    """Return every finding that an audit of one file gives, whichever file it stands in."""
    main(["audit", str(file), *DAY, "--format", "json", *options])
    report = json.loads(capsys.readouterr().out)
    return [finding for one in report["files"] for finding in one["findings"]]


def places(findings: list[dict[str, Any]], path: str) -> list[tuple[str, int, int]]:
    ours = [one for one in findings if one["at"]["path"] == path]
    return sorted((one["rule"], one["at"]["line"], one["at"]["column"]) for one in ours)


def shown(diagnostics: list[dict[str, Any]]) -> list[tuple[str, int, int]]:
    starts = [(one["code"], one["range"]["start"]) for one in diagnostics]
    return sorted((code, start["line"] + 1, start["character"] + 1) for code, start in starts)


def marked(text: str, diagnostic: dict[str, Any]) -> str:
    """Return the text that a diagnostic is drawn under, found as the protocol counts."""
    start: dict[str, int]
    end: dict[str, int]
    start, end = diagnostic["range"]["start"], diagnostic["range"]["end"]
    assert start["line"] == end["line"]
    line = text.split("\n")[start["line"]].encode("utf-16-le")
    return line[2 * start["character"] : 2 * end["character"]].decode("utf-16-le")
