"""The audit as text, for a person at a tree."""

from __future__ import annotations

from collections.abc import Iterable

from riglint.findings import Audit, FileResult, Finding
from riglint.policy import InForce
from riglint.reports.layout.spans import Line, labelled, paragraph, plain
from riglint.rulekit import Signal
from riglint.rulekit.verdicts import MEANINGS
from riglint.views.audit.summary import summary_of
from riglint.views.audit.words import (
    CAUTION_TEXT,
    against,
    at_the_top,
    closing,
    count,
    files_told,
    heading,
    in_shared_files,
    is_quiet,
    key_told,
    left_out_words,
    of_the_file,
    policy_told,
    source_told,
    to_look_at,
)

LOOKS = {
    Signal.DANGER: "bold white on red",
    Signal.WARNING: "bold black on dark_orange",
    Signal.CAUTION: "bold black on yellow",
    Signal.NOTICE: "bold white on blue",
}


def audit_text(audit: Audit, width: int) -> list[Line]:
    """Return the report of an audit, laid out for a width."""
    lines: list[Line] = list(paragraph(heading(audit), width, look="bold"))
    for sentence in at_the_top(audit):
        lines += paragraph(sentence, width, look=LOOKS[Signal.DANGER])
    for result in audit.files:
        lines += _file(result, audit, width)
    lines += [plain("")]
    lines += _meanings(audit.findings, width)
    for sentence in left_out_words(audit):
        lines += paragraph(sentence, width)
    lines += policy_lines(audit.force, width)
    lines += paragraph(CAUTION_TEXT, width)
    lines += paragraph(closing(audit), width, look="bold")
    return lines + paragraph(files_told(audit), width)


def policy_lines(force: InForce, width: int) -> list[Line]:
    """Return what a policy changed; whatever it loosens stands there with its reason."""
    if force.path is None:
        return []
    lines = paragraph(f"The policy {force.title} ({force.path}) {policy_told(force)}.", width)
    for one in force.changes:
        label = "loosened" if one.loosens else "tightened"
        because = f", because {one.because}" if one.because else ""
        lines += labelled(label, f"{one.name} from {one.old} to {one.new}{because}", width)
    return lines


def _file(result: FileResult, audit: Audit, width: int) -> list[Line]:
    loud = [one for one in result.findings if one.accepted is None and not is_quiet(one)]
    quiet = [one for one in result.findings if one.accepted is None and is_quiet(one)]
    accepted = [one for one in result.findings if one.accepted is not None]
    title = f" · {result.title}" if result.title else ""
    if not result.findings and result.kind != "rig":
        return []
    lines: list[Line] = [plain(""), *paragraph(f"{result.path}{title}", width, look="bold underline")]
    lines += _summary(result, width)
    told = ""
    for finding in loud:
        # Why a file must be readable is said once; every other rule has a reason of its own.
        lines += [
            plain(""),
            *finding_lines(finding, width, why=finding.why != told or not of_the_file(finding)),
        ]
        told = finding.why
    for one in result.not_judged:
        lines += [
            plain(""),
            *paragraph(f"not judged: {count(one.rules, 'rule')}, because {one.because}", width, indent=2),
        ]
    shared = in_shared_files(result, audit) if result.judged else ""
    if shared:
        lines += [plain(""), *labelled("see also", shared, width)]
    elif result.kind == "rig" and result.judged and not loud and not result.not_judged:
        lines += [plain(""), *paragraph("No rule objects.", width, indent=2)]
    if quiet:
        lines += [plain(""), *paragraph("For the eyes on site (NOTICE, review):", width, indent=2)]
        for finding in quiet:
            lines += labelled("[ ]", to_look_at(finding), width, indent=2)
    if accepted:
        lines += [plain(""), *paragraph("Accepted, out of the exit status:", width, indent=2)]
        lines += [line for finding in accepted for line in _accepted(finding, width)]
    return lines


def _summary(result: FileResult, width: int) -> list[Line]:
    summary = summary_of(result)
    rows = summary.rows if summary else []
    return [line for label, told in rows for line in labelled(label, told, width)]


def finding_lines(finding: Finding, width: int, *, why: bool = True, where: bool = True) -> list[Line]:
    """Return one finding in full; without the place in its file where nobody has that file."""
    lines = labelled(
        finding.signal.name, finding.message, width, indent=2, look="bold", label_look=LOOKS[finding.signal]
    )
    at = finding.at
    part = f"{finding.part_words}; " if finding.part_words else ""
    place = f"{part}{at.path} line {at.line}{key_told(at.key)}"
    lines += labelled("where", place, width, indent=4) if where else []
    if finding.rigs:
        lines += labelled("rigs", ", ".join(finding.rigs), width, indent=4)
    if finding.value is not None and finding.limit is not None:
        lines += labelled("value", against(finding), width, indent=4)
    lines += labelled("why", finding.why, width, indent=4) if why else []
    lines += labelled("do", finding.do, width, indent=4)
    kind = "" if finding.kind == "fail" else f" ({finding.kind})"
    waiting = f"; waiting: {', '.join(finding.rules)}" if len(finding.rules) > 1 else ""
    lines += labelled("rule", f"{finding.rule}{kind}{waiting}; {source_told(finding)}", width, indent=4)
    return lines


def _accepted(finding: Finding, width: int) -> list[Line]:
    entry = finding.accepted
    if entry is None:
        return []
    text = f"{finding.message} Accepted by {entry.role} until {entry.until}: {entry.reason} ({finding.rule})"
    return labelled(finding.signal.name, text, width, indent=2)


def _meanings(findings: Iterable[Finding], width: int) -> list[Line]:
    used = sorted({finding.signal for finding in findings}, reverse=True)
    if not used:
        return []
    words = "; ".join(f"{signal.name}: {MEANINGS[signal]}" for signal in used)
    return paragraph(f"{words} (signal words after ANSI Z535.4 and ISO 3864-2).", width)
