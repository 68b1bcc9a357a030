"""An audit as a person reads it: names in place of places, and every finding in one of four blocks."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from riglint.findings import Audit, FileResult, Finding
from riglint.findings.grouping import Group, grouped
from riglint.records import dataclass
from riglint.views.audit.part_names import PartNames, names_of, says_a_place


@dataclass(frozen=True, slots=True)
class Blocks:
    """The findings of one file, sorted by what a person does about them."""

    faults: tuple[Group, ...]  # to put right; and whatever is as grave as that
    blanks: tuple[Group, ...]  # fields to fill in
    looks: tuple[Group, ...]  # to look at on site, because of this rig
    checks: tuple[Finding, ...]  # what is due on site on every rig like this: the card has them
    accepted: tuple[Finding, ...]

    @property
    def kept_as(self) -> str:
        """How the last of them are kept out of the exit status, as a heading says it."""
        return "Accepted or known" if any(one.kept_as == "known" for one in self.accepted) else "Accepted"

    @property
    def fields(self) -> int:
        """How many fields there are to fill in."""
        return sum(len(group.findings) for group in self.blanks)

    @property
    def reasons(self) -> Iterator[tuple[Group, bool]]:
        """Each fault, and whether to say why it matters: what the fault above it has just said is not said again."""
        before = ""
        for group in self.faults:
            yield group, group.first.why != before
            before = group.first.why


def blocks(result: FileResult) -> Blocks:
    """Sort the findings of a file; none is left out."""
    counted = [one for one in result.findings if one.counts]
    blanks = [one for one in counted if one.asks is not None]
    quiet = [one for one in counted if one.is_quiet]
    checks = [one for one in quiet if one.is_check]
    faults = [one for one in counted if one.asks is None and not one.is_quiet]
    looks = [one for one in quiet if not one.is_check]
    return Blocks(
        tuple(grouped(faults)),
        tuple(sorted(grouped(blanks), key=_decides)),
        tuple(grouped(looks)),
        tuple(checks),
        tuple(one for one in result.findings if not one.counts),
    )


def _decides(group: Group) -> tuple[int, int, str, int]:
    """Sort fields by the gravest word that waits for them, then by how many rules do."""
    rules = {rule for one in group.findings for rule in one.rules}
    return -group.signal, -len(rules), group.first.at.path, group.first.at.line


def for_a_reader(audit: Audit) -> Audit:
    """Return the same audit with the name of each part in place of its place in the file."""
    return replace(audit, files=[result.reworded(_named) for result in audit.files])


def _named(result: FileResult) -> list[Finding]:
    if not any(_is_of_a_part(one) for one in result.findings):
        return result.findings  # a rig that was let go need not be computed again for nothing
    names = names_of(result)
    return result.findings if names is None else [_with_names(one, names) for one in result.findings]


def _is_of_a_part(finding: Finding) -> bool:
    said = finding.message, finding.why, finding.do
    return finding.at.part is not None or any(map(says_a_place, said))


def _with_names(finding: Finding, names: PartNames) -> Finding:
    return replace(
        finding,
        message=names.with_names(finding.message),
        why=names.with_names(finding.why),
        do=names.with_names(finding.do),
        part_words=_part(finding, names),
    )


def _part(finding: Finding, names: PartNames) -> str | None:
    """Return what the part is called, and its number in the chain: `the anchor at the oak end, part 10 of 10`."""
    name = names.name(finding.at.part) if finding.at.part is not None else None
    if name is None or finding.part_words is None or "(part" in name:
        return name or finding.part_words
    return f"{name}, part {finding.part_words.rpartition(', part ')[2]}"
