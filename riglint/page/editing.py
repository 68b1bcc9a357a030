"""Places in the text of a file: what a remedy changes, the values that people choose, and what belongs where."""

from __future__ import annotations

from functools import lru_cache
from typing import Any

from riglint.editor.explaining import about, key_at
from riglint.editor.places import BOM, Text, text_of
from riglint.model.changed import value_at
from riglint.model.load import Key
from riglint.read.document import Document
from riglint.read.problems import Place, key_text
from riglint.read.yaml_text import read_yaml
from riglint.rulekit import Remedy

# What people choose at the tree; a number in a key stands for any.
CHOSEN: tuple[Key, ...] = (
    ("plan", "standing_tension"),
    ("plan", "at_once"),
    ("plan", "crew", "haulers"),
    ("plan", "users", 0, "mass"),
    ("chain", 0, "height"),
)


def changes_of(remedy: Remedy) -> list[dict[str, Any]]:
    """Return the changes that a remedy makes, each as a span of one line; empty where one cannot be written so."""
    found = []
    for edit in remedy.edits:
        document = edit.at.document
        span = _span(document, edit.at.key)
        if span is None:
            return []
        found.append({**span, "path": edit.at.path, "old": edit.old, "new": edit.new})
    return found


@lru_cache(maxsize=16)
def _looked_through(text: str) -> Text:
    return text_of(text)


def _span(document: Document, key: Key) -> dict[str, Any] | None:
    """Return where a value stands in its text: line and columns from 1, and its quote mark; None over several lines."""
    place = document.places.get(key)
    span = _looked_through(document.text).spans.get(place) if place is not None else None
    if span is None or not span.whole:
        return None
    return {"line": span.line, "start": span.start, "end": span.end, "quote": span.quote}


def choices_of(document: Document) -> list[dict[str, Any]]:
    """Return the values of a rig that people choose, as written and where they stand."""
    found = []
    for key in document.places:
        value = value_at(document.data, key)
        span = (
            _span(document, key)
            if isinstance(value, str) and any(_matches(key, one) for one in CHOSEN)
            else None
        )
        if span is not None:
            found.append({**span, "name": _called(document, key), "key": key_text(key), "value": value})
    return found


def _called(document: Document, key: Key) -> str:
    """Return what a value that people choose is called: `mass of user 2`, `height at gate`."""
    if key[0] == "chain":
        at = value_at(document.data, (*key[:-1], "at"))
        return f"height at {at}" if isinstance(at, str) else f"height of part {_count(key)}"
    if "users" in key:
        return f"mass of user {_count(key)}"
    return {"standing_tension": "standing tension", "at_once": "people at a time"}.get(
        str(key[-1]), "people hauling"
    )


def _count(key: Key) -> int:
    """Return which of a list a key stands in, counted from 1."""
    return next(step for step in key if isinstance(step, int)) + 1


def _matches(key: Key, pattern: Key) -> bool:
    return len(key) == len(pattern) and all(
        isinstance(one, int) if isinstance(other, int) else one == other
        for one, other in zip(key, pattern, strict=True)
    )


def belongs_here(text: str, line: int, column: int) -> str:
    """Return what belongs at a place, with its units; empty where that is not known."""
    document, _ = read_yaml(text.encode("utf-8", "surrogatepass"), "text")
    key = key_at(document, text_of(text.removeprefix(BOM)), Place(line, column)) if document else None
    return about(document, key) if document and key is not None else ""
