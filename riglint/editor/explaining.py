"""What an editor shows of a key: what belongs there, in which units, and what was found there."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from riglint.editor import grammar
from riglint.editor.half_written import at
from riglint.editor.names import NamesHere
from riglint.editor.places import Text
from riglint.findings import Finding
from riglint.model.load import Key
from riglint.model.vocabulary.meanings import meanings_of
from riglint.read.document import Document
from riglint.read.problems import Place, key_text
from riglint.reports.audit.json_report import figure


def key_at(document: Document, text: Text, place: Place) -> Key | None:
    """Return the key that stands at a place, or whose value does; the innermost where several begin there."""
    found: list[Key] = []
    for places in (document.key_places, document.places):
        for key, start in places.items():
            span = text.spans.get(start) if start.line == place.line else None
            if span and span.start <= place.column <= span.end:
                found.append(key)
    return max(found, key=len, default=None)


def meaning(data: Any, key: Key, names: NamesHere) -> str:
    """Return what belongs at a key, and what the word or name that stands there means; empty where neither is known."""
    model = grammar.model_of(grammar.kind_of(data))
    if model is None or not key:
        return ""
    written = at(data, key)
    named = {one.name: one.about for one in names.at(key, at(data, key[:-1]))}
    words = grammar.words_at(model, key)
    meant = named | dict(zip(words, meanings_of(words), strict=False))
    word = f"**{written}** – {meant[written]}." if isinstance(written, str) and meant.get(written) else ""
    return "\n\n".join(one for one in (_nearest(model, key), word) if one)


def about(document: Document, key: Key) -> str:
    """Return what belongs at a key, with the units that it takes; empty where that is not known."""
    model = grammar.model_of(grammar.kind_of(document.data))
    return _nearest(model, key) if model is not None else ""


def _nearest(model: grammar.Model, key: Key) -> str:
    """Return what belongs at a key, or at the nearest one above it of which something is said."""
    while key and not about_key(model, key):
        key = key[:-1]
    return f"**{key_text(key[-1:])}** – {about_key(model, key)}" if key else ""


def about_key(model: grammar.Model, key: Key) -> str:
    """Return what belongs at a key: what it is about, its words with their meaning, its units and its bounds."""
    groups = grammar.groups_at(model, key[:-1]) if key else []
    said = next(filter(None, (grammar.about_key(group, str(key[-1])) for group in groups)), "")
    if not said:
        return ""
    words, units = grammar.words_at(model, key), grammar.units_at(model, key)
    unit = f"Units: {', '.join(units)}." if units else ""
    measure = " ".join(filter(None, (unit, grammar.band_at(model, key))))
    return "\n\n".join(filter(None, (said, _listed(words), measure)))


def _listed(words: list[str]) -> str:
    meant = meanings_of(words)
    if not meant:
        return f"Words: {', '.join(f'`{word}`' for word in words)}." if words else ""
    return "\n".join(f"- `{word}`: {meaning}" for word, meaning in zip(words, meant, strict=True))


def head(finding: Finding) -> str:
    """Return the words that a finding is opened with: its signal word, and what kind of finding it is."""
    kind = {"fail": "", "open": ", open question", "review": ", to look at on site"}[finding.kind]
    return f"{finding.signal.name}{kind}{f', {finding.kept_as}' if finding.accepted else ''}"


def hover_text(finding: Finding) -> str:
    """Return all of one finding, for a hover."""
    return "\n".join(
        (f"**{head(finding)}** – {finding.message}\n", *(f"- {line}" for line in _lines(finding)))
    )


def _lines(finding: Finding) -> Iterator[str]:
    unit = f" {finding.unit}" if finding.unit else ""
    if finding.value is not None:
        spread = f" ± {figure(finding.plus_minus)}" if finding.plus_minus is not None else ""
        yield f"value: {figure(finding.value)}{spread}{unit}"
    if finding.limit is not None:
        yield f"limit: {figure(finding.limit)}{unit}"
    yield f"why: {finding.why}"
    yield f"do: {finding.do}"
    if finding.accepted is not None:
        entry = finding.accepted
        yield f"{finding.kept_as} until {entry.until.isoformat()} by the {entry.role}: {entry.reason}"
    yield f"rule: {finding.rule}; source: {finding.source.text} ({finding.source.mark})"
