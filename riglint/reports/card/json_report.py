"""The card as JSON: versioned in the first key, units in the key names."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from riglint.findings import Finding
from riglint.reports.audit.json_report import figure
from riglint.reports.layout.json_text import json_text
from riglint.views.card.content import Card, Fact, Figures, Row


def card_json(card: Card) -> str:
    """Return the card of one rig."""
    data = {
        "riglint": "card/1",
        "rig": card.title,
        "path": card.path,
        "on": card.on,
        "limits": card.limits,
        "what_if": list(card.what_if),
        "assumed": [{"name": one.label, "words": one.text} for one in card.assumed],
        "settings": list(card.settings),
        "fingerprint": card.fingerprint,
        "spot": card.spot or None,
        "at_stake": card.at_stake,
        "verdict": None if card.answer.signal is None else card.answer.sentence,
        "answer": {
            "word": card.answer.word,
            "signal": None if card.answer.signal is None else card.answer.signal.name,
            "sentence": card.answer.sentence,
            "next_step": card.answer.next_step,
        },
        "faults": _findings(card.faults),
        "open": _findings(card.open),
        "others": _findings(card.others),
        "accepted": _findings(card.accepted),
        "not_judged": list(card.not_judged),
        "not_computed": list(card.missing),
        "figures": _figures(card.figures),
        "chain": [_row(row) for row in card.chain],
        "line": _facts(card.line),
        "reading": _facts(card.reading),
        "haul": _facts(card.haul),
        "work": [
            {
                "step": step.title,
                "ticks": [{"words": tick.words, "second_person": tick.second} for tick in step.ticks],
            }
            for step in card.work
        ],
        "stop": list(card.stop),
        "emergency": _facts(card.emergency),
        "pack": _facts(card.pack),
        "sign": [one.label for one in card.sign],
        "policy": list(card.policy),
        "caution": card.caution,
    }
    return json_text(data)


def _figures(numbers: Figures) -> dict[str, Any]:
    data = {
        "standing_kN": _kilo(numbers.standing_n),
        "pulse_returns": None if numbers.pulse_returns is None else float(numbers.pulse_returns),
        "pulse_time_s": figure(numbers.pulse_time_s),
        "pulse_least_s": figure(numbers.pulse_least_s),
        "pulse_most_s": figure(numbers.pulse_most_s),
        "pulse_over_m": figure(numbers.pulse_over_m),
        "lead_least_kN": _kilo(numbers.lead_least_n),
        "lead_most_kN": _kilo(numbers.lead_most_n),
        "keep_out_m": figure(numbers.keep_out_m),
    }
    for n, one in enumerate(numbers.sags):
        data[f"sag{n}_under_kg"] = figure(one.under_kg)
        data[f"sag{n}_below_bare_m"] = figure(one.below_bare_m)
        data[f"sag{n}_least_m"], data[f"sag{n}_most_m"] = figure(one.least_m), figure(one.most_m)
        data[f"sag{n}_from_a_m"] = figure(one.from_a_m)
    return data


def _kilo(value_n: float | None) -> float | int | str | None:
    return None if value_n is None else figure(value_n / 1000.0)


def _facts(facts: Sequence[Fact]) -> list[dict[str, str]]:
    return [{"label": one.label, "text": one.text} for one in facts]


def _row(row: Row) -> dict[str, Any]:
    return {
        "number": int(row.number) if row.number else None,
        "words": row.words,
        "take": row.take or None,
        "force_kN": figure(row.force_kn),
        "ratio": figure(row.ratio),
        "required": figure(row.asked),
        "ratio_of": row.of or None,
    }


def _findings(findings: Sequence[Finding]) -> list[dict[str, Any]]:
    return [
        {
            "rule": one.rule,
            "signal": one.signal.name,
            "kind": one.kind,
            "message": one.message,
            "do": one.do,
            "at": {"path": one.at.path, "line": one.at.line, "key": one.at.key},
        }
        for one in findings
    ]
