"""Findings in the words of the protocol that editors speak: diagnostics, hover, changes of the text."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from lsprotocol import types

from riglint.editor.desk import Desk, as_bytes
from riglint.editor.explaining import about, head, key_at, told
from riglint.editor.places import BOM, Span, Text, Units, text_of
from riglint.findings import Finding
from riglint.loadpath.path import first_up
from riglint.read.problems import Place
from riglint.read.yaml_text import read_yaml
from riglint.reports.audit.json_report import figure
from riglint.rulekit import Edit, Input, Remedy, Signal

SEVERITY = {
    Signal.DANGER: types.DiagnosticSeverity.Error,
    Signal.WARNING: types.DiagnosticSeverity.Error,
    Signal.CAUTION: types.DiagnosticSeverity.Warning,
    Signal.NOTICE: types.DiagnosticSeverity.Information,
}
LONGEST_LINE = 100_000  # more than an editor has columns


def diagnostics(desk: Desk, file: Path, units: Units) -> list[types.Diagnostic]:
    """Return what is to be shown in one file."""
    text = text_of(desk.text(file))
    return [_diagnostic(desk, file, text, one, units) for one in desk.findings(file)]


def _diagnostic(desk: Desk, file: Path, text: Text, finding: Finding, units: Units) -> types.Diagnostic:
    return types.Diagnostic(
        range=_range(text, _span(text, finding), units),
        message=f"{head(finding)}: {finding.message} {finding.do}",
        severity=_severity(finding),
        code=finding.rule,
        source="riglint",
        related_information=list(_elsewhere(desk, file, finding)) or None,
    )


def _severity(finding: Finding) -> types.DiagnosticSeverity:
    if finding.accepted is not None:
        return types.DiagnosticSeverity.Information
    if finding.kind == "review" and finding.signal == Signal.NOTICE:
        return types.DiagnosticSeverity.Hint  # every rig has a dozen of them; they must not hide the rest
    return SEVERITY[finding.signal]


def _span(text: Text, finding: Finding) -> Span:
    return text.span(Place(finding.at.line, finding.at.column))


def _range(text: Text, span: Span, units: Units) -> types.Range:
    start = text.to_editor(span.line, span.start, units)
    end = text.to_editor(span.line, span.end, units)
    return types.Range(types.Position(*start), types.Position(*end))


def _elsewhere(desk: Desk, file: Path, finding: Finding) -> Iterator[types.DiagnosticRelatedInformation]:
    """Yield where a finding's inputs were read, as far as that is in other files, and the rigs that it touches."""
    root = desk.root(file)
    for one in finding.inputs:
        path, _, line = (one.where or "").rpartition(":")
        if path and line.isdigit() and root / path != file:
            yield _related(desk, root / path, int(line), _input(one))
    for rig in finding.rigs:
        if root / rig != file:
            yield _related(desk, root / rig, 1, "This rig rests on it.")


def _related(desk: Desk, file: Path, line: int, message: str) -> types.DiagnosticRelatedInformation:
    whole = types.Range(types.Position(line - 1, 0), types.Position(line - 1, LONGEST_LINE))
    return types.DiagnosticRelatedInformation(types.Location(desk.uri(file), whole), message)


def _input(one: Input) -> str:
    symbol = f" {one.symbol}" if one.symbol else ""
    return f"{one.name}{symbol} = {figure(one.value)} {one.unit}".rstrip()


def hover(desk: Desk, file: Path, position: types.Position, units: Units) -> types.Hover | None:
    """Return what belongs where the pointer stands, and what was found there."""
    written = desk.texts.get(file, "")
    text = text_of(written)
    place = text.from_editor(position.line, position.character, units)
    document, _ = read_yaml(as_bytes(written), file.name)
    key = key_at(document, text, place) if document else None
    starts = (
        {document.places.get(key), document.key_places.get(key)} if document and key is not None else set()
    )
    here = [one for one in desk.findings(file) if _stands(text, one, place, starts)]
    said = [about(document, key)] if document and key else []
    parts = [part for part in (*said, *map(told, here)) if part]
    if not parts:
        return None
    return types.Hover(types.MarkupContent(types.MarkupKind.Markdown, "\n\n---\n\n".join(parts)))


def _stands(text: Text, finding: Finding, place: Place, starts: set[Place | None]) -> bool:
    """Whether a finding is about where the pointer stands: at that key or value, or over it."""
    span = _span(text, finding)
    over = span.line == place.line and span.start <= place.column <= span.end
    return over or Place(finding.at.line, finding.at.column) in starts


def fixes(desk: Desk, file: Path, chosen: types.Range, units: Units) -> list[types.CodeAction]:
    """Return the changes of the text that end a finding in the chosen lines, each tried before it was said."""
    text = text_of(desk.text(file))
    found = []
    for finding in desk.findings(file):
        if not chosen.start.line <= finding.at.line - 1 <= chosen.end.line:
            continue
        shown = _diagnostic(desk, file, text, finding, units)
        for title, changes in _changes(desk, file, text, finding, units):
            edit = types.WorkspaceEdit(changes=changes)
            kind = types.CodeActionKind.QuickFix
            found.append(types.CodeAction(title, kind=kind, diagnostics=[shown], edit=edit))
    return found


Changes = dict[str, list[types.TextEdit]]


def _changes(
    desk: Desk, file: Path, text: Text, finding: Finding, units: Units
) -> Iterator[tuple[str, Changes]]:
    for remedy in finding.remedies:
        changes = _remedied(desk, file, remedy, units) if remedy.offered else None
        if changes:
            yield f"{first_up(remedy.words)}", changes
    audited = desk.audits.get(file)
    if finding.instead and audited is not None and audited.text == text.text:
        edit = _replaced(text, Place(finding.at.line, finding.at.column), finding.instead, units)
        if edit is not None:
            yield f"Write {finding.instead}", {desk.uri(file): [edit]}


def _remedied(desk: Desk, file: Path, remedy: Remedy, units: Units) -> Changes | None:
    """Return the changes of one remedy, or None where a text is no longer the one that it was worked out for."""
    changes: Changes = {}
    for edit in remedy.edits:
        target = desk.root(file) / edit.at.path
        made = _edit(text_of(desk.text(target)), edit, units)
        if made is None:
            return None
        changes.setdefault(desk.uri(target), []).append(made)
    return changes


def _edit(text: Text, edit: Edit, units: Units) -> types.TextEdit | None:
    place = edit.at.document.places.get(edit.at.key)
    if place is None or text.text.removeprefix(BOM) != edit.at.document.text:
        return None
    return _replaced(text, place, edit.new, units)


def _replaced(text: Text, place: Place, new: str, units: Units) -> types.TextEdit | None:
    """Return the change of one value or key, in the quotes that it stands in; None for what runs over lines."""
    span = text.spans.get(place)
    if span is None or not span.whole:
        return None
    return types.TextEdit(_range(text, span, units), f"{span.quote}{new}{span.quote}")
