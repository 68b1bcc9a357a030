"""Where a report goes: to standard output, or to files, each whole or not at all."""

from __future__ import annotations

import argparse
import os
import stat
import sys
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from riglint.cli.call.stopping import CALL_WRONG, NOT_DONE, StopError, lacking, refusal
from riglint.cli.call.terminal import columns

if TYPE_CHECKING:
    from riglint.findings.let_go.scratch import Pages
    from riglint.reports.layout.spans import Line, Passage
    from riglint.reports.layout.units_shown import Shown

    Report = str | Iterable[str | Line | Passage]
    Make = Callable[[str, int], Report]

FILE_WIDTH = 80  # characters; a file is read anywhere
NOWHERE = "The report cannot be printed: standard output is closed."


def deliver(call: argparse.Namespace, make: Make, *, printed: bool = True) -> None:
    """Make and put every form of a report that a call asks for; one that fails keeps no other back.

    Args:
        call: the call; its `format` goes to its `output`, and each of its `write` to a file.
        make: gives the report in a form, laid out for a width in characters, whole or piece by piece.
        printed: whether what would go to standard output is printed at all.

    Raises:
        StopError: a file cannot be written, a form cannot be made, or two reports were to go into one.
    """
    units: Shown = getattr(call, "units", None) or "metric"
    if units != "metric":
        make = _shown_in(units, make)
    asked = [(call.format, call.output), *call.write]
    failed: list[StopError] = []
    for form, path in asked:
        if path is None and not printed:
            continue
        try:
            _put(make, form, path)
        except StopError as stop:
            failed.append(stop)
        except BrokenPipeError:
            raise
        except ImportError as error:
            failed.append(StopError(lacking(error), NOT_DONE))
        except Exception as error:  # noqa: BLE001 - the other forms may still be made
            what = f"{type(error).__name__}: {error}"
            failed.append(StopError(f"The report could not be made as {form} ({what}).", NOT_DONE))
    if failed:
        raise StopError("\n".join(map(str, failed)), max(stop.status for stop in failed))


def _shown_in(units: Shown, make: Make) -> Make:
    """Return what makes the same reports with figures in other units."""
    from riglint.reports.layout.units_shown import showing  # noqa: PLC0415 - only a call that asks for it pays for it

    def made(form: str, width: int) -> Iterator[str | Line | Passage]:
        with showing(units):
            report = make(form, width)
            yield from [report] if isinstance(report, str) else report

    return made


def check_targets(call: argparse.Namespace) -> None:
    """Look at every file that a call asks for before anything is done.

    Raises:
        StopError: one may not be written over, or two reports were to go into one.
    """
    outputs = [path for path in (call.output, *(path for _, path in call.write)) if path is not None]
    if not outputs:
        return
    from riglint.cli.call.targets import refuse_to_destroy  # noqa: PLC0415 - only a call that writes files pays for it

    for path in outputs:
        refuse_to_destroy(path, call)
    files = [path.resolve() for path in outputs if not _stands_open(path)]
    if len(set(files)) < len(files):
        raise StopError("Two reports would go into one file. Give each its own.", CALL_WRONG)


def _put(make: Make, form: str, path: Path | None) -> None:
    report = make(form, _width(path))
    pieces: Iterable[str | Line | Passage] = [report] if isinstance(report, str) else report
    if path is None and _on_a_terminal() and "NO_COLOR" not in os.environ:
        _show(pieces)
    else:
        _write(_whole(pieces), path)


def _whole(pieces: Iterable[str | Line | Passage]) -> Pages:
    """Make a report to its end before any of it is seen: one that fails on the way must not look whole."""
    from riglint.findings.let_go.scratch import Pages  # noqa: PLC0415
    from riglint.reports.layout.spans import Passage, characters  # noqa: PLC0415

    pages = Pages()
    for piece in pieces:
        if isinstance(piece, Passage):
            pages.add(piece.text())
        else:
            pages.add(piece if isinstance(piece, str) else characters([piece]))
    return pages


def _width(output: Path | None) -> int:
    from riglint.reports.layout.spans import NARROWEST, WIDEST  # noqa: PLC0415

    printed = output is None and sys.stdout is not None and not sys.stdout.closed
    return max(NARROWEST, min(columns(FILE_WIDTH) if printed else FILE_WIDTH, WIDEST))


def _show(pieces: Iterable[str | Line | Passage]) -> None:
    """Print a report on a terminal, its lines with colour."""
    from rich.console import Console  # noqa: PLC0415 - only where there is something to colour
    from rich.text import Text  # noqa: PLC0415

    from riglint.reports.layout.spans import Passage  # noqa: PLC0415

    console = Console(highlight=False, soft_wrap=True)
    each = ([*one.lines()] if isinstance(one, Passage) else [one] for one in pieces)
    for piece in [piece for some in each for piece in some]:
        if isinstance(piece, str):
            put_out(piece)
        else:
            console.print(Text.assemble(*((span.text, span.look) for span in piece)))


def _write(text: Iterable[str], output: Path | None) -> None:
    """Write to a file whole or not at all, or to standard output."""
    if output is None:
        for piece in text:
            put_out(piece)
        return
    raw = (piece.encode("utf-8", errors="backslashreplace") for piece in text)
    try:
        if _stands_open(output):
            _pour(raw, output)
        else:
            put_in_place(raw, output.resolve())  # a link stays, and what it leads to is written
    except (OSError, RuntimeError) as error:  # the last: links in a circle
        raise StopError(f"The report cannot be written to {output}: {refusal(error)}.", NOT_DONE) from error


def write_new(file: Path, text: str, what: str) -> None:
    """Write a file that is not there yet.

    Args:
        file: where to.
        text: all of it.
        what: what it is, such as `draft`.

    Raises:
        StopError: something stands there already, or it cannot be written.
    """
    try:
        with file.open("x", encoding="utf-8", newline="\n") as out:  # x: only where nothing stands yet
            out.write(text)
    except FileExistsError as error:
        raise there_already(file) from error
    except OSError as error:
        raise StopError(f"The {what} cannot be written to {file}: {error.strerror}.", NOT_DONE) from error


def there_already(file: Path) -> StopError:
    """Return what stops a command that would write over a file."""
    message = f"{file} is there already and stays unchanged. Name a new file."
    return StopError(message, CALL_WRONG)


def _on_a_terminal() -> bool:
    return sys.stdout is not None and not sys.stdout.closed and sys.stdout.isatty()


def put_out(text: str) -> None:
    """Print a text.

    Raises:
        StopError: standard output is closed, or takes no more.
    """
    if sys.stdout is None or sys.stdout.closed:
        raise StopError(NOWHERE, NOT_DONE)
    try:
        sys.stdout.write(text)
        sys.stdout.flush()
    except BrokenPipeError:
        raise
    except (OSError, ValueError) as error:
        raise StopError(f"The report could not be printed: {refusal(error)}.", NOT_DONE) from error


def _stands_open(output: Path) -> bool:
    """Whether a file is a pipe or a device: it takes what is poured into it, and nothing can take its place."""
    try:
        mode = output.stat().st_mode
    except (OSError, ValueError):
        return False
    return stat.S_ISFIFO(mode) or stat.S_ISCHR(mode)


def _pour(pieces: Iterable[bytes], output: Path) -> None:
    with output.open("wb") as stream:
        stream.writelines(pieces)


def replace_file(raw: bytes, output: Path) -> None:
    """Put a whole new file in the place of an old one."""
    put_in_place([raw], output)


def put_in_place(pieces: Iterable[bytes], output: Path) -> None:
    """Put a whole new file in the place of an old one, with its mode; on the way it has a name of its own."""
    from tempfile import mkstemp  # noqa: PLC0415 - only a call that writes files pays for it

    descriptor, name = mkstemp(prefix=".riglint-", suffix=".part", dir=output.parent)
    half = Path(name)
    try:
        with os.fdopen(descriptor, "wb") as stream:
            stream.writelines(pieces)
        half.chmod(_mode(output))
        half.replace(output)
    except BaseException:
        half.unlink(missing_ok=True)
        raise


def _mode(output: Path) -> int:
    """Return the mode of a file that is there; of a new one, what anything written here gets."""
    try:
        return stat.S_IMODE(output.stat().st_mode)
    except OSError:
        mask = os.umask(0)
        os.umask(mask)
        return 0o666 & ~mask
