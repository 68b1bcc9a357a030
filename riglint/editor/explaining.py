"""What an editor shows of a key: what belongs there, in which units, and what was found there."""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import BaseModel

from riglint.editor.places import Text
from riglint.findings import Finding
from riglint.model.load import MODELS, Key
from riglint.model.sentences import belongs_at, units_at
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


def about(document: Document, key: Key) -> str:
    """Return what belongs at a key, with the units that it takes; empty where that is not known."""
    model = _model(str(document.data.get("riglint")).partition("/")[0])
    if model is None:
        return ""
    while key:
        if where := belongs_at(model, key):
            units = ", ".join(units_at(model, key))
            return f"**{key_text(key[-1:])}** – {where}." + (f"\n\nUnits: {units}." if units else "")
        key = key[:-1]
    return ""


def _model(kind: str) -> type[BaseModel] | None:
    if kind == "policy":
        from riglint.model.documents.policy_file import Policy  # noqa: PLC0415 - few ever open one

        return Policy
    return MODELS.get(kind)


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
