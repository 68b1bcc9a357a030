"""What other programs may call, with everything defaulted that can be; `import riglint` offers all of it.

The page for people is `examples/guides/python.md`. What it promises to keep is kept within a major version.
"""

from __future__ import annotations

import os
from collections.abc import Mapping, Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from riglint import findings
from riglint.findings import Audit
from riglint.findings.library.again import nothing
from riglint.loads import Loads
from riglint.policy import InForce
from riglint.policy import load_policy as _load_policy
from riglint.read.file_names import MARK
from riglint.read.library import library_root
from riglint.rulebook import Rulebook, load_rulebook
from riglint.settings import settings_of

if TYPE_CHECKING:
    from concurrent.futures import Executor

Named = str | Path


class UnusableError(ValueError):
    """A rig or a policy cannot be used; `problems` says why, one sentence each, with file and line."""

    def __init__(self, problems: Sequence[str]) -> None:
        super().__init__("\n".join(problems))
        self.problems = tuple(problems)


def audit(
    paths: Named | Sequence[Named],
    rulebook: Rulebook | None = None,
    on: date | None = None,
    policy: Named | InForce | None = None,
    *,
    root: Named | None = None,
) -> Audit:
    """Audit files and folders: every rig with what it refers to.

    Args:
        paths: a file or folder, or several.
        rulebook: the rules to judge by; riglint's own unless given.
        on: the day to judge by; today unless given.
        policy: a policy's file, or what `load_policy` returned; what the library's mark file sets unless given.
        root: the folder where the library begins, if no mark file says so.

    Returns:
        The findings, file by file. A file that cannot be read is a finding, never an error.

    Raises:
        UnusableError: the policy cannot be used.
        RuleSetError: riglint's own rules did not load whole.
    """
    book = rulebook or load_rulebook()
    several = [paths] if isinstance(paths, str | Path) else paths
    files = [Path(one) for one in several]
    return findings.audit(files, book, _day(on), root=_path(root), force=_force(policy, book))


def audit_paths(
    paths: Named | Sequence[Named],
    executor: Executor | None = None,
    rulebook: Rulebook | None = None,
    on: date | None = None,
    policy: Named | InForce | None = None,
    *,
    root: Named | None = None,
) -> Audit:
    """Audit a library of any size: rigs are let go once they are judged, and may be judged by several workers.

    Every kind of worker gives the same result, in the same order. `loads` of each file is None; `computed` computes
    them again.

    Args:
        paths: as for `audit`.
        executor: who judges: threads, processes, or the executor of a cluster whose workers see the same files and have
            the same riglint; None judges here. It stays open. A rulebook that a program has changed is judged by here.
        rulebook: as for `audit`.
        on: as for `audit`.
        policy: as for `audit`.
        root: as for `audit`.

    Returns:
        What `audit` returns.

    Raises:
        UnusableError: the policy cannot be used.
        RuleSetError: riglint's own rules did not load whole.
        BrokenExecutor: a worker has ended before it was done.
    """
    book = rulebook or load_rulebook()
    several = [paths] if isinstance(paths, str | Path) else paths
    files = [Path(one).absolute() for one in several]  # a worker may stand in another folder
    return findings.audit(
        files,
        book,
        _day(on),
        root=_path(root),
        force=_force(policy, book),
        keep=nothing,
        workers=executor,
    )


def audit_text(
    text: str,
    rulebook: Rulebook | None = None,
    on: date | None = None,
    policy: Named | InForce | None = None,
    *,
    name: str = "rig.yaml",
    beside: Mapping[str, str] | None = None,
) -> Audit:
    """Audit a rig that no file holds.

    Args:
        text: the rig as YAML.
        rulebook: as for `audit`.
        on: as for `audit`.
        policy: as for `audit`.
        name: how findings name it.
        beside: spots and shelves that it refers to, by the names that it uses for them.

    Returns:
        What `audit` returns.

    Raises:
        UnusableError: the policy cannot be used.
        RuleSetError: riglint's own rules did not load whole.
    """
    book, here = rulebook or load_rulebook(), Path.cwd()
    texts = {here / file: held.encode() for file, held in {**(beside or {}), name: text}.items()}
    force = _force(policy, book)
    return findings.audit([here / name], book, _day(on), root=here, force=force, texts=texts)


def load_rig(
    rig: Named, on: date | None = None, root: Named | None = None, policy: Named | InForce | None = None
) -> Loads:
    """Compute a rig: its states, the force on each part and what each part holds, each when first asked for.

    Args:
        rig: its file.
        on: the day that gear's age is counted to; today unless given.
        root: as for `audit`.
        policy: as for `audit`.

    Returns:
        Its loads; forces in newtons, lengths in metres, as the names say. What the file leaves out and its other values
        tell is written in at its worst end, and named in `path.rig.assumed`.

    Raises:
        UnusableError: the file is no rig, or has problems that leave nothing to compute.
    """
    book = load_rulebook() if policy is not None or _settings_stand_by(Path(rig), root) else Rulebook({})
    settings = settings_of(library_root(Path(rig), _path(root)), book)
    if settings.broken:
        raise UnusableError([problem.in_one_row(path) for path, problem in settings.broken])
    force = settings.with_policy(_force(policy, book))
    loads, problems = findings.load_rig(Path(rig), _day(on), _path(root), force)
    if loads is None:
        raise UnusableError(problems)
    return loads


def load_policy(file: Named, rulebook: Rulebook | None = None) -> InForce:
    """Read a policy: limits, values and words that a club sets otherwise.

    Args:
        file: the policy.
        rulebook: the rules whose limits it names; riglint's own unless given.

    Returns:
        What it puts in force; `changes` names each.

    Raises:
        UnusableError: it cannot be used; each problem in a sentence.
    """
    force, problems = _load_policy(Path(file), rulebook or load_rulebook())
    if force is None:
        raise UnusableError([problem.in_one_row(Path(file).as_posix()) for problem in problems])
    return force


def _force(policy: Named | InForce | None, book: Rulebook) -> InForce | None:
    if policy is None:
        return None
    return policy if isinstance(policy, InForce) else load_policy(policy, book)


def _settings_stand_by(rig: Path, root: Named | None) -> bool:
    """Whether a library may name a policy, which only the rulebook can read."""
    return os.path.lexists(library_root(rig, _path(root)) / MARK)


def _day(on: date | None) -> date:
    return on or date.today()  # noqa: DTZ011 - the day at the tree


def _path(name: Named | None) -> Path | None:
    return None if name is None else Path(name)
