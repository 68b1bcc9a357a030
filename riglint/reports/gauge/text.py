"""What a reading on site means, as text: formula, inputs, result with its ±, source, and the plan."""

from __future__ import annotations

from riglint.reports.audit.json_report import figure, source_json
from riglint.reports.layout.json_text import json_text
from riglint.reports.layout.spans import Line, labelled, paragraph, plain
from riglint.views.blocks import sourced
from riglint.views.figures import fixed, kn, number
from riglint.views.gauge.content import Gauge


def gauge_text(gauge: Gauge, width: int) -> list[Line]:
    """Return what a reading means, laid out for a width."""
    of = f", {gauge.rig}" if gauge.rig else ""
    read = "" if gauge.what.startswith("under ") else "read by "
    lines: list[Line] = [*paragraph(f"Tension {read}{gauge.what}{of}", width, look="bold")]
    lines += [line for one in gauge.settings for line in paragraph(one, width)]
    lines += labelled("tension", _verdict_row(gauge), width, look="bold")
    steps = [gauge.formula, *([gauge.working] if gauge.working else []), f"{kn(gauge.tension_n)} kN"]
    lines += labelled("formula", f"{gauge.symbol} = {' = '.join(steps)}", width)
    for one in gauge.inputs:
        lines += labelled("", one.text, width)
    lines += labelled("source", sourced(gauge.source), width)
    if gauge.bare_sag_m is not None:
        lines += labelled(
            "bare line",
            f"sags {fixed(gauge.bare_sag_m)} m by the same timing: g·t²/32, t of one return",
            width,
        )
    for note in gauge.notes:
        lines += labelled("note", note, width)
    if gauge.planned is not None:
        lines += labelled("plan", against_plan(gauge), width, look="" if gauge.planned.fits else "bold")
    return [*lines, plain(""), *paragraph(gauge.caution, width)]


def _verdict_row(gauge: Gauge) -> str:
    if gauge.high_n <= gauge.low_n:
        return f"{kn(gauge.tension_n)} kN; no input states its ±, so how sure this is stays unknown"
    up, down = gauge.high_n - gauge.tension_n, gauge.tension_n - gauge.low_n
    between = f"between {kn(gauge.low_n)} and {kn(gauge.high_n)} kN"
    if abs(up - down) > 0.01 * up:
        return f"{kn(gauge.tension_n)} kN, {between}"
    return f"{kn(gauge.tension_n)} ± {kn(up)} kN, {between}"


def against_plan(gauge: Gauge) -> str:
    """Return whether the reading fits the plan."""
    plan = gauge.planned
    if plan is None:
        return ""
    share = (gauge.tension_n / plan.tension_n - 1.0) * 100.0
    side = "above" if share >= 0 else "below"
    words = f"{kn(plan.tension_n)} kN ({plan.at}); the reading is {number(abs(share), 2)} % {side}"
    allowed = f"up to {number(plan.apart * 100.0)} % apart"
    if plan.verdict == "may fit":
        own = f"{kn(gauge.low_n)} to {kn(gauge.high_n)} kN"
        return (
            f"{words}. It may fit: its range of {own} lies partly outside the {number(plan.apart * 100.0)} % allowed. "
            "Read in another way, or more closely, before anyone walks."
        )
    if plan.fits:
        return f"{words}. It fits: {allowed}, over its whole range."
    do = "let the line down" if share > 0 else "read again, and look for what slipped"
    plan_it = "or put what was read into the plan and audit again"
    return f"{words}. It does not fit: {allowed}. Nobody walks; {do}, {plan_it}."


def gauge_json(gauge: Gauge) -> str:
    """Return what a reading means as JSON, units in the key names."""
    plan = gauge.planned
    data = {
        "riglint": "gauge/1",
        "reading": gauge.what,
        "rig": gauge.rig,
        "tension_kN": figure(gauge.tension_n / 1000.0),
        "low_kN": figure(gauge.low_n / 1000.0),
        "high_kN": figure(gauge.high_n / 1000.0),
        "formula": f"{gauge.symbol} = {gauge.formula}",
        "working": gauge.working or None,
        "inputs": [
            {"symbol": one.symbol, "value": figure(one.value), "unit": one.unit or "1", "from": one.words}
            for one in gauge.inputs
        ],
        "source": source_json(gauge.source),
        "bare_sag_m": figure(gauge.bare_sag_m),
        "notes": list(gauge.notes),
        "settings": list(gauge.settings),
        "plan": None
        if plan is None
        else {
            "tension_kN": figure(plan.tension_n / 1000.0),
            "apart": figure(plan.apart),
            "fits": plan.fits,
            "verdict": plan.verdict,
            "fits_by_range_alone": gauge.fits_by_range_alone,
            "at": plan.at,
        },
        "caution": gauge.caution,
    }
    return json_text(data)
