"""What the page shows of an audit, as plain data: words, figures, drawings, and the changes that end a finding."""

from __future__ import annotations

import re
from typing import Any

from riglint.findings import Audit, FileResult, Finding
from riglint.page.editing import changes_of, choices_of
from riglint.reports.drawing.chain import chain_drawing
from riglint.reports.drawing.drawings import profile_drawing
from riglint.reports.drawing.haul import haul_drawing
from riglint.reports.drawing.svg import NARROW
from riglint.views.assumed import assumed_rows, in_sentences
from riglint.views.audit.drawn import drawn_of
from riglint.views.audit.reader import blocks
from riglint.views.audit.settings_words import settings_in_words
from riglint.views.audit.summary import summary_of
from riglint.views.audit.verdict import Verdict, verdict_of_all, verdicts
from riglint.views.audit.words import at_the_top, closing, counting, policy_in_words, touching


def answer_data(audit: Audit) -> dict[str, Any]:
    """Return the answer for all files, and what stands above it."""
    told = verdicts(audit)
    force = audit.force
    policy = f"The policy {force.title} ({force.path}) {policy_in_words(force)}." if force.path else ""
    return {
        **_verdict(verdict_of_all(audit, told)),
        "top": [*at_the_top(audit), *settings_in_words(force)],
        "policy": policy,
        "closing": closing(audit),
    }


def file_data(audit: Audit, result: FileResult, verdict: Verdict, as_found: FileResult) -> dict[str, Any]:
    """Return what is shown of one file: its answer, what is at stake, findings by what a person does, drawings.

    Args:
        audit: all files, in a reader's words.
        result: the file.
        verdict: its answer.
        as_found: the same file with the keys of the format in its findings, in the same order.
    """
    held, shared = blocks(result), counting(touching(audit), result)
    summary, loads = summary_of(result), result.computed
    keys = {id(one): _checked_keys(raw) for one, raw in zip(result.findings, as_found.findings, strict=True)}
    return {
        "path": result.path,
        "kind": result.kind,
        "title": result.title or result.path,
        "judged": result.judged,
        "answer": _verdict(verdict),
        "stake": [
            *(list(row) for row in (summary.rows if summary is not None else ())),
            *(["assumed", sentence] for sentence in in_sentences(assumed_rows(result.assumed))),
        ],
        "not_judged": [{"because": one.because, "rules": one.rules} for one in result.not_judged],
        "faults": [_finding(one) for group in held.faults for one in group.findings],
        "shared": [_finding(one) for one in shared],
        "blanks": [_finding(one) for group in held.blanks for one in group.findings],
        "looks": [_finding(one) for group in held.looks for one in group.findings],
        "checks": [{**_finding(one), "keys": keys[id(one)]} for one in held.checks],
        "accepted": [_finding(one) for one in held.accepted],
        "choices": choices_of(loads.path.rig.document) if loads is not None else [],
        "drawings": _drawings(result, [*(one for one in result.findings if one.counts), *shared]),
    }


def _verdict(verdict: Verdict) -> dict[str, Any]:
    signal = verdict.signal.name if verdict.signal is not None else None
    return {"word": verdict.word, "signal": signal, "sentence": verdict.sentence, "next": verdict.next_step}


def _finding(finding: Finding) -> dict[str, Any]:
    ways = [{"words": one.words, "changes": changes_of(one)} for one in finding.remedies if one.offered]
    return {**finding.to_dict(), "ways": [one for one in ways if one["changes"]], "instead": finding.instead}


def _checked_keys(finding: Finding) -> list[str]:
    """Return the names under which `checks` of the file take what a finding waits for; several for pins and gates."""
    key = finding.at.key
    several = re.search(rf"`{re.escape(key.rpartition('.')[2])}: true` at ([\w\[\]., ]+)", finding.do)
    parts = re.findall(r"[a-z_]+\[\d+\][\w\[\].]*", several[1]) if several else []
    return [f"{part.rstrip('.')}.{key.rpartition('.')[2]}" for part in parts] or [key]


def _drawings(result: FileResult, findings: list[Finding]) -> dict[str, Any]:
    """Return each drawing as SVG; empty where a value that it needs is not known."""
    drawn = drawn_of(result, findings)
    if drawn is None:
        return {"profile": "", "haul": "", "chains": []}
    return {
        "profile": profile_drawing(drawn.profile, "line", NARROW) if drawn.profile else "",
        "haul": haul_drawing(drawn.haul, "haul") if drawn.haul else "",
        "chains": [chain_drawing(one, f"chain{n}") for n, one in enumerate(drawn.chains)],
    }
