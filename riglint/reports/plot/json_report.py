"""A rig over one value, as JSON."""

from __future__ import annotations

from riglint.reports.audit.json_report import policy_data, settings_data
from riglint.reports.layout.json_text import json_text, six_digits
from riglint.views.audit.words import CAUTION_TEXT
from riglint.views.plot.content import Plot


def plot_json(plot: Plot) -> str:
    """Return a rig over one value; the keys carry their units."""
    data = {
        "riglint": "plot/1",
        "caution": CAUTION_TEXT,
        "rig": plot.title,
        "path": plot.path,
        "on": plot.on,
        "policy": policy_data(plot.force),
        "settings": settings_data(plot.force),
        "rulebook": plot.seal,
        "over": plot.key,
        "unit": plot.unit,
        "today": plot.today,
        "points": [
            {
                "value": one.text,
                "number": six_digits(one.number),
                "signal": one.word,
                "rule": one.rule,
                "message": one.because or None,
                "strength_to_asked": six_digits(one.share),
                "weakest": one.weakest or None,
                "clearance_m": six_digits(one.clearance_m),
                "sag_m": six_digits(one.sag_m),
                "hand_force_kN": six_digits(one.hand_kn),
                "let_down_m": six_digits(one.let_down_m),
            }
            for one in plot.points
        ],
    }
    return json_text(data)
