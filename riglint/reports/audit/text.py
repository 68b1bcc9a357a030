"""The audit as text, for a person at a tree: the answer first, then faults, blanks and looks."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import partial

from riglint.findings import Audit, FileResult, Finding
from riglint.findings.grouping import Group
from riglint.findings.let_go.gists import Gist
from riglint.policy import InForce
from riglint.remembered.pieces import Pieces
from riglint.reports.audit.copied import Copied
from riglint.reports.audit.finding_text import LOOKS, blank_rows, group_lines, waiting_in_words
from riglint.reports.layout.spans import Line, Passage, labelled, one_row, paragraph, plain
from riglint.rulekit import Signal, first_up
from riglint.rulekit.verdicts import MEANINGS
from riglint.views.assumed import TITLE as ASSUMED
from riglint.views.assumed import assumed_rows
from riglint.views.audit.files_seen import files_in_words, left_out_words
from riglint.views.audit.part_names import names_of
from riglint.views.audit.reader import Blocks, blocks, for_a_reader
from riglint.views.audit.settings_words import settings_in_words
from riglint.views.audit.summary import summary_of
from riglint.views.audit.verdict import Verdict, verdict_of, verdict_of_all, verdicts
from riglint.views.audit.words import (
    CAUTION_TEXT,
    at_the_top,
    closing,
    count,
    heading,
    in_shared_files,
    policy_in_words,
    to_look_at,
    touching,
)

MOST_BLANKS = 10  # lines of fields to fill in, where not all are asked for
FEWEST_BLANKS = 3  # of them, however much else there is to tell
MANY = 20  # fields to fill in: the rig is no more than begun
SPARE = 4  # lines that other things may take before fields give way
SOUND = "bold reverse"
FRAME = "="


def audit_text(audit: Audit, width: int, *, brief: bool = False, everything: bool = False) -> Iterator[Line]:
    """Yield the report of an audit, laid out for a width.

    Args:
        audit: what was found.
        width: in characters.
        brief: the answers alone.
        everything: every field to fill in and every check, where a count would do.
    """
    for passage in audit_passages(audit, width, brief=brief, everything=everything):
        yield from passage.lines()


def audit_passages(
    audit: Audit, width: int, known: Pieces | None = None, *, brief: bool = False, everything: bool = False
) -> Iterator[Passage]:
    """Yield the same report in passages, one for each file; those that are known are not made again."""
    whole, audit = audit, for_a_reader(audit)
    copied = Copied(known)
    shared = touching(audit)
    each = verdicts(audit, copied.verdict)
    yield Passage(partial(_head, audit, each, width))
    if len(each) > 1:
        for result, verdict in each:
            yield Passage(partial(_row, result, verdict, width), copied.row(result))
    if not brief:
        answers = {result.path: verdict for result, verdict in each}
        for result in audit.files:
            if result.kind == "rig" or result.findings:
                own = (answers.get(result.path) or verdict_of(result)) if len(each) > 1 else None
                beside = in_shared_files(shared, result) if result.judged else ""
                lines = partial(_file, result, own, beside, width, everything=everything)
                yield Passage(lines, copied.passage(result, own, beside))
    yield Passage(partial(_foot, whole, width, brief=brief))
    if known is not None:
        known.keep()


def _head(audit: Audit, each: list[tuple[FileResult, Verdict]], width: int) -> Iterator[Line]:
    yield from paragraph(heading(audit), width, look="bold")
    for sentence in at_the_top(audit):
        yield from paragraph(sentence, width, look=LOOKS[Signal.DANGER])
    for sentence in settings_in_words(audit.force):
        yield from paragraph(sentence, width, look="bold")
    yield from _framed(verdict_of_all(audit, each), width)


def _framed(verdict: Verdict, width: int) -> list[Line]:
    """Return the answer between two lines that the eye lands on."""
    frame = plain(FRAME * width)
    return [
        frame,
        *labelled(
            verdict.word, verdict.sentence, width, indent=0, look="bold", label_look=_look(verdict.signal)
        ),
        *labelled("next", verdict.next_step, width, indent=0),
        frame,
    ]


def _row(result: FileResult, verdict: Verdict, width: int) -> list[Line]:
    words = f"{result.path}: {verdict.in_short or verdict.sentence}"
    return labelled(verdict.word, words, width, indent=0, label_look=_look(verdict.signal))


def _look(signal: Signal | None) -> str:
    return SOUND if signal is None else LOOKS[signal]


def _foot(audit: Audit, width: int, *, brief: bool) -> list[Line]:
    lines = [plain("")]
    if not brief:
        lines += _meanings(audit.gists, width)
        for sentence in left_out_words(audit):
            lines += paragraph(sentence, width)
    lines += policy_lines(audit.force, width)
    lines += paragraph(CAUTION_TEXT, width)
    lines += paragraph(closing(audit), width, look="bold")
    return lines + paragraph(files_in_words(audit), width)


def policy_lines(force: InForce, width: int) -> list[Line]:
    """Return what a policy changed; whatever it loosens stands there with its reason."""
    if force.path is None:
        return []
    lines = paragraph(f"The policy {force.title} ({force.path}) {policy_in_words(force)}.", width)
    for one in force.changes:
        label = "loosened" if one.loosens else "tightened"
        because = f", because {one.because}" if one.because else ""
        lines += labelled(label, f"{one.name} from {one.old} to {one.new}{because}", width)
    return lines


# One file


def _file(
    result: FileResult, verdict: Verdict | None, beside: str, width: int, *, everything: bool
) -> list[Line]:
    """Return what one file says; its answer, where it stands among others, and what shared files say beside it."""
    held = blocks(result)
    title = f" · {result.title}" if result.title else ""
    lines: list[Line] = [plain(""), *paragraph(f"{result.path}{title}", width, look="bold underline")]
    if verdict is not None and verdict.signal is None:
        lines += labelled("checked", verdict.sentence, width)
    lines += _summary(result, width)
    faults = _faults(result, held, width, everything=everything)
    after = _assumed(result, width) + _looks(held, width, everything=everything)
    taken = max(len(faults) + len(after) - SPARE, 0) if held.fields > MANY else 0
    lines += faults
    if beside:
        lines += [plain(""), *labelled("see also", beside, width)]
    lines += _blanks(result, held, width, taken, everything=everything)
    lines += after
    lines += _checks(held, width, everything=everything)
    if held.accepted:
        lines += [
            plain(""),
            *paragraph(f"{held.kept_as}, so they do not count for the exit status:", width, indent=2),
        ]
        lines += [line for finding in held.accepted for line in _accepted(finding, width)]
    return lines


def _summary(result: FileResult, width: int) -> list[Line]:
    summary = summary_of(result)
    rows = summary.rows if summary else []
    return [line for label, words in rows for line in labelled(label, words, width)]


def _faults(result: FileResult, held: Blocks, width: int, *, everything: bool) -> list[Line]:
    lines: list[Line] = []
    for group, why in held.reasons:
        if everything or not (_waits_for(group, held) or _is_look(group, held)):
            lines += [plain(""), *group_lines(group, width, why=why)]
    for one in result.not_judged:
        words = f"not judged: {count(one.rules, 'rule')}, because {one.because}"
        lines += [plain(""), *paragraph(words, width, indent=2)]
    return lines


def _waits_for(group: Group, held: Blocks) -> str:
    """Return the field to fill in on which it hangs whether a finding counts; nothing where there is none."""
    if group.first.kind != "open" or group.first.asks is not None:
        return ""
    keys = (one.at.key for blank in held.blanks for one in blank.findings)
    return next((key for key in keys if f"'{key}'" in group.first.message), "")


def _is_look(group: Group, held: Blocks) -> bool:
    """Whether it is a look of no more than CAUTION that is told in short: advice, or one of a rig still to fill in."""
    short = group.first.advice or held.fields > MANY
    return short and group.first.kind == "review" and group.signal <= Signal.CAUTION


def _waiting_rows(held: Blocks, width: int) -> list[Line]:
    """Return a line for each finding that only counts if a field to fill in turns out badly."""
    lines: list[Line] = []
    for group in held.faults:
        if key := _waits_for(group, held):
            words = f"{waiting_in_words(group, key)}"
            lines += one_row(group.signal.name, words, width, label_look=LOOKS[group.signal])
    return lines


def _blanks(result: FileResult, held: Blocks, width: int, taken: int, *, everything: bool) -> list[Line]:
    """Return the fields to fill in, those first that the gravest words and the most rules wait for.

    So that a rig still to fill in takes one screen, what else there is to tell leaves fewer of them: `taken` lines.
    """
    if not held.blanks:
        return []
    waiting = [] if everything else _waiting_rows(held, width)
    shown = (
        held.blanks if everything else held.blanks[: max(MOST_BLANKS - taken, FEWEST_BLANKS) - len(waiting)]
    )
    rest = held.fields - sum(len(group.findings) for group in shown)
    first = "; these decide most" if rest else ""
    lines = [plain(""), *paragraph(f"To fill in ({held.fields}{first}):", width, indent=2, look="bold")]
    names = names_of(result)
    lines += [
        row for group in shown for row in blank_rows(group, result.path, names, width, whole=everything)
    ]
    lines += waiting
    return lines + (paragraph(f"{rest} more: --all", width, indent=2) if rest else [])


def _assumed(result: FileResult, width: int) -> list[Line]:
    """Return what was taken where the file does not say."""
    if not result.assumed:
        return []
    lines = [plain(""), *paragraph(f"{ASSUMED}:", width, indent=2, look="bold")]
    return lines + [
        row
        for one in assumed_rows(result.assumed)
        for row in labelled("-", f"{one.label}: {one.text}", width)
    ]


def _looks(held: Blocks, width: int, *, everything: bool) -> list[Line]:
    advice = [] if everything else [group for group in held.faults if _is_look(group, held)]
    if not (held.looks or advice):
        return []
    lines = [plain(""), *paragraph("Look at these on site:", width, indent=2, look="bold")]
    for group in advice:
        word, words = group.signal.name, to_look_at(group.findings)
        lines += labelled(word, words, width, label_look=LOOKS[group.signal])
    for group in held.looks:
        lines += labelled("[ ]", to_look_at(group.findings), width)
    return lines


def _checks(held: Blocks, width: int, *, everything: bool) -> list[Line]:
    """Return what every rig like this is checked for; the card has it, so that a count is enough here."""
    checks = held.checks
    if not checks:
        return []
    if everything:
        lines = [plain(""), *paragraph("Checks on site:", width, indent=2, look="bold")]
        return lines + [line for one in checks for line in labelled("[ ]", to_look_at([one]), width)]
    words = f"{count(len(checks), 'check')} on site: see the card"
    is_first = not held.looks and not any(_is_look(group, held) for group in held.faults)
    return [*([plain("")] if is_first else []), *labelled("[ ]", words, width)]


def _accepted(finding: Finding, width: int) -> list[Line]:
    text = f"{finding.message} {first_up(finding.by_whom)} ({finding.rule})"
    return labelled(finding.signal.name, text, width)


def _meanings(gists: Iterable[Gist], width: int) -> list[Line]:
    used = sorted({one.signal for one in gists if one.kind != "review" or one.signal > Signal.NOTICE})
    if not used:
        return []
    words = "; ".join(f"{signal.name}: {MEANINGS[signal]}" for signal in reversed(used))
    return paragraph(f"{words} (signal words after ANSI Z535.4 and ISO 3864-2).", width)
