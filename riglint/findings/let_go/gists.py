"""What reports count of a finding, so that they need not read all of it again."""

from __future__ import annotations

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
    elsewhere: bool  # it stands in another file than that of its result
    touches: bool  # it names rigs


_known: dict[Gist, Gist] = {}
_rows: dict[tuple[Gist, ...], tuple[Gist, ...]] = {}


def gists_of(findings: Iterable[Finding], path: str) -> tuple[Gist, ...]:
    """Return each finding of a file in short; alike ones are held once."""
    row = tuple(_gist(one, path) for one in findings)
    return _rows.setdefault(row, row)


def _gist(finding: Finding, path: str) -> Gist:
    gist = Gist(
        finding.signal,
        finding.kind,
        finding.counts,
        finding.crashed,
        finding.asks is not None,
        finding.rule.startswith("file/"),
        finding.is_quiet,
        finding.is_check,
        finding.at.path != path,
        bool(finding.rigs),
    )
    return _known.setdefault(gist, gist)
