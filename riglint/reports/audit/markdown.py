"""The audit as Markdown, short enough for a comment under a proposed change: summary first, then the gravest findings.

Comments are cut or refused above 65,536 characters by some hosts, so the report stays below a cap of its own, and
counts whatever it leaves out.
"""

from __future__ import annotations

import re
from dataclasses import field

from riglint.findings import Audit, FileResult, Finding
from riglint.records import dataclass
from riglint.reports.sheet.markdown import escaped
from riglint.rulekit import Signal, first_up
from riglint.rulekit.verdicts import MEANINGS
from riglint.views.assumed import assumed_rows, in_sentences
from riglint.views.audit.files_seen import files_in_words
from riglint.views.audit.reader import for_a_reader
from riglint.views.audit.settings_words import settings_in_words
from riglint.views.audit.verdict import Verdict, verdict_of_all, verdicts
from riglint.views.audit.words import CAUTION_TEXT, at_the_top, closing, sealed

MOST_FINDINGS = 30
MOST_FILES = 20
MOST_CHARACTERS = 30_000
LONGEST = 400  # characters of one sentence
# Hosts make mentions and references of these after Markdown is done with, so a backslash stops none of them.
_REFERENCE = re.compile(r"(\\?[@#!~$%^]|&amp;)(?=\\?\w)")
_BARE_LINK = re.compile(r"\b(www)\.", re.IGNORECASE)
_INVISIBLE = "\u200b"  # zero width space


def audit_markdown(audit: Audit, stop_at: Signal) -> str:
    """Return the report of an audit.

    Args:
        audit: what was found.
        stop_at: least signal word that gives exit status 1.
    """
    page = _Page()
    audit = for_a_reader(audit)
    answers = verdicts(audit)
    answer = verdict_of_all(audit, answers)
    page.add(
        "## Rig audit",
        "",
        f"**{answer.word}: {plain_text(answer.sentence)}** {plain_text(answer.next_step)}",
        "",
    )
    page.add(*_rigs(answers))
    page.add(plain_text(closing(audit)), "")
    page.add(
        f"As of {audit.on}, {audit.rules} rules ({sealed(audit.seal)}), {plain_text(_policy(audit))}.", ""
    )
    page.add(files_in_words(audit), "")
    said = (*at_the_top(audit), *settings_in_words(audit.force))
    page.add(*(line for sentence in said for line in (f"**{plain_text(sentence)}**", "")))
    page.add(*_counts(audit), "")
    page.add(*_unread(audit))
    counting = sorted((one for one in audit.findings if one.counts), key=lambda one: -one.signal)
    stopping = [one for one in counting if one.signal >= stop_at]
    below = [one for one in counting if one.signal < stop_at]
    quiet = [one for one in below if _quiet(one)]
    others = [one for one in below if not _quiet(one)]
    page.table(f"### At or above {stop_at.name}", stopping)
    page.table(f"### Below {stop_at.name}", others)
    page.table(
        "### Accepted, so they do not count for the exit status",
        [one for one in audit.findings if not one.counts],
    )
    for result in audit.files:
        for sentence in in_sentences(assumed_rows(result.assumed)):
            page.add(f"Assumed in {plain_text(result.path)}: {plain_text(sentence)}", "")
    if quiet:
        page.lines += [f"To look at on site, listed in the full report and on the card: {len(quiet)}.", ""]
    if page.left_out:
        page.lines += [f"{page.left_out} more findings left out here; the full report has them.", ""]
    if audit.accepted_left_out:
        page.lines += [f"{audit.accepted_left_out} accepted findings left out.", ""]
    page.lines += [f"> {plain_text(CAUTION_TEXT)}", ""]
    return "\n".join(page.lines)


@dataclass(slots=True)
class _Page:
    """Lines below the caps, and how many findings found no place."""

    lines: list[str] = field(default_factory=list)
    characters: int = 0
    findings: int = 0
    left_out: int = 0

    def add(self, *lines: str) -> None:
        self.lines += lines
        self.characters += sum(len(line) + 1 for line in lines)

    def table(self, head: str, findings: list[Finding]) -> None:
        """Add a table of findings, as far as it goes."""
        started = False
        for n, finding in enumerate(findings):
            row = _row(finding)
            if self.findings >= MOST_FINDINGS or self.characters + len(row) > MOST_CHARACTERS:
                self.left_out += len(findings) - n  # the gravest come first: nothing milder takes their place
                break
            if not started:
                self.add(head, "", "| word | what, and what to do | where | rule |", "|---|---|---|---|")
                started = True
            self.add(row)
            self.findings += 1
        if started:
            self.add("")


def plain_text(text: str, longest: int = LONGEST) -> str:
    r"""Return text that a host shows as it stands: no markup, no link, nobody mentioned, no table broken.

    >>> plain_text("@crew | see #12")
    '@\u200bcrew \\| see \\#\u200b12'
    """
    short = text if len(text) <= longest else f"{text[: longest - 1]}…"
    plain = _BARE_LINK.sub(rf"\1{_INVISIBLE}.", escaped(short))
    return _REFERENCE.sub(rf"\1{_INVISIBLE}", plain)


def _rigs(answers: list[tuple[FileResult, Verdict]]) -> list[str]:
    """Return a line for each file where there are several, worst first."""
    if len(answers) < 2:  # noqa: PLR2004 - a list of one is none
        return []
    rows = [
        f"- {verdict.word}: {plain_text(result.path)}: {plain_text(verdict.in_short or verdict.sentence)}"
        for result, verdict in answers[:MOST_FILES]
    ]
    more = [f"- and {len(answers) - MOST_FILES} more"] if len(answers) > MOST_FILES else []
    return [*rows, *more, ""]


def _quiet(finding: Finding) -> bool:
    return finding.kind == "review" and finding.signal == Signal.NOTICE


def _policy(audit: Audit) -> str:
    force = audit.force
    if force.path is None:
        return force.title
    loosened = sum(one.loosens for one in force.changes)
    return f"policy {force.title} ({loosened} values loosened)"


def _counts(audit: Audit) -> list[str]:
    """Return how many findings have each word, by kind."""
    rows = ["| word | means | fail | open | review |", "|---|---|---:|---:|---:|"]
    for signal in sorted(Signal, reverse=True):
        of_word = [one.kind for one in audit.findings if one.counts and one.signal == signal]
        counts = [str(of_word.count(kind)) for kind in ("fail", "open", "review")]
        rows.append(f"| {signal.name} | {MEANINGS[signal]} | {' | '.join(counts)} |")
    return rows


def _unread(audit: Audit) -> list[str]:
    unread = [result.path for result in audit.files if not result.judged]
    if not unread:
        return []
    named = [f"- {plain_text(path)}" for path in unread[:MOST_FILES]]
    more = [f"- and {len(unread) - MOST_FILES} more"] if len(unread) > MOST_FILES else []
    return ["**Not judged:**", "", *named, *more, ""]


def _row(finding: Finding) -> str:
    at = finding.at
    word = finding.signal.name if finding.kind == "fail" else f"{finding.signal.name} ({finding.kind})"
    words = plain_text(finding.message)
    if not finding.is_due:
        words += f" {plain_text(finding.do)}"
    if finding.by_whom:
        words += f" {plain_text(first_up(finding.by_whom))}"
    where = f"{plain_text(at.path)} line {at.line}"
    if finding.rigs:
        where += f"; touches {plain_text(', '.join(finding.rigs))}"
    return f"| {word} | {words} | {where} | {finding.rule} |"
