"""What an editor offers where somebody is writing: keys, words, units, and the names that stand in the library."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any, NamedTuple

from lsprotocol import types

from riglint.editor import grammar
from riglint.editor.explaining import about_key
from riglint.editor.half_written import STAND_IN, Here, at, places_at
from riglint.editor.names import NamesHere
from riglint.editor.open_files import OpenFiles
from riglint.editor.places import Units, text_of
from riglint.model.schema import MODELS
from riglint.model.vocabulary.meanings import meanings_of

NUMBER = re.compile(r"(?P<number>[-+−]?[0-9]+(?:\.[0-9]+)?)[ \t]*[^0-9]*")
NEEDS_QUOTES = re.compile(r"^[\s?!&*|>@`%-]|[\[\]{},:#'\"]|\s$")
KIND = types.CompletionItemKind


class Offer(NamedTuple):
    """One thing to write, with what is said of it."""

    label: str
    new: str
    kind: types.CompletionItemKind
    detail: str = ""
    about: str = ""


def completions(
    open_files: OpenFiles, file: Path, position: types.Position, units: Units
) -> types.CompletionList:
    """Return what may be written at a position, in the order in which it is offered."""
    text = text_of(open_files.texts.get(file, ""))
    place = text.from_editor(position.line, position.character, units)
    items: list[types.CompletionItem] = []
    for here in places_at("\n".join(text.lines), place.line - 1, place.column - 1):
        names = NamesHere(here.data, file, open_files.library(file), open_files.text)
        offers = list(_keys(here) if here.is_key else _values(open_files, here, names))
        ends = (text.to_editor(place.line, column + 1, units) for column in (here.start, here.end))
        written = types.Range(*(types.Position(*end) for end in ends))
        items += [_item(offer, written, len(items) + n) for n, offer in enumerate(offers)]
    return types.CompletionList(is_incomplete=False, items=items)


def _item(offer: Offer, written: types.Range, n: int) -> types.CompletionItem:
    """Return an offer as the protocol has it, the `n`-th of its list."""
    return types.CompletionItem(
        label=offer.label,
        kind=offer.kind,
        detail=offer.detail or None,
        documentation=types.MarkupContent(types.MarkupKind.Markdown, offer.about) if offer.about else None,
        sort_text=f"{n:04}",
        filter_text=offer.label,
        text_edit=types.TextEdit(written, offer.new),
    )


def _keys(here: Here) -> Iterator[Offer]:
    """Yield the keys that a group takes and doesn't have yet, those that it needs first."""
    model = grammar.model_of(grammar.kind_of(here.data))
    if model is None:
        if not here.key and not _others(here.data):
            yield Offer(
                "riglint", _key("riglint", here), KIND.Property, about="Kind and version of the document."
            )
        return
    written = _others(at(here.data, here.key))
    for group in grammar.groups_at(model, here.key):
        keys = grammar.keys_of(group, at(here.data, here.key))
        for name in sorted(keys, key=lambda one: not keys[one]):
            if name not in written:
                detail = "needed" if keys[name] else ""
                yield Offer(
                    name, _key(name, here), KIND.Property, detail, about_key(model, (*here.key, name))
                )


def _key(name: str, here: Here) -> str:
    return name if here.colon else f"{name}: "


def _values(open_files: OpenFiles, here: Here, names: NamesHere) -> Iterator[Offer]:
    """Yield the words, names and units that fit at a value."""
    if here.key == ("riglint",):
        for kind in MODELS:
            yield Offer(f"{kind}/1", f"{kind}/1", KIND.EnumMember)
        return
    model = grammar.model_of(grammar.kind_of(here.data))
    if model is None:
        return
    words = grammar.words_at(model, here.key)
    meant = meanings_of(words) or [""] * len(words)
    for word, meaning in zip(words, meant, strict=True):
        yield Offer(word, word, KIND.EnumMember, meaning)
    number = NUMBER.fullmatch(here.word)
    for unit in grammar.units_at(model, here.key) if number else []:
        written = f"{number['number']} {unit}" if number else unit
        yield Offer(written, written, KIND.Unit)
    for one in names.at(here.key, at(here.data, here.key[:-1])):
        yield Offer(one.name, _quoted(one.name, here), KIND.Reference, one.about)
    if here.key[-1] == "rule":
        rules = open_files.judging.book.rules
        yield from (Offer(name, name, KIND.Reference, rules[name].title) for name in sorted(rules))


def _quoted(name: str, here: Here) -> str:
    """Return a name as YAML takes it, in quotes where it needs them and none stand there."""
    return json.dumps(name, ensure_ascii=False) if NEEDS_QUOTES.search(name) and not here.quoted else name


def _others(group: Any) -> set[str]:
    """Return the keys of a group beside the word that is being written."""
    return {key for key in group if key != STAND_IN} if isinstance(group, dict) else set()
