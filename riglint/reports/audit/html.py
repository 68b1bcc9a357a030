"""The audit as one page of HTML: no script, nothing fetched; for a screen, a phone and A4."""

from __future__ import annotations

from collections.abc import Iterable

from riglint.findings import Audit, FileResult, Finding
from riglint.records import dataclass
from riglint.reports.audit.blocks_html import blocks_html, verdict_sign
from riglint.reports.audit.style import DARK, STYLE
from riglint.reports.day.html import STYLE as DAY_STYLE
from riglint.reports.day.html import days_html
from riglint.reports.drawing.chain import chain_drawing
from riglint.reports.drawing.drawings import profile_drawing, profile_told
from riglint.reports.drawing.haul import BUILD_STYLE, build_html, haul_drawing
from riglint.reports.drawing.signs import SYMBOL, sign_html
from riglint.reports.drawing.svg import NARROW
from riglint.reports.layout.assumed import assumed_html
from riglint.reports.layout.html_page import html_page
from riglint.reports.sheet.html import safe
from riglint.rulekit.verdicts import MEANINGS
from riglint.views.assumed import assumed_rows
from riglint.views.audit.drawn import Drawn, drawn_of
from riglint.views.audit.files_seen import files_in_words, left_out_words
from riglint.views.audit.reader import Blocks, blocks, for_a_reader
from riglint.views.audit.settings_words import settings_in_words
from riglint.views.audit.summary import summary_of
from riglint.views.audit.verdict import Verdict, verdict_of_all, verdicts
from riglint.views.audit.words import (
    CAUTION_TEXT,
    at_the_top,
    closing,
    count,
    counting,
    heading,
    in_shared_files,
    policy_in_words,
    touching,
)
from riglint.views.day.build import days_of


@dataclass(frozen=True, slots=True)
class _FileSection:
    """One file as the page shows it."""

    name: str  # of its place on the page
    result: FileResult
    verdict: Verdict
    held: Blocks
    touching: list[Finding]  # of the files that it refers to
    see_also: str  # those files in words

    @property
    def title(self) -> str:
        return self.result.title or self.result.path


def audit_html(audit: Audit) -> str:
    """Return the report of an audit as a page of its own."""
    audit = for_a_reader(audit)
    answers, shared = verdicts(audit), touching(audit)
    answer = verdict_of_all(audit, answers)
    sections = [
        _FileSection(
            f"file{n}",
            result,
            verdict,
            blocks(result),
            counting(shared, result),
            in_shared_files(shared, result) if result.judged else "",
        )
        for n, (result, verdict) in enumerate(answers, 1)
    ]
    alone = len(sections) == 1
    body = "\n".join(_file(section, alone=alone) for section in sections)
    return html_page(
        safe(f"{answer.word} · {sections[0].title if alone else heading(audit)}"),
        STYLE + BUILD_STYLE + ("" if audit.day is None else DAY_STYLE) + DARK,
        f"{SYMBOL}\n<header>\n<h1>{safe(heading(audit))}</h1>\n{_answer(audit, answer)}</header>\n"
        f"{_days(audit)}{_contents(sections)}<main>\n{body}\n</main>\n<footer>\n{_foot(audit)}</footer>\n",
    )


# One day


def _days(audit: Audit) -> str:
    """Return the lines that stand together on the day that was asked for, spot by spot; nothing without a day."""
    return days_html(days_of(audit))


# The top: what a rigger reads first


def _answer(audit: Audit, answer: Verdict) -> str:
    said = (*at_the_top(audit), *settings_in_words(audit.force))
    top = "".join(f"<p><b>{safe(sentence)}</b></p>\n" for sentence in said)
    return (
        f'{top}<div class="answer {_tone(answer)}">\n<p class="gravest">{verdict_sign(answer)}</p>\n'
        f'<p class="closing">{safe(answer.sentence)}</p>\n<p>{safe(answer.next_step)}</p>\n</div>\n{_policy(audit)}'
    )


def _tone(verdict: Verdict) -> str:
    return verdict.signal.name.lower() if verdict.signal is not None else "checked"


def _contents(sections: list[_FileSection]) -> str:
    if len(sections) < 2:  # noqa: PLR2004 - a list of one is none
        return ""
    rows = ""
    for section in sections:
        verdict = section.verdict
        rows += (
            f'<li>{verdict_sign(verdict)} <a href="#{section.name}">{safe(section.title)}</a> '
            f'<span class="quiet">{safe(section.result.path)}: {safe(verdict.in_short or verdict.sentence)}</span>'
            "</li>\n"
        )
    return f'<nav aria-label="Files">\n<h2>Files, worst first</h2>\n<ul class="files">\n{rows}</ul>\n</nav>\n'


# One file


def _file(section: _FileSection, *, alone: bool) -> str:
    result = section.result
    path = f'<p class="quiet">{safe(result.path)}</p>\n' if result.title else ""
    findings = [*(one for one in result.findings if one.counts), *section.touching]
    drawn = drawn_of(result, findings)
    verdict = (
        ""
        if alone
        else f'<p class="own">{verdict_sign(section.verdict)} {safe(section.verdict.sentence)}</p>\n'
    )
    return (
        f'<section id="{section.name}" class="file" aria-labelledby="{section.name}-title">\n'
        f'<h2 id="{section.name}-title">{safe(section.title)}</h2>\n{path}{verdict}{_profile(section, drawn)}'
        f"{blocks_html(section.held, result, section.name)}{_beside(section)}"
        f"{assumed_html(assumed_rows(result.assumed))}{_stake(result)}"
        f"{_drawings(section, drawn, alone=alone)}</section>"
    )


def _stake(result: FileResult) -> str:
    summary = summary_of(result)
    if summary is None:
        return ""
    rows = "".join(f"<dt>{label}</dt><dd>{safe(words)}</dd>" for label, words in summary.rows)
    return f'<dl class="stake">{rows}</dl>\n'


def _beside(section: _FileSection) -> str:
    """Return what keeps rules from being judged, and what shared files hold."""
    result, parts = section.result, []
    for one in result.not_judged:
        words = safe(f"{count(one.rules, 'rule')}, because {one.because}")
        parts.append(f'<p class="open"><b>Not judged:</b> {words}</p>\n')
    parts += [f"<p><b>See also</b> {safe(section.see_also)}</p>\n"] if section.see_also else []
    return "".join(parts)


def _profile(section: _FileSection, drawn: Drawn | None) -> str:
    if drawn is None or drawn.profile is None:
        return ""
    profile = profile_drawing(drawn.profile, f"{section.name}-profile", NARROW, brief=True)
    return f'<div class="profile">\n{profile}\n</div>\n'


def _drawings(section: _FileSection, drawn: Drawn | None, *, alone: bool) -> str:
    if drawn is None:
        return ""
    name = section.name
    haul = haul_drawing(drawn.haul, f"{name}-haul") if drawn.haul else ""
    chain, *backups = (chain_drawing(one, name) for one in drawn.chains)
    rest = "\n".join(one for one in (haul, *backups) if one)
    build = _build(section, drawn) if alone else ""
    profile = (
        f'<p class="quiet"><b>Profile</b>, above. {safe(profile_told(drawn.profile))}</p>\n'
        if drawn.profile
        else ""
    )
    return (
        f'{build}<h3>Drawings</h3>\n{profile}<div class="drawings">\n<div class="chain">\n{chain}\n</div>\n'
        f'<div class="rest">\n{rest}\n</div>\n</div>\n'
    )


def _build(section: _FileSection, drawn: Drawn) -> str:
    """Return the pulley system step by step; a page of many rigs leaves that to the cards."""
    if drawn.haul is None:
        return ""
    steps = build_html(drawn.haul, f"{section.name}-build")
    return f"<h3>Pulley system, step by step</h3>\n{steps}"


# The foot


def _foot(audit: Audit) -> str:
    return (
        f'<p class="caution-text">{safe(CAUTION_TEXT)}</p>\n<p class="told"><b>{safe(closing(audit))}</b></p>\n'
        f'<p class="quiet">{files_in_words(audit)}</p>\n{_counts(audit.findings)}'
        + "".join(f'<p class="quiet">{safe(sentence)}</p>\n' for sentence in left_out_words(audit))
    )


def _counts(findings: Iterable[Finding]) -> str:
    """Return how many findings there are of each word and kind."""
    counted = [one for one in findings if one.counts]
    accepted = sum(not one.counts for one in findings)
    kinds = ("fail", "open", "review")
    heads = "".join(f'<th scope="col">{words}</th>' for words in ("found", "open", "look"))
    rows = ""
    for signal in sorted({one.signal for one in counted}, reverse=True):
        numbers = [sum(one.signal == signal and one.kind == kind for one in counted) for kind in kinds]
        cells = "".join(f"<td>{n or '–'}</td>" for n in numbers)
        meaning = f'<span class="quiet">{MEANINGS[signal]}</span>'
        rows += f'<tr><th scope="row">{sign_html(signal)} {meaning}</th>{cells}</tr>\n'
    beside = (
        f'<p class="quiet">{count(accepted, "finding")} accepted, not counted here.</p>\n' if accepted else ""
    )
    if not rows:
        return beside
    return (
        '<table class="counts"><caption>Findings by signal word (after ANSI Z535.4 and ISO 3864-2)</caption>'
        f'<thead><tr><th scope="col">word</th>{heads}</tr></thead>\n<tbody>\n{rows}</tbody></table>\n{beside}'
    )


def _policy(audit: Audit) -> str:
    """Return what a policy changed; whatever it loosens stands there with its reason."""
    force = audit.force
    if force.path is None:
        return ""
    words = safe(f"The policy {force.title} ({force.path}) {policy_in_words(force)}.")
    rows = ""
    for one in force.changes:
        because = f", because {one.because}" if one.because else ""
        label = "loosened" if one.loosens else "tightened"
        rows += f"<dt>{label}</dt><dd>{safe(f'{one.name} from {one.old} to {one.new}{because}')}</dd>\n"
    return f"<h2>Policy</h2>\n<p>{words}</p>\n{f'<dl>{rows}</dl>' if rows else ''}\n"
