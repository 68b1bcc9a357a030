"""A fault of a shared file that several rigs tell in the same words, kept once in that file with all of its rigs."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import field, replace
from pathlib import Path

from riglint.findings.finding import FileResult, Finding, Where
from riglint.findings.let_go.gists import name_elsewhere
from riglint.records import dataclass
from riglint.rulekit import Signal

Told = tuple[FileResult, Finding]


def say_once(results: Mapping[Path, FileResult], file_of: Mapping[str, Path]) -> None:
    """Move what several rigs say of one place in a shared file to that file.

    What one rig says alone stays with it, and so does what rests on its own forces: its words differ. An accepted
    fault stays too, since a rig answers for itself only.

    Args:
        results: what was found in each file; changed in place.
        file_of: the files, by their paths in reports.
    """
    told: dict[tuple[str, ...], list[Told]] = {}
    rigs = [result for result in results.values() if result.kind == "rig"]
    often = Counter(number for result in rigs for number in result.elsewhere)
    for result in rigs:
        several = any(often[number] > 1 for number in result.elsewhere)  # else there is no need to read them
        for one in result.findings if several else ():
            shared = one.at.path != result.path and one.at.path in file_of
            if shared and one.kind == "fail" and one.accepted is None:
                told.setdefault(name_elsewhere(one), []).append((result, one))
    for same in told.values():
        if len({result.path for result, _ in same}) > 1:
            results[file_of[same[0][1].at.path]].findings.append(_together(same))
            for result, finding in same:
                result.findings.remove(finding)


def _together(same: list[Told]) -> Finding:
    """Return one finding for all rigs, with the gravest word; which part it is differs from rig to rig."""
    gravest = max((one for _, one in same), key=lambda one: one.signal)
    rigs = {rig for result, one in same for rig in (result.path, *one.rigs)}
    rules = {rule for _, one in same for rule in one.rules}
    at = gravest.at
    alike = len({one.at.part for _, one in same}) == 1
    return replace(
        gravest,
        at=at if alike else Where(at.path, at.line, at.column, at.key),
        part_words=gravest.part_words if len({one.part_words for _, one in same}) == 1 else None,
        rigs=tuple(sorted(rigs)),
        rules=tuple(sorted(rules)),
    )


@dataclass(slots=True)
class SharedFault:
    """A fault that stands in a shared file, and what further rigs say of it."""

    home: FileResult
    number: int  # of the finding there
    rigs: set[str] = field(default_factory=set)
    rules: set[str] = field(default_factory=set)
    signal: Signal = Signal.NOTICE

    def take(self, new: Finding) -> None:
        """Add what one more rig says."""
        self.rigs |= set(new.rigs)
        self.rules |= set(new.rules)
        self.signal = max(self.signal, new.signal)

    def tell(self) -> None:
        """Write it into the finding."""
        if not self.rigs:
            return
        old = touching_more(self.home.findings[self.number], self.rigs)
        rules = tuple(sorted({*old.rules, *self.rules}))
        self.home.findings[self.number] = replace(old, rules=rules, signal=max(old.signal, self.signal))


def touching_more(finding: Finding, rigs: Iterable[str]) -> Finding:
    """Return a finding that touches these rigs as well."""
    return replace(finding, rigs=tuple(sorted({*finding.rigs, *rigs})))
