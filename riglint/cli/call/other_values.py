"""`--set KEY=VALUE`: another value for one run, for each command that takes one rig."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from riglint.cli.call.stopping import CALL_WRONG, StopError

if TYPE_CHECKING:
    from riglint.model.what_if import WhatIf


def take_other_values(command: argparse.ArgumentParser, of: str = "") -> None:
    """Let a command be told values to take instead of the file's."""
    told = "take another value for one run, such as plan.standing_tension='5 kN'; the file doesn't change"
    command.add_argument(
        "--set",
        dest="other_values",
        action="append",
        default=[],
        metavar="KEY=VALUE",
        help=f"{told}. Here {of}" if of else told,
    )


def other_values(said: Sequence[str], rig: Path) -> tuple[WhatIf, ...]:
    """Return the values to take instead of those of a rig file.

    Raises:
        StopError: they cannot be read, or not set in that file.
    """
    if not said:
        return ()
    from riglint.model.library import load_file  # noqa: PLC0415 - only the calls that need it pay for it
    from riglint.model.what_if import WhatIfError, what_if, with_values  # noqa: PLC0415

    try:
        values = tuple(what_if(one) for one in said)
        document = load_file(rig, rig.as_posix()).document
        if document is not None:
            with_values(document, values)
    except WhatIfError as error:
        raise StopError(str(error), CALL_WRONG) from error
    return values
