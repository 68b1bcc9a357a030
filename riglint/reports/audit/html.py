"""The audit as one page of HTML: no script, nothing fetched; for a screen, a phone and A4."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from riglint.findings import Audit, FileResult, Finding
from riglint.loads import Loads
from riglint.loads.inputs import known
from riglint.reports.audit.finding_html import accepted_html, finding_html, look_html
from riglint.reports.audit.style import STYLE
from riglint.reports.audit.words import (
    CAUTION_TEXT,
    at_the_top,
    closing,
    count,
    files_told,
    first_to_go,
    heading,
    in_shared_files,
    is_quiet,
    left_out_words,
    of_the_file,
    policy_told,
    states_told,
)
from riglint.reports.day.build import days_of
from riglint.reports.day.html import STYLE as DAY_STYLE
from riglint.reports.day.html import day_section
from riglint.reports.drawing.chain import chain_drawings
from riglint.reports.drawing.drawings import profile_drawing
from riglint.reports.drawing.haul import haul_drawing
from riglint.reports.drawing.signs import SYMBOL, sign_html
from riglint.reports.drawing.svg import NARROW
from riglint.reports.layout.html_page import html_page
from riglint.reports.sheet.html import safe
from riglint.rulekit import Signal
from riglint.rulekit.verdicts import MEANINGS


@dataclass(frozen=True, slots=True)
class _Section:
    """One file as the page shows it."""

    name: str  # of its place on the page
    result: FileResult
    named: tuple[tuple[str, Finding], ...]  # every finding, with the name of its place
    touching: tuple[Finding, ...]  # of the files that it refers to

    @property
    def title(self) -> str:
        return self.result.title or self.result.path

    @property
    def loud(self) -> list[tuple[str, Finding]]:
        return [(name, one) for name, one in self.named if one.counts and not is_quiet(one)]


def audit_html(audit: Audit) -> str:
    """Return the report of an audit as a page of its own."""
    sections = [section for section in _sections(audit) if section.named or section.result.kind == "rig"]
    body = "\n".join(_file(section, audit) for section in sections)
    return html_page(
        safe(heading(audit)),
        STYLE if audit.day is None else STYLE + DAY_STYLE,
        f"{SYMBOL}\n"
        f"<header>\n<h1>{safe(heading(audit))}</h1>\n{_summary(audit, sections)}</header>\n"
        f"{_days(audit)}{_contents(sections)}<main>\n{body}\n</main>\n<footer>\n{_words(audit)}{_left_out(audit)}</footer>\n",
    )


def _sections(audit: Audit) -> list[_Section]:
    made = []
    for n, result in enumerate(audit.files, 1):
        named = tuple((f"file{n}-finding{m}", one) for m, one in enumerate(result.findings, 1))
        others = (one for other in audit.files if other is not result for one in other.findings)
        touching = tuple(one for one in others if one.counts and result.path in one.rigs)
        made.append(_Section(f"file{n}", result, named, touching))
    return made


# The top: what a rigger reads first


def _summary(audit: Audit, sections: list[_Section]) -> str:
    sign = _gravest(audit.findings)
    sign = f'<p class="gravest">{sign}</p>\n' if sign else ""
    stops = [
        (section, name, one)
        for section in sections
        for name, one in section.loud
        if one.signal >= Signal.WARNING and one.kind != "review"
    ]
    stops.sort(key=lambda stop: -stop[2].signal)  # file by file within a word
    rows = "".join(_stop(section, name, one, several=len(sections) > 1) for section, name, one in stops)
    which = "the rig" if sum(section.result.kind == "rig" for section in sections) == 1 else "which rig"
    listed = f'<h2>What stops {which}</h2>\n<ul class="stops">\n{rows}</ul>\n' if stops else ""
    top = "".join(f"<p><b>{safe(sentence)}</b></p>\n" for sentence in at_the_top(audit))
    return (
        f'{top}{sign}<p class="closing">{safe(closing(audit))}</p>\n'
        f'<p class="quiet">{files_told(audit)}</p>\n'
        f"{listed}{_counts(audit.findings)}{_policy(audit)}"
        f'<p class="caution-text">{safe(CAUTION_TEXT)}</p>\n'
    )


def _gravest(findings: Iterable[Finding]) -> str:
    """Return the sign of the gravest finding that counts; nothing where there is none."""
    counted = [(one.signal, one.kind != "review") for one in findings if one.counts]
    if not counted:
        return ""
    signal, stated = max(counted)
    return sign_html(signal, "fail" if stated else "review", beside=False)


def _stop(section: _Section, name: str, finding: Finding, *, several: bool) -> str:
    home = f' <span class="quiet">{safe(section.title)}</span>' if several else ""
    kind = sign_html(finding.signal, finding.kind)
    return f'<li><span class="kind">{kind}</span> <a href="#{name}">{safe(finding.message)}</a>{home}</li>\n'


def _counts(findings: Iterable[Finding]) -> str:
    """Return how many findings there are of each word and kind."""
    counted = [one for one in findings if one.counts]
    accepted = sum(not one.counts for one in findings)
    kinds = ("fail", "open", "review")
    heads = "".join(f'<th scope="col">{words}</th>' for words in ("found", "open", "look"))
    rows = ""
    for signal in sorted(Signal, reverse=True):
        numbers = [sum(one.signal == signal and one.kind == kind for one in counted) for kind in kinds]
        cells = "".join(f"<td>{n or '–'}</td>" for n in numbers)
        meaning = f'<span class="quiet">{MEANINGS[signal]}</span>'
        rows += f'<tr><th scope="row">{sign_html(signal)} {meaning}</th>{cells}</tr>\n'
    beside = (
        f'<p class="quiet">{count(accepted, "finding")} accepted, not counted here.</p>\n' if accepted else ""
    )
    return (
        '<table class="counts"><caption>Findings by signal word</caption>'
        f'<thead><tr><th scope="col">word</th>{heads}</tr></thead>\n<tbody>\n{rows}</tbody></table>\n{beside}'
    )


def _policy(audit: Audit) -> str:
    """Return what a policy changed; whatever it loosens stands there with its reason."""
    force = audit.force
    if force.path is None:
        return ""
    told = safe(f"The policy {force.title} ({force.path}) {policy_told(force)}.")
    rows = ""
    for one in force.changes:
        because = f", because {one.because}" if one.because else ""
        label = "loosened" if one.loosens else "tightened"
        rows += f"<dt>{label}</dt><dd>{safe(f'{one.name} from {one.old} to {one.new}{because}')}</dd>\n"
    return f"<h2>Policy</h2>\n<p>{told}</p>\n{f'<dl>{rows}</dl>' if rows else ''}\n"


def _contents(sections: list[_Section]) -> str:
    if len(sections) < 2:  # noqa: PLR2004 - a list of one is none
        return ""
    rows = ""
    for section in sections:
        sign = _gravest(one for _, one in section.named) or '<span class="none">no finding</span>'
        quiet = sum(one.counts and is_quiet(one) for _, one in section.named)
        told = count(len(section.loud), "finding") + (f", {quiet} to look at" if quiet else "")
        rows += (
            f'<li>{sign} <a href="#{section.name}">{safe(section.title)}</a> '
            f'<span class="quiet">{safe(section.result.path)}, {told}</span></li>\n'
        )
    return f'<nav aria-label="Files">\n<h2>Files</h2>\n<ul class="files">\n{rows}</ul>\n</nav>\n'


# One day


def _days(audit: Audit) -> str:
    """Return the lines that stand together on the day that was asked for, spot by spot; nothing without a day."""
    return "".join(day_section(day, plan) for day, plan in days_of(audit))


# One file


def _file(section: _Section, audit: Audit) -> str:
    result = section.result
    path = f'<p class="quiet">{safe(result.path)}</p>\n' if result.title else ""
    drawn = _drawings(section) if result.loads else ""
    return (
        f'<section id="{section.name}" class="file" aria-labelledby="{section.name}-title">\n'
        f'<h2 id="{section.name}-title">{safe(section.title)}</h2>\n{path}'
        f"{_stake(result.loads) if result.loads else ''}{_findings(section, audit)}{drawn}</section>"
    )


def _stake(loads: Loads) -> str:
    consequence = loads.consequence
    rows = [("at stake", f"{consequence.word}: {'; '.join(consequence.reasons)}")]
    line, first = known(lambda: states_told(loads)), known(lambda: first_to_go(loads))
    rows += [(label, told) for label, told in (("line", line), ("first", first)) if told]
    return (
        '<dl class="stake">'
        + "".join(f"<dt>{one}</dt><dd>{safe(told)}</dd>" for one, told in rows)
        + "</dl>\n"
    )


def _findings(section: _Section, audit: Audit) -> str:
    result, parts, told = section.result, ["<h3>Findings</h3>"], ""
    for name, finding in section.loud:
        # Why a file must be readable is said once; every other rule has a reason of its own.
        parts.append(finding_html(finding, name, why=finding.why != told or not of_the_file(finding)))
        told = finding.why
    for one in result.not_judged:
        words = safe(f"{count(one.rules, 'rule')}, because {one.because}")
        parts += [f'<p class="open"><b>Not judged:</b> {words}</p>']
    shared = in_shared_files(result, audit) if result.judged else ""
    if shared:
        parts.append(f"<p><b>See also</b> {safe(shared)}</p>")
    elif not section.loud and not result.not_judged and result.judged:
        parts.append("<p>No rule objects.</p>")
    quiet = [look_html(one) for _, one in section.named if one.counts and is_quiet(one)]
    if quiet:
        parts += ["<h3>For the eyes on site (NOTICE, review)</h3>", '<ul class="looks">', *quiet, "</ul>"]
    accepted = [accepted_html(one) for _, one in section.named if not one.counts]
    if accepted:
        parts += ["<h3>Accepted, out of the exit status</h3>", "<ul>", *accepted, "</ul>"]
    return "\n".join(parts) + "\n"


def _drawings(section: _Section) -> str:
    loads, name = section.result.loads, section.name
    if loads is None:
        return ""
    findings = [*(one for _, one in section.named if one.counts), *section.touching]
    profile = known(lambda: profile_drawing(loads, f"{name}-profile", NARROW))
    haul = haul_drawing(loads, f"{name}-haul")
    chain, *backups = chain_drawings(loads, findings, name)
    rest = "\n".join(one for one in (haul, *backups) if one)
    return (
        f'<h3>Drawings</h3>\n<div class="drawings">\n<div class="profile">\n{profile or ""}\n</div>\n'
        f'<div class="chain">\n{chain}\n</div>\n<div class="rest">\n{rest}\n</div>\n</div>\n'
    )


# The foot


def _words(audit: Audit) -> str:
    used = sorted({finding.signal for finding in audit.findings}, reverse=True)
    words = "; ".join(f"{signal.name}: {MEANINGS[signal]}" for signal in used)
    return f'<p class="quiet">{words} (signal words after ANSI Z535.4 and ISO 3864-2).</p>\n' if used else ""


def _left_out(audit: Audit) -> str:
    return "".join(f'<p class="quiet">{safe(sentence)}</p>\n' for sentence in left_out_words(audit))
