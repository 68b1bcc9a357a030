"""What could stand at a place of a text: the keys of its group, words, units, and names of gear and anchors."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

from riglint.model.changed import value_at
from riglint.model.load import MODELS, Key
from riglint.model.sentences import keys_at, units_at, words_at
from riglint.read.document import Document
from riglint.read.library import find_documents
from riglint.read.yaml_text import read_yaml

MARK = "zzhere"  # stands where the cursor is, while the text is read
NUMBER = re.compile(r"[\d.]+ ?")
WORD = re.compile(r"[\w.-]*")
# Where the names of a key's values stand: the kind of file, and the group in it.
NAMED: dict[str, tuple[str, str]] = {"gear": ("shelf", "items"), "at": ("spot", "anchors")}
MOST = 400

Suggestion = dict[str, str]


def words_here(library: Path, text: str, line: int, column: int) -> list[Suggestion]:
    """Return what could stand at a place, each with what it is about; nothing where the text cannot be read."""
    for written in (MARK, f"{MARK}: x"):
        document, _ = read_yaml(_marked(text, line, column, written).encode("utf-8", "surrogatepass"), "text")
        found = _place(document) if document else None
        if document is not None and found is not None:
            kind = str(document.data.get("riglint")).partition("/")[0]
            return list(_suggested(library, kind, *found))[:MOST] if kind in MODELS else []
    return []


def _marked(text: str, line: int, column: int, written: str) -> str:
    """Return the text with a mark in place of the word at a place."""
    rows = text.split("\n")
    row = rows[line - 1] if line <= len(rows) else ""
    match = WORD.match(row, column - 1)
    rows[line - 1 : line] = [row[: column - 1] + written + row[match.end() if match else column - 1 :]]
    return "\n".join(rows)


def _place(document: Document) -> tuple[Key, str | None] | None:
    """Return where the mark stands: a key and what is written before it as a value, or a group and None as a key."""
    for key in document.key_places:
        if key and key[-1] == MARK:
            return key[:-1], None
    for key in document.places:
        value = value_at(document.data, key)
        if isinstance(value, str) and value.endswith(MARK):
            return key, value.removesuffix(MARK)
    return None


def _suggested(library: Path, kind: str, key: Key, before: str | None) -> Iterator[Suggestion]:
    model = MODELS[kind]
    if before is None:
        yield from ({"word": f"{name}: ", "about": about} for name, about in keys_at(model, key).items())
        return
    if NUMBER.fullmatch(before):
        yield from ({"word": unit, "about": ""} for unit in units_at(model, key))
        return
    yield from ({"word": word, "about": ""} for word in words_at(model, key))
    if str(key[-1]) in NAMED:
        yield from _names(library, *NAMED[str(key[-1])])


def _names(library: Path, kind: str, group: str) -> Iterator[Suggestion]:
    """Yield the names that the library's files of a kind give, and the file of each."""
    for file in find_documents([library]).files:
        document, _ = read_yaml(file.read_bytes(), file.name)
        if document is None or not str(document.data.get("riglint")).startswith(f"{kind}/"):
            continue
        held = document.data.get(group)
        for name in held if isinstance(held, dict) else ():
            yield {"word": name, "about": file.name}
