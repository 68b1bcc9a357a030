"""The rulebook as JSON: versioned in the first key."""

from __future__ import annotations

from typing import Any

from riglint.hazards import HAZARDS, Hazard
from riglint.model.values.bibliography import works
from riglint.model.values.ratios import NEVER, PEAK
from riglint.reports.audit.json_report import source_json
from riglint.reports.layout.json_text import json_text
from riglint.reports.rules.rule_words import (
    AT_STAKE,
    CONSEQUENCES,
    checks,
    example_words,
    scale,
    sources,
    words_at,
)
from riglint.rulebook import Rulebook
from riglint.rulekit import Rule
from riglint.views.audit.words import CAUTION_TEXT


def rulebook_json(book: Rulebook, only: str | None = None) -> str:
    """Return every rule in full, or only one, with the scales that they are read by."""
    data = {
        "riglint": "rulebook/1",
        "caution": CAUTION_TEXT,
        "seal": book.seal,
        "signals": dict(scale()),
        "consequences": AT_STAKE,
        "required": [_required(name) for name in PEAK],
        "bibliography": [{**work._asdict(), "year": str(work.year)} for work in works().values()],
        "hazards": [_hazard(one) for one in HAZARDS.values()],
        "rules": [_rule(name, rule) for name, rule in book.rules.items() if only in {None, name}],
    }
    return json_text(data)


def _required(name: str) -> dict[str, Any]:
    """Return one row of required ratios; null where none is asked, `never` where no ratio would do."""
    row = PEAK[name]
    ratios: dict[str, Any] = {one: "never" if row.at(one) == NEVER else row.at(one) for one in CONSEQUENCES}
    return {"part": name, **ratios, "source": source_json(row.source)}


def _rule(rule_id: str, rule: Rule) -> dict[str, Any]:
    return {
        "rule": rule_id,
        "title": rule.title,
        "checks": checks(rule),
        "looks_at": rule.each.words,
        "signals": {consequence: word.name for consequence, word in words_at(rule).items()},
        "worst": rule.worst.name,
        "why": rule.why,
        "formula": rule.formula,
        "prevents": list(rule.prevents),
        "limits": [
            {
                "name": f"{rule_id}.{limit.name}",
                "value": limit.text,
                "tighter": limit.tighter,
                "because": limit.because,
                "source": source_json(limit.source),
            }
            for limit in rule.limits
        ],
        "sources": [source_json(source) for source in sources(rule)],
        "examples": [
            {
                "verdict": one.verdict,
                "rig": example_words(one),
                "at": one.at,
                "signal": one.signal.name if one.signal else None,
                "shows": list(one.shows),
            }
            for one in rule.examples
        ],
    }


def _hazard(one: Hazard) -> dict[str, Any]:
    """Return one hazard; `eyes` is what a person ticks on site, null where the file tells enough."""
    return {
        "hazard": one.id,
        "phase": one.phase,
        "what": one.what,
        "eyes": one.eyes or None,
        "where": one.where,
        "source": source_json(one.source),
    }
