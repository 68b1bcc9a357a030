"""`riglint gauge`: the standing tension from a pulse, from the sag under somebody, or from the lead strand."""

from __future__ import annotations

import argparse
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from riglint.cli.call.options import rules_of, take_day_and_library, take_forms, take_units, whole_number
from riglint.cli.call.output import deliver
from riglint.cli.call.stopping import CALL_WRONG, StopError
from riglint.cli.one_rig.sheet import computed
from riglint.read.quantity import Dimension, Quantity, QuantityError, parse_quantity

if TYPE_CHECKING:
    from riglint.model.documents.rig import Measured
    from riglint.reports.layout.spans import Line
    from riglint.views.gauge.content import Gauge

ABOUT = (
    "Turns one reading into the standing tension: a pulse (--time, --returns), the sag under a person at rest (--sag, "
    "--under), or the pull in the lead strand (--pull). Write values with their unit, and a ± if you know it: '7.9 s ± "
    "0.1 s'. With a RIG you don't repeat its webbing and lengths, and the reading is compared with the plan. Exit "
    "status 1 means that part of its range doesn't fit. Without a RIG, a pulse works with --over and --mass-per-metre. "
    "Without a reading, --tension, --span, --under, --webbing and --width say what a person does to any such line."
)
# Which options belong to which kind of reading; the first of each says which kind it is.
KINDS = {
    "pulse": ("time", "returns", "over", "mass_per_metre"),
    "sag": ("sag", "under", "at", "sag_from"),
    "force": ("pull",),
    "line": ("tension", "span", "under", "webbing", "width"),
}
MOST_RETURNS = 1000
FIBRES = ("polyester", "polyamide", "uhmwpe")


def add(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add the command to the command line."""
    gauge = commands.add_parser("gauge", help="the tension from one reading on site", description=ABOUT)
    gauge.add_argument("rig", nargs="?", type=Path, default=None, metavar="RIG", help="a rig file")
    values: tuple[tuple[str, Dimension, str, str], ...] = (
        ("--time", "duration", "S", "time of all returns of the pulse together, such as '7.9 s ± 0.1 s'"),
        ("--over", "length", "LENGTH", "webbing between its fittings"),
        ("--mass-per-metre", "mass_per_length", "MASS", "of the unstretched webbing, such as '58 g/m'"),
        ("--sag", "length", "LENGTH", "sag of the line under a person"),
        ("--under", "mass", "MASS", "mass of the person at rest on the line, such as '75 kg ± 1 kg'"),
        (
            "--at",
            "length",
            "LENGTH",
            "place of that person, level from the first anchor; standard: the middle",
        ),
        ("--tension", "force", "FORCE", "standing tension of a line without a rig file, such as '3 kN'"),
        ("--span", "length", "LENGTH", "its span, such as '20 m'"),
        ("--width", "length", "LENGTH", "width of its webbing, such as '25 mm'"),
        ("--pull", "force", "FORCE", "force in the lead strand, such as '1.3 kN'"),
    )
    for name, dimension, shown, words in values:
        gauge.add_argument(name, type=_quantity(dimension), default=None, metavar=shown, help=words)
    gauge.add_argument(
        "--returns", type=_returns, default=None, metavar="N", help="round trips of the pulse; 1"
    )
    gauge.add_argument(
        "--sag-from",
        choices=("still_line", "chord"),
        default=None,
        help="start of the sag: the bare line (standard), or the straight line between the ends",
    )
    gauge.add_argument(
        "--webbing", choices=FIBRES, default=None, metavar="FIBRE", help=f"its fibre: {', '.join(FIBRES)}"
    )
    take_day_and_library(gauge)
    take_units(gauge)
    take_forms(gauge, "text", "json")
    gauge.set_defaults(run=_run)


def _quantity(dimension: Dimension) -> Callable[[str], Quantity]:
    def read(text: str) -> Quantity:
        try:
            found = parse_quantity(text, dimension)
        except QuantityError as error:
            raise argparse.ArgumentTypeError(f"{error.message} {error.do}") from None
        if found.si <= 0.0:
            raise argparse.ArgumentTypeError(f"'{text}' is not above 0, so it is not a reading.")
        if found.plus_minus >= found.si:
            raise argparse.ArgumentTypeError(
                f"The ± of '{text}' is as large as the value itself, so it is not a reading."
            )
        return found

    return read


def _returns(text: str) -> int:
    returns = whole_number(text, 1, MOST_RETURNS)
    if returns is None:
        raise argparse.ArgumentTypeError(
            f"'{text}' is not a number of round trips. Write a whole number, at least 1."
        )
    return returns


def _run(call: argparse.Namespace) -> int:
    from riglint.loads.inputs import MissingInput, NotComputable  # noqa: PLC0415

    kind = _kind(call)
    try:
        found = _alone(call, kind) if call.rig is None else _on_rig(call, kind)
    except NotComputable as unable:
        raise StopError(f"We can't tell the tension: {unable.because}.", CALL_WRONG) from unable
    except MissingInput as missing:
        fields = "; ".join(f"{at.key_text} in {at.path}, line {at.line}" for at in missing.fields)
        raise StopError(f"We can't tell the tension without {fields}.", CALL_WRONG) from missing
    deliver(call, lambda form, width: _report(found, form, width))
    return 0 if found.planned is None or found.planned.fits else 1


def _kind(call: argparse.Namespace) -> str:
    """Return which kind of reading a call gives.

    Raises:
        StopError: none, two of them, or a value that belongs to another.
    """
    given = [kind for kind, (first, *_) in KINDS.items() if getattr(call, first) is not None]
    if len(given) != 1:
        message = (
            "Give one reading: --time of a pulse, --sag under a person, or --pull in the lead strand; or --tension "
            "of a line without a rig file."
        )
        raise StopError(message, CALL_WRONG)
    (kind,) = given
    for other, names in KINDS.items():
        for name in names:
            if name not in KINDS[kind] and getattr(call, name) is not None:
                raise StopError(f"{_option(name)} belongs to a {other}, not to a {kind}.", CALL_WRONG)
    return kind


def _option(name: str) -> str:
    return f"--{name.replace('_', '-')}"


def _needed(call: argparse.Namespace, *names: str) -> None:
    missing = [_option(name) for name in names if getattr(call, name) is None]
    if missing:
        raise StopError(f"This reading also needs {' and '.join(missing)}.", CALL_WRONG)


def _alone(call: argparse.Namespace, kind: str) -> Gauge:
    from riglint.views.gauge.build import line_alone, pulse_alone  # noqa: PLC0415

    if kind == "line":
        _needed(call, "span", "under", "webbing", "width")
        return line_alone(call.span, call.tension, call.under, call.webbing, call.width)
    if kind != "pulse":
        message = f"A {kind} gives a tension only with its line. Name the rig file first."
        raise StopError(message, CALL_WRONG)
    _needed(call, "over", "mass_per_metre")
    return pulse_alone(call.mass_per_metre, call.over, call.time, call.returns or 1)


def _on_rig(call: argparse.Namespace, kind: str) -> Gauge:
    from riglint.views.card.build import reading_apart  # noqa: PLC0415
    from riglint.views.gauge.build import gauge_rig  # noqa: PLC0415

    if kind == "line":
        raise StopError(
            "The rig has its own tension and span. Its sheet shows what a person does.", CALL_WRONG
        )
    if call.mass_per_metre is not None:
        message = "The rig's gear list has the mass of a metre of its webbing. Leave --mass-per-metre out."
        raise StopError(message, CALL_WRONG)
    if kind == "sag":
        _needed(call, "under")
    from dataclasses import replace  # noqa: PLC0415 - only a reading of a rig needs it

    from riglint.views.audit.settings_words import settings_in_words  # noqa: PLC0415

    book = rules_of(call)
    loads, force = computed(call, book)
    found = gauge_rig(loads, _entry(call, kind), reading_apart(book, force))
    return replace(found, settings=tuple(settings_in_words(force)))


def _entry(call: argparse.Namespace, kind: str) -> Measured:
    """Return the reading as it would stand in the rig file."""
    from riglint.model.documents.rig import Measured  # noqa: PLC0415

    given = {
        "what": kind,
        "returns": call.returns or 1,
        "time": call.time,
        "over": call.over,
        "under": call.under,
        "at": call.at,
        "depth": call.sag,
        "from": call.sag_from or "still_line",
        "where": "lead_strand" if kind == "force" else None,
        "value": call.pull,
    }
    return Measured.model_construct(**given)


def _report(found: Gauge, form: str, width: int) -> str | Sequence[Line]:
    from riglint.reports.gauge.text import gauge_json, gauge_text  # noqa: PLC0415

    return gauge_json(found) if form == "json" else gauge_text(found, width)
