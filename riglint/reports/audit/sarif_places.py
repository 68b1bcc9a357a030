"""Where things stand, in SARIF: files, regions, keys and parts, and fingerprints that outlive moved lines."""

from __future__ import annotations

import os
from hashlib import sha256
from pathlib import PurePosixPath
from typing import Any
from urllib.parse import quote

from riglint.findings import Finding

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
    """Return where a finding points (3.28). Without an end, its region runs to the end of the line (3.30.2)."""
    at = finding.at
    found: dict[str, Any] = {
        "physicalLocation": {
            "artifactLocation": artifact(at.path),
            "region": {"startLine": at.line, "startColumn": at.column},
        }
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
