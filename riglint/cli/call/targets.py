"""Which files a report may be written to: never an input, never anything that riglint reads as ours."""

from __future__ import annotations

import argparse
import os
import re
import stat
from collections.abc import Iterator
from pathlib import Path

from riglint.cli.call.stopping import CALL_WRONG, StopError
from riglint.read.decoding import MAX_BYTES
from riglint.read.file_names import MARKS, YAML
from riglint.read.library import real
from riglint.read.looks import is_ours

# What our own JSON reports begin with; a new one may take the place of an old one.
_REPORT = re.compile(
    rb'\s*\{\s*"riglint":\s*"(?:audit|card|choose|compare|gauge|limits|rule_sets|rulebook|sheet)/'
)
_KINDS = (
    (stat.S_ISDIR, "it is a folder; name a file in it"),
    (stat.S_ISBLK, "it is a disk"),
    (stat.S_ISSOCK, "it is a socket"),
)


def refuse_to_destroy(output: Path, call: argparse.Namespace) -> None:
    """Refuse to write over what is no report: an input of the call, a document of ours, a rule, a folder, a disk.

    Raises:
        StopError: with the reason in words.
    """
    target = _written_to(output)
    try:
        found = target.stat()
    except FileNotFoundError:
        return
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or "its name cannot be used"
        raise StopError(f"The report cannot be written to {output}: {reason}.", CALL_WRONG) from error
    for is_kind, words in _KINDS:
        if is_kind(found.st_mode):
            raise StopError(f"The report cannot be written to {output}: {words}.", CALL_WRONG)
    if stat.S_ISREG(found.st_mode):
        reason = _read_from(target, call) or _ours(target)
        if reason:
            message = f"{output} {reason} and stays unchanged. Name another file for the report."
            raise StopError(message, CALL_WRONG)


def _written_to(output: Path) -> Path:
    """Return what is written to: of `gone/../a.yaml` that is `a.yaml`, whether or not there is a folder `gone`."""
    return output if os.path.lexists(output) else real(output)


def _read_from(output: Path, call: argparse.Namespace) -> str:
    if any(_same(output, one) for one in _inputs(call)):
        return "is what this call reads"
    own = output.resolve()
    if any(own.is_relative_to(folder) for folder in _rule_folders(call)):
        return "belongs to a rule set"
    return ""


def _ours(output: Path) -> str:
    """Say why a file is one of ours, whatever the call names; empty for anything else."""
    if output.resolve().name in MARKS:
        return "marks where a library begins"
    if output.suffix.lower() in YAML or output.resolve().suffix.lower() in YAML:
        return "is a YAML file, as rigs are"
    try:
        with output.open("rb") as stream:
            head = stream.read(MAX_BYTES)
    except OSError:
        return "cannot be looked into"
    if is_ours(head) != "no" and not _REPORT.match(head):
        return "holds the key riglint, as rigs do,"
    return ""


def _inputs(call: argparse.Namespace) -> Iterator[Path]:
    named = vars(call)
    yield from named.get("paths") or []
    yield from (Path(named[name]) for name in ("rig", "policy", "old", "new") if named.get(name))


def _same(one: Path, other: Path) -> bool:
    try:
        return one.samefile(other)
    except (OSError, ValueError):  # one of them is no file
        return False


def _rule_folders(call: argparse.Namespace) -> Iterator[Path]:
    from riglint.rulebook import RuleSetError, shipped  # noqa: PLC0415 - only a call with a report in the way

    yield from (Path(one).resolve() for one in getattr(call, "house_rules", []) if Path(one).is_dir())
    try:
        yield shipped("rules").resolve()
    except RuleSetError:
        return
