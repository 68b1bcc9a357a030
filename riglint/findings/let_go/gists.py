"""What reports count of a finding, so that they need not read all of it again."""

from __future__ import annotations

from _blake2 import blake2b  # hashlib would load all of OpenSSL for it
from collections.abc import Iterable
from typing import TYPE_CHECKING, NamedTuple

from riglint.rulekit import Signal
from riglint.rulekit.verdicts import Kind

if TYPE_CHECKING:
    from riglint.findings.finding import Finding


class Gist(NamedTuple):
    """One finding in short."""

    signal: Signal
    kind: Kind
    counts: bool
    crashed: bool
    is_field: bool  # an open question that a field answers
    of_a_file: bool  # told by what reads files
    is_quiet: bool  # something to look at on site and no more
    is_check: bool  # as every rig like this gets
    touches: bool  # it names rigs


class InShort(NamedTuple):
    """All findings of one file in short."""

    gists: tuple[Gist, ...]
    elsewhere: tuple[
        int, ...
    ] = ()  # a number for each fault in a shared file, which other rigs may tell as well
    mark: bytes = b""  # a hash of all that was found, whatever its order; empty where there is none


_known: dict[Gist, Gist] = {}
_numbers: dict[int, int] = {}
_rows: dict[tuple[Gist, ...], tuple[Gist, ...]] = {}


def gists_of(findings: Iterable[Finding]) -> tuple[Gist, ...]:
    """Return each finding of a file in short; alike ones are held once."""
    row = tuple(_gist(one) for one in findings)
    return _rows.setdefault(row, row)


def elsewhere_of(findings: Iterable[Finding], path: str) -> tuple[int, ...]:
    """Return a number for each fault in a shared file: the same where another rig tells the same of the same place."""
    return tuple(
        dict.fromkeys(
            _number(name_elsewhere(one))
            for one in findings
            if one.at.path != path and one.kind == "fail" and one.accepted is None
        )
    )


def name_elsewhere(fault: Finding) -> tuple[str, ...]:
    """Return what two rigs have in common that tell the same of one place in a shared file."""
    return fault.rule, fault.at.path, fault.at.key, fault.message, fault.do


def _number(name: tuple[str, ...]) -> int:
    raw = "\0".join(name).encode("utf-8", "surrogatepass")
    number = int.from_bytes(blake2b(raw, digest_size=7).digest())
    return _numbers.setdefault(number, number)


def _gist(finding: Finding) -> Gist:
    gist = Gist(
        finding.signal,
        finding.kind,
        finding.counts,
        finding.crashed,
        finding.asks is not None,
        finding.rule.startswith("file/"),
        finding.is_quiet,
        finding.is_check,
        bool(finding.rigs),
    )
    return _known.setdefault(gist, gist)
