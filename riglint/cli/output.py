"""Where a report goes: to standard output, or to files, each whole or not at all."""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from riglint.cli.stopping import CALL_WRONG, NOT_DONE, StopError

if TYPE_CHECKING:
    from riglint.reports.layout import Line

FILE_WIDTH = 80  # characters; a file is read anywhere


def deliver(call: argparse.Namespace, make: Callable[[str, int], str | Sequence[Line]]) -> None:
    """Make and put every form of a report that a call asks for.

    Args:
        call: the call; its `format` goes to its `output`, and each of its `write` to a file.
        make: gives the report in a form, laid out for a width in characters.

    Raises:
        StopError: a file cannot be written, or two reports were to go into one.
    """
    asked = [(call.format, call.output), *call.write]
    files = [path.resolve() for _, path in asked if path is not None]
    if len(set(files)) < len(files):
        raise StopError("Two reports would go into one file; give each its own.", CALL_WRONG)
    for form, path in asked:
        report = make(form, _width(path))
        if isinstance(report, str):
            _write(report, path)
        else:
            _show(report, path)


def _width(output: Path | None) -> int:
    from shutil import get_terminal_size  # noqa: PLC0415

    from riglint.reports.layout import NARROWEST, WIDEST  # noqa: PLC0415

    columns = FILE_WIDTH if output is not None else get_terminal_size((FILE_WIDTH, 24)).columns
    return max(NARROWEST, min(columns, WIDEST))


def _show(lines: Sequence[Line], output: Path | None) -> None:
    """Print laid-out lines; on a terminal with colour, elsewhere the same characters without."""
    from riglint.reports.layout import characters  # noqa: PLC0415

    if output is not None or not sys.stdout.isatty() or "NO_COLOR" in os.environ:
        _write(characters(lines), output)
        return
    from rich.console import Console  # noqa: PLC0415 - only where there is something to colour
    from rich.text import Text  # noqa: PLC0415

    console = Console(highlight=False, soft_wrap=True)
    for line in lines:
        console.print(Text.assemble(*((span.text, span.look) for span in line)))


def _write(text: str, output: Path | None) -> None:
    """Write to a file whole or not at all, or to standard output."""
    if output is None:
        sys.stdout.write(text)
        return
    if output.is_dir():
        raise StopError(
            f"The report cannot be written to {output}: it is a folder; name a file in it.", CALL_WRONG
        )
    half = output.with_name(f".{output.name}.{os.getpid()}.part")
    try:
        half.write_text(text, encoding="utf-8", errors="backslashreplace", newline="\n")
        half.replace(output)
    except OSError as error:
        half.unlink(missing_ok=True)
        raise StopError(f"The report cannot be written to {output}: {error.strerror}.", NOT_DONE) from error
