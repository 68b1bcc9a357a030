"""Lays the settings of what is staged beside those of the last commit, for a hook."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path, PurePosixPath
from typing import TYPE_CHECKING

from riglint.read.file_names import MARK
from riglint.read.repository.revisions import TakenOut, differing, taken_out

if TYPE_CHECKING:
    from riglint.findings.settled.changed import Changed
    from riglint.rulebook import Rulebook

LAST = "HEAD"


def staged_changes(content: TakenOut, policy: Path | None, book: Rulebook) -> list[Changed]:
    """Return what a commit would do to the settings of the libraries in its repository.

    Args:
        content: the staged files, taken out.
        policy: the policy that the call names.
        book: the rules whose limits policies name.

    Raises:
        NoSideError: git cannot give them.
    """
    from riglint.findings.settled.changed import (  # noqa: PLC0415
        DO_FIRST,
        DO_IN_HOOK,
        Changed,
        changed_settings,
    )

    files = differing(LAST, content)
    if files is None:  # the first commit: nothing held before, so only what sets something is told
        told = [
            one for one in changed_settings(None, content.root, book) if "sets nothing" not in one.message
        ]
        return [replace(one, do=DO_FIRST) for one in told]
    told = _of_the_call(content, policy, files)
    if any(file.name == MARK for file in files) or _named(content, book) & files:
        with taken_out(LAST) as before:
            told += changed_settings(before.root, content.root, book)
    return [Changed(one.path, one.message, None, DO_IN_HOOK) for one in told]


def _named(content: TakenOut, book: Rulebook) -> set[PurePosixPath]:
    """Return the policies and files of known findings that mark files name."""
    from riglint.settings import settings_of  # noqa: PLC0415

    found: set[PurePosixPath] = set()
    for mark in (one.path for one in content.entries if one.path.name == MARK):
        settings = settings_of(content.root / mark.parent, book)
        paths = [path for path in (settings.force.path, settings.known.path) if path is not None]
        paths += [path for path, _ in settings.broken]
        found |= {PurePosixPath(Path(path).relative_to(content.root).as_posix()) for path in paths}
    return found


def _of_the_call(content: TakenOut, policy: Path | None, files: set[PurePosixPath]) -> list[Changed]:
    """Return the change of the policy that the call names."""
    from riglint.findings.settled.changed import Changed  # noqa: PLC0415

    if policy is None:
        return []
    file = content.path(policy)
    if not file.is_relative_to(content.root):
        return []
    place = PurePosixPath(file.relative_to(content.root).as_posix())
    message = f"The policy {place} that the call names is new or has changed."
    return [Changed(place.as_posix(), message)] if place in files else []
