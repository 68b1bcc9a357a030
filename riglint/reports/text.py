"""The audit as text, for a person at a tree."""

from __future__ import annotations

from collections.abc import Iterable

from riglint.findings import READING, Audit, FileResult, Finding
from riglint.loads import Loads
from riglint.loads.inputs import MissingInput, NotComputable
from riglint.model.sources import MARKS
from riglint.policy import InForce
from riglint.reports.layout import Line, Span, labelled, number, paragraph, plain
from riglint.rulekit import MEANINGS, Signal

CAUTION_TEXT = (
    "A calculation is no inspection. Local rules, the gear makers' instructions and competent people on site come "
    "first; nothing here says that a rig may be used."
)
LOOKS = {
    Signal.DANGER: "bold white on red",
    Signal.WARNING: "bold black on dark_orange",
    Signal.CAUTION: "bold black on yellow",
    Signal.NOTICE: "bold white on blue",
}
NOT_WHOLE = "A rule set that was asked for did not load whole: its rules judged nothing."
LONGEST_KEY = 160  # characters
UNITS = {"1": "", "m": "m", "kN": "kN"}


def audit_text(audit: Audit, width: int) -> list[Line]:
    """Return the report of an audit, laid out for a width."""
    lines: list[Line] = list(paragraph(_heading(audit), width, look="bold"))
    for result in audit.files:
        lines += _file(result, audit, width)
    lines += [plain("")]
    lines += _meanings(audit.findings, width)
    if audit.left_out:
        lines += paragraph(f"{_count(audit.left_out, 'YAML file')} without the key riglint left out.", width)
    if audit.accepted_left_out:
        lines += paragraph(f"{_count(audit.accepted_left_out, 'accepted finding')} left out here.", width)
    lines += policy_lines(audit.force, width)
    lines += paragraph(CAUTION_TEXT, width)
    lines += paragraph(closing(audit), width, look="bold")
    return lines


def policy_lines(force: InForce, width: int) -> list[Line]:
    """Return what a policy changed; whatever it loosens stands there with its reason."""
    if force.path is None:
        return []
    lines = paragraph(f"The policy {force.title} ({force.path}) {_told_of(force)}.", width)
    for one in force.changes:
        label = "loosened" if one.loosens else "tightened"
        because = f", because {one.because}" if one.because else ""
        lines += labelled(label, f"{one.name} from {one.old} to {one.new}{because}", width)
    return lines


def _told_of(force: InForce) -> str:
    """Say how much a policy changes."""
    loosened = sum(one.loosens for one in force.changes)
    tightened = len(force.changes) - loosened
    said = [f"tightens {_count(tightened, 'value')}"] if tightened else []
    said += [f"loosens {loosened}"] if loosened else []
    return " and ".join(said) or "changes nothing of the defaults"


def _heading(audit: Audit) -> str:
    rigs = sum(result.kind == "rig" for result in audit.files)
    others = len(audit.files) - rigs
    limits = f"policy: {audit.force.title}" if audit.force.path else audit.force.title
    house = f" with house rules {' and '.join(audit.house)}" if audit.house else ""
    beside = f" and {_count(others, 'other file')}" if others else ""
    return f"Audit of {_count(rigs, 'rig')}{beside} as of {audit.on}, {audit.rules} rules{house}, {limits}"


def _file(result: FileResult, audit: Audit, width: int) -> list[Line]:
    loud = [one for one in result.findings if one.accepted is None and not _quiet(one)]
    quiet = [one for one in result.findings if one.accepted is None and _quiet(one)]
    accepted = [one for one in result.findings if one.accepted is not None]
    title = f" · {result.title}" if result.title else ""
    if not result.findings and result.kind != "rig":
        return []
    lines: list[Line] = [plain(""), *paragraph(f"{result.path}{title}", width, look="bold underline")]
    lines += _summary(result.loads, width) if result.loads else []
    told = ""
    for finding in loud:
        # Why a file must be readable is said once; every other rule has a reason of its own.
        lines += [plain(""), *_block(finding, width, why=finding.why != told or not _of_the_file(finding))]
        told = finding.why
    for one in result.not_judged:
        lines += [
            plain(""),
            *paragraph(f"not judged: {_count(one.rules, 'rule')}, because {one.because}", width, indent=2),
        ]
    shared = _in_shared_files(result, audit) if result.judged else ""
    if shared:
        lines += [plain(""), *labelled("see also", shared, width)]
    elif result.kind == "rig" and result.judged and not loud and not result.not_judged:
        lines += [plain(""), *paragraph("No rule objects.", width, indent=2)]
    if quiet:
        lines += [plain(""), *paragraph("For the eyes on site (NOTICE, review):", width, indent=2)]
        for finding in quiet:
            lines += labelled("[ ]", _to_look_at(finding), width, indent=2)
    if accepted:
        lines += [plain(""), *paragraph("Accepted, out of the exit status:", width, indent=2)]
        lines += [line for finding in accepted for line in _accepted(finding, width)]
    return lines


def _in_shared_files(result: FileResult, audit: Audit) -> str:
    """Say which shared files have something that touches a rig."""
    told = []
    for other in audit.files:
        touching = [one.signal for one in other.findings if other is not result and result.path in one.rigs]
        if touching:
            told.append(f"{other.path}, {_count(len(touching), 'finding')} up to {max(touching).name}")
    return "; ".join(told)


def _to_look_at(finding: Finding) -> str:
    """Return what a person must look at; a tick that is due says already what to do."""
    do = "" if finding.message.startswith("Due on site") else f" {finding.do}"
    return f"{finding.message}{do} ({finding.rule}, line {finding.at.line})"


def _of_the_file(finding: Finding) -> bool:
    return finding.source == READING


def _quiet(finding: Finding) -> bool:
    return finding.kind == "review" and finding.signal == Signal.NOTICE


def _summary(loads: Loads, width: int) -> list[Line]:
    consequence = loads.consequence
    lines = labelled("at stake", f"{consequence.word}: {'; '.join(consequence.reasons)}", width)
    try:
        standing = loads.standing_state
        named = [f"standing {number(standing.tension_n / 1000)}"]
        named += [
            f"{state.name.replace('_', ' ')} {number(state.tension_n / 1000)}" for state in loads.people()
        ]
        read = loads.tension_reading
        told = f"; standing tension by the {read.words}, line {read.at.line}" if read else ""
        lines += labelled("line", f"{', '.join(named)} kN{told}", width)
        lines += labelled("first", _first_to_go(loads), width)
    except (MissingInput, NotComputable):
        return lines
    return lines


def _first_to_go(loads: Loads) -> str:
    found = []
    for load in loads.parts:
        worst = load.worst(loads.peaks())
        if worst is not None:
            found.append((worst.ratio, load.id, load.words, worst))
    ratio, part, words, worst = min(found, key=lambda one: one[0])
    peak = f"{number(worst.force_n / 1000)} kN ({worst.state.replace('_', ' ')})"
    if ratio == 0.0:
        return f"{words} ({part}): nobody rates it as it lies; its worst peak is {peak}"
    return f"{words} ({part}) goes first: it holds {number(ratio)} times its worst peak, {peak}"


def _block(finding: Finding, width: int, *, why: bool) -> list[Line]:
    lines = labelled(
        finding.signal.name, finding.message, width, indent=2, look="bold", label_look=LOOKS[finding.signal]
    )
    at = finding.at
    part = f"{finding.part_words}; " if finding.part_words else ""
    lines += labelled("where", f"{part}{at.path} line {at.line}{_key(at.key)}", width, indent=4)
    if finding.rigs:
        lines += labelled("rigs", ", ".join(finding.rigs), width, indent=4)
    if finding.value is not None and finding.limit is not None:
        lines += labelled("value", _against(finding), width, indent=4)
    lines += labelled("why", finding.why, width, indent=4) if why else []
    lines += labelled("do", finding.do, width, indent=4)
    kind = "" if finding.kind == "fail" else f" ({finding.kind})"
    waiting = f"; waiting: {', '.join(finding.rules)}" if len(finding.rules) > 1 else ""
    lines += labelled("rule", f"{finding.rule}{kind}{waiting}; {_source(finding)}", width, indent=4)
    return lines


def _source(finding: Finding) -> str:
    """Return the source and how far it may be trusted, without saying the same twice."""
    text, mark = finding.source.text, MARKS[finding.source.mark]
    if text == mark:
        return text
    return f"source: {text}" if _of_the_file(finding) else f"source: {text} ({mark})"


def _key(key: str) -> str:
    """Return the key where to edit, its middle left out where it is longer than anybody reads."""
    if not key:
        return ""
    return (
        f", {key if len(key) <= LONGEST_KEY else f'{key[: LONGEST_KEY // 2]} … {key[-LONGEST_KEY // 4 :]}'}"
    )


def _plus_minus(finding: Finding) -> str:
    """Return the ± of a value, where it shows beside the digits that the value is given with."""
    if finding.plus_minus is None or not isinstance(finding.value, int | float):
        return ""
    shows = finding.plus_minus >= abs(finding.value) / 1000.0
    return f" ± {finding.plus_minus:.1g}" if shows else ""


def _against(finding: Finding) -> str:
    unit = UNITS.get(finding.unit or "", finding.unit or "")
    state = f", state {finding.state}" if finding.state else ""
    return (
        f"{number(finding.value)}{_plus_minus(finding)} {unit}".strip()
        + f" against {number(finding.limit)} {unit}".rstrip()
        + state
    )


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


NUMBERS = (
    "no",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
)


def _count(n: int, what: str) -> str:
    return f"{n} {what}{'' if n == 1 else 's'}"


def _in_words(n: int, what: str) -> str:
    word = NUMBERS[n] if n < len(NUMBERS) else str(n)
    return f"{word} {what}{'' if n == 1 else 's'}"


def closing(audit: Audit) -> str:
    """Return the last sentence of a report: what there is to do."""
    findings = [finding for finding in audit.findings if finding.counts]
    unread = sum(not result.judged for result in audit.files)
    if audit.nothing_found:
        return "Nothing to audit: no file named here begins with the key riglint."
    said: list[str] = []
    danger = sum(one.signal == Signal.DANGER and one.kind == "fail" for one in findings)
    warning = sum(one.signal == Signal.WARNING and one.kind == "fail" for one in findings)
    open_ = sum(one.kind == "open" and not one.rule.startswith("file/") for one in findings)
    caution = sum(one.signal == Signal.CAUTION and one.kind == "fail" for one in findings)
    review = sum(one.kind == "review" for one in findings)
    said += [f"{_in_words(danger, 'reason')} not to tension or load"] if danger else []
    said += [f"{_in_words(warning, 'thing')} to put right before anyone walks"] if warning else []
    said += [f"{_in_words(open_, 'field')} to fill in"] if open_ else []
    said += [f"{_in_words(caution, 'thing')} to know and improve"] if caution else []
    notice = sum(one.signal == Signal.NOTICE and one.kind == "fail" for one in findings)
    said += [f"{_in_words(notice, 'thing')} for the gear book or the club"] if notice else []
    said += [f"{_in_words(review, 'thing')} to look at on site"] if review else []
    said += [f"{_in_words(unread, 'file')} not judged"] if unread else []
    sentence = ", ".join(said) or "nothing to put right by these rules"
    return f"{sentence[:1].upper()}{sentence[1:]}."


__all__ = ["CAUTION_TEXT", "NOT_WHOLE", "Span", "audit_text", "closing"]
