"""Where things stand, in SARIF: files, regions, keys and parts, and fingerprints that outlive moved lines."""

from __future__ import annotations

import os
import re
from hashlib import sha256
from pathlib import PurePosixPath
from typing import Any
from urllib.parse import quote

from riglint.findings import Finding
from riglint.findings.finding import Where

ROOT = "SRCROOT"
FINGERPRINT = "riglint/place/v1"


def artifact(path: str) -> dict[str, str]:
    """Return a file: relative to the library, or whole where it lies outside (3.4)."""
    uri = quote(os.fsencode(path), safe="/")
    if PurePosixPath(path).is_absolute():
        return {"uri": f"file://{uri}"}
    # A colon in the first step would make it the scheme of a URI (RFC 3986, 4.2); quote() has taken it away.
    return {"uri": uri, "uriBaseId": ROOT}


def location(finding: Finding) -> dict[str, Any]:
    """Return where a finding points (3.28)."""
    at = finding.at
    found: dict[str, Any] = {
        "physicalLocation": {"artifactLocation": artifact(at.path), "region": _region(at)}
    }
    named = []
    if at.key:
        named.append({"name": at.key.rpartition(".")[2], "fullyQualifiedName": at.key, "kind": "property"})
    if at.part:
        part = {"name": at.part, "fullyQualifiedName": at.part, "kind": "object"}
        if finding.part_words:
            part["decoratedName"] = finding.part_words
        named.append(part)
    return found | ({"logicalLocations": named} if named else {})


def _region(at: Where) -> dict[str, Any]:
    """Return what is meant of a line, with its text. Without an end, it runs to the end of the line (3.30.2)."""
    region: dict[str, Any] = {"startLine": at.line, "startColumn": at.column}
    end = end_column(at.row, at.column)
    if end is None:
        return region
    return region | {"endColumn": end, "snippet": {"text": at.row[at.column - 1 : end - 1]}}


def end_column(row: str, column: int) -> int | None:
    """Return the column after the key or value that begins in a column, both counted from 1.

    None where there is nothing there, and where it goes on in the next line.

    >>> [end_column("  - {part: sling, gear: 'RS-1, red'}", column) for column in (5, 12, 25, 99)]
    [37, 17, 36, None]
    """
    rest = row[column - 1 :] if column > 0 else ""
    if not rest.strip():
        return None
    if rest[0] in "'\"":
        end = rest.find(rest[0], 1)
        return column + end + 1 if end > 0 else None
    if rest[0] in "{[":
        return _after_brackets(rest, column)
    # A plain word ends before a comment, and inside brackets before a comma or the closing one.
    inside = row[: column - 1].count("{") + row[: column - 1].count("[") > 0
    found = re.search(r",\s|,$|[\]}]|\s#|:\s|:$" if inside else r"\s#|:\s|:$", rest)
    word = (rest[: found.start()] if found else rest).rstrip()
    return column + len(word) if word else None


def _after_brackets(rest: str, column: int) -> int | None:
    deep, quote = 0, ""
    for n, letter in enumerate(rest):
        if quote:
            quote = "" if letter == quote else quote
        elif letter in "'\"":
            quote = letter
        else:
            deep += (letter in "{[") - (letter in "]}")
            if deep == 0:
                return column + n + 1
    return None


def related(finding: Finding) -> list[dict[str, Any]]:
    """Return the other places that a finding rests on: inputs read elsewhere, and rigs that it touches."""
    found = []
    for one in finding.inputs:
        path, _, line = (one.where or "").rpartition(":")
        if path and line.isdecimal():
            region = {"startLine": int(line)}
            found.append((f"{one.name} {one.symbol} = {one.value} {one.unit}".rstrip(" 1"), path, region))
    found += [("A rig that this touches.", path, {}) for path in finding.rigs]
    return [
        {
            "id": number,
            "message": {"text": text},
            "physicalLocation": {"artifactLocation": artifact(path)} | ({"region": region} if region else {}),
        }
        for number, (text, path, region) in enumerate(found, 1)
    ]


def fingerprints(findings: list[Finding]) -> list[dict[str, str]]:
    """Return for each finding a name that stays when lines move: rule, file, key or part, state (3.27.17).

    A part that has an id keeps its name when parts are put before it. Where one place gets several findings of
    one rule, they are told apart by their order.
    """
    seen: dict[tuple[str, ...], int] = {}
    found = []
    for finding in findings:
        at = finding.at
        in_part = bool(at.part) and not at.key.startswith(f"{at.part}")
        key = f"{at.part}: {at.key.rpartition('.')[2]}" if in_part else at.key
        name = (finding.rule, at.path, key, finding.state or "")
        seen[name] = seen.get(name, 0) + 1
        text = "\0".join((*name, str(seen[name])))
        found.append({FINGERPRINT: sha256(os.fsencode(text)).hexdigest()})
    return found
