"""Which pieces of a gear list would do in each place of a rig, as JSON."""

from __future__ import annotations

from typing import Any

from riglint.findings.finding import Finding
from riglint.findings.variation.choosing import Choosing
from riglint.findings.variation.least_piece import LeastPiece
from riglint.findings.variation.trying import Candidate
from riglint.reports.audit.json_report import policy_data, settings_data
from riglint.reports.layout.json_text import json_text, six_digits
from riglint.views.audit.words import CAUTION_TEXT


def choose_json(found: Choosing) -> str:
    """Return the choices of one rig; the keys carry their units."""
    data = {
        "riglint": "choose/1",
        "caution": CAUTION_TEXT,
        "rig": found.title,
        "path": found.path,
        "on": found.on.isoformat(),
        "policy": policy_data(found.force),
        "settings": settings_data(found.force),
        "rulebook": found.seal,
        "rigs_judged": found.judged,
        "whatever_you_choose": [_finding(one) for one in found.apart],
        "places": [
            {
                "part": one.place.part,
                "words": one.words,
                "now": one.place.name,
                "tried": [_candidate(each) for each in one.tried],
                "not_tried": one.not_tried,
            }
            for one in found.choices
        ],
        "sets": [
            {
                "words": one.words,
                "pieces": None if one.names is None else [name for _, name in one.names],
                "against": [_finding(each) for each in one.against],
                "perhaps_taken": dict(one.perhaps),
            }
            for one in found.sets
        ],
        "look_for": {
            "pieces": [_least(one) for one in found.look_for.pieces],
            "rigs_judged": found.look_for.judged,
            "is_least": found.look_for.is_least,
            "against": [_finding(one) for one in found.look_for.against],
        },
    }
    return json_text(data)


def _candidate(one: Candidate) -> dict[str, Any]:
    return {
        "names": list(one.names),
        "does": one.does,
        "ratio": six_digits(one.ratio),
        "strength_kN": six_digits(None if one.strength_n is None else one.strength_n / 1000.0),
        "mass_kg": six_digits(one.mass_kg),
        "against": [_finding(each) for each in one.against],
        "taken": dict(one.taken),
        "perhaps_taken": dict(one.perhaps),
    }


def _least(one: LeastPiece) -> dict[str, Any]:
    """Return what to look for in one place; the strength is of the key, `mbs` or `wll`."""
    return {
        "words": one.words,
        "like": one.like,
        "key": one.key or None,
        "strength_kN": six_digits(None if one.strength_n is None else one.strength_n / 1000.0),
        "length_m": six_digits(one.length_m),
    }


def _finding(one: Finding) -> dict[str, str]:
    return {"rule": one.rule, "signal": one.signal.name, "message": one.message, "do": one.do}
