"""One finding as text, alone or with those that have the same cause."""

from __future__ import annotations

from riglint.findings import Finding
from riglint.findings.grouping import Group, field_of, owner_of
from riglint.reports.layout.spans import Line, labelled, one_row
from riglint.rulekit import Signal
from riglint.views.audit.part_names import PartNames
from riglint.views.audit.words import against, count, key_in_words, source_in_words

LOOKS = {
    Signal.DANGER: "bold white on red",
    Signal.WARNING: "bold black on dark_orange",
    Signal.CAUTION: "bold black on yellow",
    Signal.NOTICE: "bold white on blue",
}
MOST_NAMED = 4  # owners of one field, where not all are asked for


def finding_lines(finding: Finding, width: int, *, why: bool = True, where: bool = True) -> list[Line]:
    """Return one finding in full; without the place in its file where nobody has that file."""
    return group_lines(Group((finding,)), width, why=why, where=where)


def group_lines(group: Group, width: int, *, why: bool = True, where: bool = True) -> list[Line]:
    """Return the gravest finding of a group in full, and a line for each of the others."""
    finding = group.first
    lines = labelled(
        finding.signal.name, finding.message, width, indent=2, look="bold", label_look=LOOKS[finding.signal]
    )
    for one in group.findings[1:]:
        lines += labelled("also", also(finding, one), width, indent=4)
    lines += labelled("where", place_in_words(finding), width, indent=4) if where else []
    if finding.rigs:
        lines += labelled("rigs", ", ".join(finding.rigs), width, indent=4)
    if finding.value is not None and finding.limit is not None:
        lines += labelled("value", against(finding), width, indent=4)
    lines += labelled("why", finding.why, width, indent=4) if why else []
    lines += labelled("what to do", group.do, width, indent=4)
    return lines + labelled("rule", rule_in_words(finding), width, indent=4)


def also(first: Finding, finding: Finding) -> str:
    """Say of one more finding of a group what is its own: its sentence, its line, its word where that is another."""
    word = "" if finding.signal == first.signal else f"{finding.signal.name}: "
    words = "" if finding.message == first.message else f"{finding.message} "
    named = f"{finding.part_words}, " if not words and finding.part_words else ""
    return f"{word}{words}({named}{finding.at.path} line {finding.at.line})"


def place_in_words(finding: Finding) -> str:
    """Return the part in words, then file, line and key."""
    at = finding.at
    part = f"{finding.part_words}; " if finding.part_words else ""
    return f"{part}{at.path} line {at.line}{key_in_words(at.key)}"


def rule_in_words(finding: Finding) -> str:
    """Return the rule, the kind where it is no plain fault, what else waits, and the source."""
    kind = "" if finding.kind == "fail" else f" ({finding.kind})"
    waiting = f"; waiting: {', '.join(finding.rules)}" if len(finding.rules) > 1 else ""
    return f"{finding.rule}{kind}{waiting}; {source_in_words(finding)}"


def waiting_in_words(group: Group, key: str) -> str:
    """Say of a finding that it only counts once a field is filled in, in one line."""
    lines = ", ".join(dict.fromkeys(str(one.at.line) for one in group.findings))
    where = f"line{'s' if ',' in lines else ''} {lines}"
    return f"{key} decides {group.first.rule} ({where}) too: {group.first.message}"


def blank_rows(group: Group, path: str, names: PartNames | None, width: int, *, whole: bool) -> list[Line]:
    """Return the line for a field to fill in, in one part or in several; in full where `whole`."""
    words = blank_in_words(group, path, names, whole=whole)
    look = LOOKS[group.signal]
    if whole:
        return labelled(group.signal.name, words, width, label_look=look)
    return one_row(group.signal.name, words, width, label_look=look)


def blank_in_words(group: Group, path: str, names: PartNames | None, *, whole: bool = False) -> str:
    """Say which field is missing, where, what belongs there and how many rules wait for it.

    Args:
        group: the field, in one part or in several.
        path: of the file that is told of; a field of another names its own.
        names: of the parts of the rig, if it is one.
        whole: whether every part is named, and what belongs there.
    """
    finding = group.first
    lines = sorted({one.at.line for one in group.findings})
    where = f"line {lines[0]}" if len(lines) == 1 else f"lines {lines[0]} to {lines[-1]}"
    file = "" if finding.at.path == path else f"{finding.at.path} "
    rules = count(len({rule for one in group.findings for rule in one.rules}), "rule")
    if len(group.findings) == 1:
        belongs = f": {finding.asks}" if finding.asks else ""
        return f"{_key_named(finding, names)} ({file}{where}; {rules}){belongs}"
    owners = list(dict.fromkeys(_owner(owner_of(one), names) for one in group.findings))
    most = len(owners) if whole else MOST_NAMED
    more = f" and {len(owners) - most} more" if len(owners) > most else ""
    belongs = f": {finding.asks}" if finding.asks and whole else ""
    named = f"{', '.join(owners[:most])}{more}"
    return f"{field_of(finding)} of {len(owners)}: {named} ({file}{where}; {rules}){belongs}"


def _key_named(finding: Finding, names: PartNames | None) -> str:
    """Return the key of a field; where it counts parts, the field and the part by its name."""
    key = finding.at.key
    return f"{field_of(finding)} of {_owner(owner_of(finding), names)}" if "[" in key else key


def _owner(owner: str, names: PartNames | None) -> str:
    """Return what holds a field: the gear or part by its name, else the last step of its key."""
    named = names.short(owner) if names is not None else owner
    if named != owner:
        return named
    return owner.rpartition(".")[2] or owner
