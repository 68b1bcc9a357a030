"""Findings in the words of the protocol that editors speak: diagnostics, hover, changes of the text."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from lsprotocol import types

from riglint.editor.explaining import head, hover_text, key_at, meaning
from riglint.editor.half_written import places_at
from riglint.editor.names import NamesHere
from riglint.editor.open_files import OpenFiles, as_bytes
from riglint.editor.places import BOM, Text, TextRange, Units, text_of
from riglint.findings import Finding
from riglint.loadpath.path import first_up
from riglint.model.load import Key
from riglint.read.looks import OURS
from riglint.read.problems import Place
from riglint.read.yaml_text import read_yaml
from riglint.reports.audit.json_report import figure
from riglint.rulekit import Edit, Input, Remedy, Signal
from riglint.views.audit.settings_words import settings_in_words

SEVERITY = {
    Signal.DANGER: types.DiagnosticSeverity.Error,
    Signal.WARNING: types.DiagnosticSeverity.Error,
    Signal.CAUTION: types.DiagnosticSeverity.Warning,
    Signal.NOTICE: types.DiagnosticSeverity.Information,
}
LONGEST_LINE = 100_000  # more than an editor has columns


def diagnostics(open_files: OpenFiles, file: Path, units: Units) -> list[types.Diagnostic]:
    """Return what is to be shown in one file."""
    text = text_of(open_files.text(file))
    return [_diagnostic(open_files, file, text, one, units) for one in open_files.findings(file)]


def _diagnostic(
    open_files: OpenFiles, file: Path, text: Text, finding: Finding, units: Units
) -> types.Diagnostic:
    return types.Diagnostic(
        range=_range(text, _span(text, finding), units),
        message=f"{head(finding)}: {finding.message} {finding.do}",
        severity=_severity(finding),
        code=finding.rule,
        source="riglint",
        related_information=list(_elsewhere(open_files, file, finding)) or None,
    )


def _severity(finding: Finding) -> types.DiagnosticSeverity:
    if finding.accepted is not None:
        return types.DiagnosticSeverity.Information
    if finding.kind == "review" and finding.signal == Signal.NOTICE:
        return types.DiagnosticSeverity.Hint  # every rig has a dozen of them; they must not hide the rest
    return SEVERITY[finding.signal]


def _span(text: Text, finding: Finding) -> TextRange:
    return text.span(Place(finding.at.line, finding.at.column))


def _range(text: Text, span: TextRange, units: Units) -> types.Range:
    start = text.to_editor(span.line, span.start, units)
    end = text.to_editor(span.line, span.end, units)
    return types.Range(types.Position(*start), types.Position(*end))


def _elsewhere(
    open_files: OpenFiles, file: Path, finding: Finding
) -> Iterator[types.DiagnosticRelatedInformation]:
    """Yield where a finding's inputs were read, as far as that is in other files, and the rigs that it touches."""
    root = open_files.root(file)
    for one in finding.inputs:
        path, _, line = (one.where or "").rpartition(":")
        if path and line.isdigit() and root / path != file:
            yield _related(open_files, root / path, int(line), _input(one))
    for rig in finding.rigs:
        if root / rig != file:
            yield _related(open_files, root / rig, 1, "This rig rests on it.")


def _related(
    open_files: OpenFiles, file: Path, line: int, message: str
) -> types.DiagnosticRelatedInformation:
    whole = types.Range(types.Position(line - 1, 0), types.Position(line - 1, LONGEST_LINE))
    return types.DiagnosticRelatedInformation(types.Location(open_files.uri(file), whole), message)


def _input(one: Input) -> str:
    symbol = f" {one.symbol}" if one.symbol else ""
    return f"{one.name}{symbol} = {figure(one.value)} {one.unit}".rstrip()


def hover(open_files: OpenFiles, file: Path, position: types.Position, units: Units) -> types.Hover | None:
    """Return what belongs where the pointer stands, and what was found there."""
    written = open_files.texts.get(file, "")
    text = text_of(written)
    place = text.from_editor(position.line, position.character, units)
    document, _ = read_yaml(as_bytes(written), file.name)
    data, key = (document.data, key_at(document, text, place)) if document else _key_of(text, place)
    starts = (
        {document.places.get(key), document.key_places.get(key)} if document and key is not None else set()
    )
    here = [one for one in open_files.findings(file) if _stands(text, one, place, starts)]
    names = NamesHere(data, file, open_files.library(file), open_files.text)
    parts = [part for part in (meaning(data, key or (), names), *map(hover_text, here)) if part]
    if key == (OURS,) and file in open_files.audits:  # the head of a file says what the head of a report does
        parts += settings_in_words(open_files.audits[file].force)
    if not parts:
        return None
    return types.Hover(types.MarkupContent(types.MarkupKind.Markdown, "\n\n---\n\n".join(parts)))


def _key_of(text: Text, place: Place) -> tuple[Any, Key | None]:
    """Return the key at a place of a text that has no document yet, and what could be read round it."""
    for here in places_at("\n".join(text.lines), place.line - 1, place.column - 1):
        word = text.lines[place.line - 1][here.start : here.end].strip()
        return here.data, (*here.key, word) if here.is_key else here.key
    return None, None


def _stands(text: Text, finding: Finding, place: Place, starts: set[Place | None]) -> bool:
    """Whether a finding is about where the pointer stands: at that key or value, or over it."""
    span = _span(text, finding)
    over = span.line == place.line and span.start <= place.column <= span.end
    return over or Place(finding.at.line, finding.at.column) in starts


def fixes(open_files: OpenFiles, file: Path, chosen: types.Range, units: Units) -> list[types.CodeAction]:
    """Return the changes of the text that end a finding in the chosen lines, each tried before it was said."""
    text = text_of(open_files.text(file))
    found = []
    for finding in open_files.findings(file):
        if not chosen.start.line <= finding.at.line - 1 <= chosen.end.line:
            continue
        shown = _diagnostic(open_files, file, text, finding, units)
        for title, changes in _changes(open_files, file, text, finding, units):
            edit = types.WorkspaceEdit(changes=changes)
            kind = types.CodeActionKind.QuickFix
            found.append(types.CodeAction(title, kind=kind, diagnostics=[shown], edit=edit))
    return found


Changes = dict[str, list[types.TextEdit]]


def _changes(
    open_files: OpenFiles, file: Path, text: Text, finding: Finding, units: Units
) -> Iterator[tuple[str, Changes]]:
    for remedy in finding.remedies:
        changes = _remedied(open_files, file, remedy, units) if remedy.offered else None
        if changes:
            yield f"{first_up(remedy.words)}", changes
    audited = open_files.audits.get(file)
    for meant in finding.instead if audited is not None and audited.text == text.text else ():
        edit = _spelt_right(text, finding, meant, units)
        if edit is not None:
            yield f"Write {meant}", {open_files.uri(file): [edit]}


def _remedied(open_files: OpenFiles, file: Path, remedy: Remedy, units: Units) -> Changes | None:
    """Return the changes of one remedy, or None where a text is no longer the one that it was worked out for."""
    changes: Changes = {}
    for edit in remedy.edits:
        target = open_files.root(file) / edit.at.path
        made = _edit(text_of(open_files.text(target)), edit, units)
        if made is None:
            return None
        changes.setdefault(open_files.uri(target), []).append(made)
    return changes


def _edit(text: Text, edit: Edit, units: Units) -> types.TextEdit | None:
    place = edit.at.document.places.get(edit.at.key)
    if place is None or text.text.removeprefix(BOM) != edit.at.document.text:
        return None
    return _replaced(text, place, edit.new, units)


def _spelt_right(text: Text, finding: Finding, meant: str, units: Units) -> types.TextEdit | None:
    """Return the change that writes what was meant; None where the text is not the one that the sentence quotes.

    A part of a kit stands in another file than its finding.
    """
    place = Place(finding.at.line, finding.at.column)
    span = text.spans.get(place, text.span(place))
    if not finding.written:
        there = text.lines[span.line - 1][span.start - 1 : span.end - 1]
        quoted = re.findall(r"'([^']+)'", finding.message)
        return _replaced(text, place, meant, units) if any(one in there for one in quoted) else None
    whole = f"{span.quote}{finding.written}{span.quote}"
    rest = text.lines[span.line - 1][span.start - 1 :]
    if not rest.startswith(whole):
        return None
    return types.TextEdit(_range(text, span._replace(end=span.start + len(whole)), units), meant)


def _replaced(text: Text, place: Place, new: str, units: Units) -> types.TextEdit | None:
    """Return the change of one value or key, in the quotes that it stands in; None for what runs over lines."""
    span = text.spans.get(place)
    if span is None or not span.whole:
        return None
    return types.TextEdit(_range(text, span, units), f"{span.quote}{new}{span.quote}")
