"""The findings of one file on a page: faults, fields to fill in, what to look at, checks, and what is accepted."""

from __future__ import annotations

from riglint.findings import FileResult
from riglint.reports.audit.finding_html import accepted_html, group_html, look_html
from riglint.reports.audit.finding_text import blank_in_words
from riglint.reports.drawing.signs import sign_html
from riglint.reports.sheet.html import safe
from riglint.views.audit.part_names import names_of
from riglint.views.audit.reader import Blocks
from riglint.views.audit.verdict import Verdict


def verdict_sign(verdict: Verdict) -> str:
    """Return the word of an answer as a panel; one that no rule stops has no signal word."""
    if verdict.signal is None:
        return f'<span class="sign checked">{verdict.word}</span>'
    if verdict.word != verdict.signal.name:  # not judged
        return f'<span class="sign unjudged">{verdict.word}</span>'
    return sign_html(verdict.signal)


def blocks_html(held: Blocks, result: FileResult, name: str) -> str:
    """Return what was found in one file.

    Args:
        held: its findings by block.
        result: the file.
        name: of its place on the page.
    """
    parts = [*_faults(held, name), *_blanks(held, result), *_looks(held), *_checks(held)]
    accepted = [accepted_html(one) for one in held.accepted]
    if accepted:
        parts += [
            f"<h3>{held.kept_as}, so they do not count for the exit status</h3>",
            "<ul>",
            *accepted,
            "</ul>",
        ]
    return "\n".join(parts) + "\n" if parts else ""


def _faults(held: Blocks, name: str) -> list[str]:
    if not held.faults:
        return []
    parts = [group_html(one, f"{name}-finding{n}", why=why) for n, (one, why) in enumerate(held.reasons, 1)]
    return ["<h3>Faults</h3>", *parts]


def _blanks(held: Blocks, result: FileResult) -> list[str]:
    if not held.blanks:
        return []
    names = names_of(result)
    rows = [
        f'<li><span class="kind">{sign_html(group.signal)}</span> '
        f"<span>{safe(blank_in_words(group, result.path, names, whole=True))} ({safe(group.first.rule)})</span></li>"
        for group in held.blanks
    ]
    return [f"<h3>To fill in ({held.fields})</h3>", '<ul class="stops">', *rows, "</ul>"]


def _looks(held: Blocks) -> list[str]:
    looks = [look_html(group.findings) for group in held.looks]
    return ["<h3>Look at these on site</h3>", '<ul class="looks">', *looks, "</ul>"] if looks else []


def _checks(held: Blocks) -> list[str]:
    checks = [look_html([one]) for one in held.checks]
    return (
        [f"<h3>Checks on site ({len(checks)})</h3>", '<ul class="looks">', *checks, "</ul>"] if checks else []
    )
