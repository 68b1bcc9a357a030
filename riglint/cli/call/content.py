"""Which content of the files a command judges: what stands on the disk, what is staged, or what a revision holds."""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from riglint.cli.call.stopping import CALL_WRONG, StopError

if TYPE_CHECKING:
    from riglint.read.repository.revisions import TakenOut


class OnDisk:
    """The files as they stand on the disk."""

    here = Path()

    def path(self, named: Path) -> Path:
        """Return where a named file or folder is."""
        return named


def take_revision(command: argparse.ArgumentParser) -> None:
    """Let a command be told to judge files as git holds them."""
    command.add_argument(
        "--revision",
        default=None,
        metavar="NAME",
        help="judge files, policy included, as this git revision holds them; 'staged': as the next commit will",
    )


@contextmanager
def content_of(call: argparse.Namespace) -> Iterator[OnDisk | TakenOut]:
    """Give the content that a call asks for; it lasts as long as the block. Of a revision no file is there yet.

    Raises:
        StopError: git cannot give it.
    """
    if call.revision is None:
        yield OnDisk()
        return
    from riglint.read.repository.revisions import NoSideError, listed  # noqa: PLC0415 - only a call that asks git pays for it

    try:
        with listed(call.revision) as files:
            yield files
    except NoSideError as error:
        raise StopError(str(error), CALL_WRONG) from error
