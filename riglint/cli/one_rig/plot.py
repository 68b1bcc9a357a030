"""`riglint plot`: draws what a rig does over one of its values."""

from __future__ import annotations

import argparse
import re
from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

from riglint.cli.call.options import (
    rules_of,
    status_in_force,
    take_day_and_library,
    take_forms,
    today,
    whole_number,
)
from riglint.cli.call.other_values import other_values
from riglint.cli.call.output import deliver
from riglint.cli.call.stopping import CALL_WRONG, StopError
from riglint.cli.one_rig.sheet import computed, loaded, take_rig
from riglint.read.problems import visible

if TYPE_CHECKING:
    from riglint.reports.layout.spans import Line
    from riglint.views.plot.content import Plot

VALUE = re.compile(r"(?P<number>[0-9]+(?:\.[0-9]+)?)\s*(?P<unit>[^±+0-9]*?)\s*(?:(?:±|\+/-).*)?")
POINTS, FEWEST_POINTS, MOST_POINTS = 13, 2, 41
LOW, HIGH = 0.5, 1.5  # of the value in the file, unless the call says from where to where


class Number(NamedTuple):
    """A value as it is typed: its number, and the unit behind it."""

    number: float
    unit: str

    def said(self, number: float) -> str:
        """Return another number in this unit, as a file has it."""
        return f"{number:.6g} {self.unit}".strip()


def add(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add the command to the command line."""
    plot = commands.add_parser(
        "plot",
        help="what a rig does over one of its values",
        description="Draws strength, clearance, sag, the pull of the crew and the rope to let down over one value. "
        "Bands show what the rules say there.",
    )
    take_rig(plot)
    plot.add_argument(
        "--over", required=True, metavar="KEY", help="the value to change, such as plan.standing_tension"
    )
    plot.add_argument(
        "--from", dest="low", default=None, metavar="VALUE", help="standard: half of what the file says"
    )
    plot.add_argument("--to", dest="high", default=None, metavar="VALUE", help="standard: 1.5 times that")
    plot.add_argument(
        "--points", type=_points, default=POINTS, metavar="N", help=f"how many values; standard: {POINTS}"
    )
    take_day_and_library(plot)
    take_forms(plot, "text", "json", "html")
    plot.set_defaults(run=_run)


def _points(text: str) -> int:
    points = whole_number(text, FEWEST_POINTS, MOST_POINTS)
    if points is None:
        raise argparse.ArgumentTypeError(
            f"'{text}' is no number of points. Write {FEWEST_POINTS} to {MOST_POINTS}."
        )
    return points


def _run(call: argparse.Namespace) -> int:
    from riglint.findings.judging import judge  # noqa: PLC0415 - only the commands that need it pay for it
    from riglint.model.what_if import key_of  # noqa: PLC0415
    from riglint.views.plot.build import plot_point  # noqa: PLC0415
    from riglint.views.plot.content import Plot  # noqa: PLC0415

    book = rules_of(call)
    loads, force = computed(call, book)
    rig = loads.path.rig
    held = _held(rig.document.data, key_of(call.over.strip()))
    low, high = _ends(call, held)
    points = []
    for n in range(call.points):
        number = low.number + (high.number - low.number) * n / (call.points - 1)
        said = low.said(number)
        there = loaded(call, force, other_values([f"{call.over}={said}"], call.rig))
        found = judge(there.path.rig, book, today(call), force, there, with_remedies=False).findings
        points.append(plot_point(said, number, there, found))
    content = Plot(
        rig.rig.title,
        rig.document.path,
        str(today(call)),
        call.over.strip(),
        low.unit,
        held.number if held and held.unit == low.unit else None,
        tuple(points),
        book.seal,
        force,
    )
    deliver(call, lambda form, width: _report(content, form, width))
    return status_in_force(force)


def _held(data: object, key: tuple[str | int, ...]) -> Number | None:
    """Return what the file says; None where it says nothing that has a number."""
    from riglint.model.changed import value_at  # noqa: PLC0415

    said = value_at(data, key)
    return _number(said) if isinstance(said, str) else None


def _number(said: str) -> Number | None:
    match = VALUE.fullmatch(said.strip())
    return Number(float(match["number"]), match["unit"].strip()) if match else None


def _ends(call: argparse.Namespace, held: Number | None) -> tuple[Number, Number]:
    """Return the first and the last value.

    Raises:
        StopError: there are none, or they have two units.
    """
    ends = []
    for typed, share, option in ((call.low, LOW, "--from"), (call.high, HIGH, "--to")):
        end = _number(typed) if typed else held and Number(held.number * share, held.unit)
        if end is None:
            said = (
                f"'{visible(typed)}' is no number" if typed else f"The file gives no number for {call.over}"
            )
            raise StopError(f"{said}. Write such as {option} '3 kN'.", CALL_WRONG)
        ends.append(end)
    low, high = ends
    if low.unit != high.unit:
        raise StopError(f"'{low.unit}' and '{high.unit}' are two units. Write both ends in one.", CALL_WRONG)
    if low.number >= high.number:
        raise StopError(f"{low.said(low.number)} isn't below {high.said(high.number)}.", CALL_WRONG)
    return low, high


def _report(plot: Plot, form: str, width: int) -> str | Sequence[Line]:
    if form == "json":
        from riglint.reports.plot.json_report import plot_json  # noqa: PLC0415

        return plot_json(plot)
    if form == "html":
        from riglint.reports.plot.html import plot_html  # noqa: PLC0415

        return plot_html(plot)
    from riglint.reports.plot.text import plot_text  # noqa: PLC0415

    return plot_text(plot, width)
