"""`riglint schema`: prints the JSON Schema of a kind of file or report, for editors and programs."""

from __future__ import annotations

import argparse
from pathlib import Path

from riglint.cli.call.output import put_out, write_new
from riglint.cli.call.stopping import CALL_WRONG, NOT_DONE, StopError, refusal
from riglint.read.spelling import nearest

ENDING = "-1.schema.json"
ABOUT = (
    "Prints the JSON Schema of a kind of file (rig, spot, shelf, policy, library, known) or of a report, for an "
    "editor or a program. Without KIND it lists the kinds and the file of each."
)


def add(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add the command to the command line."""
    schema = commands.add_parser("schema", help="the JSON Schema of a kind of file", description=ABOUT)
    schema.add_argument(
        "kind",
        nargs="?",
        default=None,
        metavar="KIND",
        help="rig, spot, shelf, policy, library, known or a report",
    )
    schema.add_argument(
        "--output",
        type=Path,
        default=None,
        metavar="FILE",
        help="write it to a new file; never overwrites one",
    )
    schema.set_defaults(run=_run)


def _run(call: argparse.Namespace) -> int:
    files = _schemas()
    if call.kind is None:
        text = "".join(f"{kind:<11}{file.as_posix()}\n" for kind, file in files.items())
    elif call.kind in files:
        try:
            text = files[call.kind].read_text(encoding="utf-8")
        except OSError as error:
            raise StopError(f"The schema cannot be read: {refusal(error)}.", NOT_DONE) from error
    else:
        guess = nearest(call.kind, list(files))
        meant = f" Did you mean '{guess}'?" if guess else ""
        message = f"There is no schema of a kind '{call.kind}'.{meant} The kinds are: {', '.join(files)}."
        raise StopError(message, CALL_WRONG)
    if call.output is None:
        put_out(text)
    else:
        write_new(call.output, text, "schema")
    return 0


def _schemas() -> dict[str, Path]:
    """Return the file of each schema by what it describes, documents first.

    Raises:
        StopError: they did not come with this riglint.
    """
    from riglint.rulebook import RuleSetError, shipped  # noqa: PLC0415 - only this command pays for it

    try:
        folder = shipped("schemas")
    except RuleSetError as error:
        raise StopError(str(error), NOT_DONE) from error
    files = [*sorted(folder.glob(f"*{ENDING}")), *sorted((folder / "reports").glob(f"*{ENDING}"))]
    return {file.name.removesuffix(ENDING): file for file in files}
