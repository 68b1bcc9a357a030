"""A rig over one value, as text: a row for each, and where the word changes."""

from __future__ import annotations

from itertools import groupby

from riglint.reports.layout.spans import Line, labelled, paragraph, plain
from riglint.views.audit.words import CAUTION_TEXT, sealed
from riglint.views.plot.content import CURVES, Plot, PlotPoint

HEADS = ("strength", "clearance", "sag", "crew", "rope down")
WIDE = 10  # letters of a column
NOTHING = "–"
FULL = 20  # signs of the bar of strength, which stands for twice what is asked


def plot_text(plot: Plot, width: int) -> list[Line]:
    """Return a rig over one value, laid out for a width."""
    lines: list[Line] = [*paragraph(f"{plot.title} over {plot.key}", width, look="bold")]
    lines += paragraph(f"{plot.path}, as of {plot.on}", width)
    for sentence in plot.policy:
        lines += paragraph(sentence, width, look="bold")
    told = "; ".join(
        f"{head}: {name}{f', {unit}' if unit else ''}"
        for head, (name, unit, _, _) in zip(HEADS, CURVES, strict=True)
    )
    lines += [plain(""), *paragraph(f"{told}.", width), plain("")]
    lines.append(plain(f"{'':>{WIDE}}  {'word':<8}" + "".join(f"{head:>{WIDE}}" for head in HEADS)))
    units = "".join(f"{unit:>{WIDE}}" for _, unit, _, _ in CURVES)
    lines.append(plain(f"{plot.unit:>{WIDE}}  {'':<8}{units}"))
    lines += [plain(_row(plot, one)) for one in plot.points]
    for (word, rule), points in groupby(plot.points, key=lambda one: (one.word, one.rule)):
        there = list(points)
        span = there[0].text if len(there) == 1 else f"{there[0].text} to {there[-1].text}"
        said = (
            f"{word} ({rule}), at {there[-1].text}: {there[-1].because}"
            if word
            else "no rule says more than NOTICE"
        )
        lines += [plain(""), *labelled("at", f"{span}: {said}", width, indent=0)]
    lines += [plain(""), *paragraph(f"Judged by {sealed(plot.seal)}.", width)]
    return [*lines, *paragraph(CAUTION_TEXT, width)]


def _row(plot: Plot, point: PlotPoint) -> str:
    now = "*" if plot.today is not None and abs(point.number - plot.today) < 1e-9 else " "  # noqa: PLR2004 - rounding
    figures = (point.share, point.clearance_m, point.sag_m, point.hand_kn, point.let_down_m)
    said = "".join(f"{NOTHING if one is None else f'{one + 0.0:.2f}':>{WIDE}}" for one in figures)
    return f"{point.number:>{WIDE - 1}.6g}{now}  {point.word or NOTHING:<8}{said}".rstrip()
