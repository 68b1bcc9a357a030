"""One finding on a page, with the trail that leads to its number."""

from __future__ import annotations

from collections.abc import Sequence

from riglint.findings import Finding
from riglint.findings.grouping import Group
from riglint.reports.audit.finding_text import also, place_in_words, rule_in_words
from riglint.reports.drawing.signs import sign_html
from riglint.reports.sheet.html import safe
from riglint.rulekit import first_up
from riglint.views.audit.words import against, of_the_file, to_look_at
from riglint.views.figures import number


def group_html(group: Group, name: str, *, why: bool = True) -> str:
    """Return findings with one cause as a block: the gravest in full, a line for each of the others.

    Args:
        group: what was found.
        name: of the block, once a page.
        why: whether to say why it matters, which the block before may have said already.
    """
    finding = group.first
    rows = [("also", safe(also(finding, one))) for one in group.findings[1:]]
    rows.append(("where", safe(place_in_words(finding))))
    if finding.rigs:
        rows.append(("rigs", safe(", ".join(finding.rigs))))
    if finding.value is not None and finding.limit is not None:
        rows.append(("value", f"<b>{safe(against(finding))}</b>"))
    rows.append(("what to do", safe(group.do)))
    if why:
        rows.append(("why", safe(finding.why)))
    if finding.formula:
        rows.append(("formula", f'<span class="sum">{safe(finding.formula)}</span>'))
    rows.append(("rule", safe(rule_in_words(finding))))
    text = "".join(f"<dt>{label}</dt><dd>{words}</dd>\n" for label, words in rows)
    return (
        f'<article class="finding {finding.signal.name.lower()}" id="{name}">\n'
        f"<h4>{sign_html(finding.signal, finding.kind)} <span>{safe(finding.message)}</span></h4>\n"
        f"<dl>\n{text}</dl>\n{_inputs(finding)}</article>"
    )


def _inputs(finding: Finding) -> str:
    """Return what the number was computed from, where the rule says so."""
    if not finding.inputs or of_the_file(finding):
        return ""
    placed = any(one.where for one in finding.inputs)
    heads = ("input", "symbol", "value", *(("from",) if placed else ()))
    head = "".join(f'<th scope="col">{one}</th>' for one in heads)
    rows = ""
    for one in finding.inputs:
        cells = [one.symbol, _figure(one.value, one.unit), *((one.where or "",) if placed else ())]
        rows += f'<tr><th scope="row">{safe(one.name)}</th>'
        rows += "".join(f"<td>{safe(cell)}</td>" for cell in cells) + "</tr>\n"
    return (
        '<table class="inputs"><caption>Computed from</caption>'
        f"<thead><tr>{head}</tr></thead><tbody>\n{rows}</tbody></table>\n"
    )


def _figure(value: float | str, unit: str) -> str:
    return f"{number(value)} {'' if unit == '1' else unit}".strip()


def look_html(findings: Sequence[Finding]) -> str:
    """Return what a person must look at on site, in one place or in several, as a box to tick."""
    return f'<li><span class="tick" aria-hidden="true"></span>{safe(to_look_at(findings))}</li>'


def accepted_html(finding: Finding) -> str:
    """Return a finding that somebody answers for."""
    if not finding.by_whom:
        return ""
    by = f"{first_up(finding.by_whom)} ({finding.rule})"
    return f"<li>{sign_html(finding.signal, 'review')} {safe(finding.message)} {safe(by)}</li>"
