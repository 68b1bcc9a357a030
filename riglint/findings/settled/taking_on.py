"""Makes the file of known findings from an audit: what stops today and somebody may answer for, each by itself."""

from __future__ import annotations

import json
from collections.abc import Sequence
from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Any

from riglint.findings.finding import Audit, Finding
from riglint.findings.identity import Identity, measured
from riglint.findings.settled.knowing import found_in, from_top, may_be_known, rigs_from
from riglint.model.documents.known_file import KnownRow
from riglint.read.library import library_root
from riglint.records import dataclass
from riglint.rulekit import Signal

DIGITS = 4  # of a number: one more than reports print


@dataclass(frozen=True, slots=True)
class SignedFor:
    """Who takes findings on, why, from which day and until when."""

    role: str
    reason: str
    since: date
    until: date


@dataclass(frozen=True, slots=True)
class TakenOn:
    """The entries of a file of known findings, the findings that are new in it, and those that can't be known."""

    entries: tuple[dict[str, Any], ...]
    new: tuple[Finding, ...]
    never: tuple[Finding, ...]


def take_on(audit: Audit, top: Path, rules: frozenset[str], stop_at: Signal, signed: SignedFor) -> TakenOn:
    """Return what a file of known findings would hold of a library that begins at `top`.

    Entries that keep a finding today stay as they are, with their own day and role.
    """
    files = {one.path: one.file for one in audit.files if one.file is not None}
    entries: list[dict[str, Any]] = []
    new: list[Finding] = []
    for result in audit.files:
        if result.file is None or library_root(result.file, top) != top:
            continue  # a library inside this one knows its own
        file = from_top(top, result.file)
        for n, name in found_in(result, file):
            one = result.findings[n]
            rigs = rigs_from(top, one, lambda path: files.get(path, top / path))
            if isinstance(one.accepted, KnownRow):
                entries.append(_written(one.accepted))
            elif one.signal >= stop_at and may_be_known(one, rules):
                new.append(one)
                entries.append(_entry(name, one, rigs, signed))
    stops = (one for one in audit.findings if one.counts and one.signal >= stop_at)
    return TakenOn(tuple(entries), tuple(new), tuple(one for one in stops if not may_be_known(one, rules)))


def known_text(entries: Sequence[dict[str, Any]]) -> str:
    """Return the text of a file of known findings."""
    rows = ["riglint: known/1", f"known:{'' if entries else ' []'}"]
    for entry in entries:
        lines = [f"{key}: {_value(value)}" for key, value in entry.items()]
        rows += [f"  - {lines[0]}", *(f"    {line}" for line in lines[1:])]
    return "\n".join([*rows, ""])


def _entry(name: Identity, finding: Finding, rigs: tuple[str, ...], signed: SignedFor) -> dict[str, Any]:
    numbers = measured(finding)
    held: dict[str, Any] = {
        "rule": name.rule,
        "file": name.file,
        "place": name.place or None,
        "part": name.part or None,
        "cause": name.cause,
        "kind": name.kind,
        "word": finding.signal.name,
        "value": numbers.value,
        "limit": numbers.limit,
        "rigs": list(rigs) or None,
        "since": signed.since,
        "until": signed.until,
        "role": signed.role,
        "reason": signed.reason,
    }
    return {key: value for key, value in held.items() if value is not None}


def _written(row: KnownRow) -> dict[str, Any]:
    held = row.model_dump()
    return {key: value for key, value in held.items() if value is not None and value != []}


def _value(value: object) -> str:
    """Return a value as YAML: words in quotes, so that no sign in them means anything."""
    if isinstance(value, float):
        return format(Decimal(f"{value:.{DIGITS}g}"), "f")
    if isinstance(value, list):
        return f"[{', '.join(map(_value, value))}]"
    return str(value) if isinstance(value, date) else json.dumps(str(value), ensure_ascii=False)
