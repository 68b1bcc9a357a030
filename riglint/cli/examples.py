"""`riglint examples`: copies the example library, its guides and its recipes into a new folder."""

from __future__ import annotations

import argparse
import shutil
from pathlib import Path

from riglint.cli.call.output import put_out, there_already
from riglint.cli.call.stopping import NOT_DONE, StopError, refusal


def add(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add the command to the command line."""
    about = "Copies the example library, the guides, and the recipes for hooks and CI into a new folder."
    examples = commands.add_parser(
        "examples", help="example rigs and guides in a new folder", description=about
    )
    examples.add_argument("folder", type=Path, metavar="DIR", help="a folder that is not there yet")
    examples.set_defaults(run=_run)


def _run(call: argparse.Namespace) -> int:
    from riglint.rulebook import RuleSetError, shipped  # noqa: PLC0415 - only this command pays for it

    folder: Path = call.folder
    try:
        shutil.copytree(shipped("examples"), folder, ignore=shutil.ignore_patterns("__pycache__"))
    except RuleSetError as error:
        raise StopError(str(error), NOT_DONE) from error
    except FileExistsError as error:
        raise there_already(folder) from error
    except (OSError, ValueError) as error:
        raise StopError(f"The examples cannot be copied to {folder}: {refusal(error)}.", NOT_DONE) from error
    files = sum(1 for file in folder.rglob("*") if file.is_file())
    put_out(f"Copied {files} files to {folder.as_posix()}. Begin with {(folder / 'README.md').as_posix()}.\n")
    return 0
