"""Where the paths in reports start, so that two files of one name in two libraries differ."""

from collections.abc import Iterable
from pathlib import Path

from riglint.read.library import real
from riglint.read.repository.foreign_folders import repository_of


def paths_start(roots: Iterable[Path]) -> Path:
    """Return the folder that the paths of these libraries start at, links resolved.

    It is the top of the repository around them. Without one it is the working folder where the library lies in it,
    else the top of the library. Where libraries start at different places, it is the one that holds all of them,
    else the working folder: what lies outside is then called by its whole path.

    Args:
        roots: where libraries begin, links resolved.
    """
    here = _here()
    starts = {_start(root, here) for root in roots}
    around = [one for one in starts if all(other.is_relative_to(one) for other in starts)]
    return around[0] if around else here or Path("/")


def _start(root: Path, here: Path | None) -> Path:
    top = repository_of(root)
    if top is not None:
        return top
    return here if here is not None and root.is_relative_to(here) else root


def _here() -> Path | None:
    """Return the working folder; None where somebody has deleted it."""
    try:
        return real(Path())
    except OSError:
        return None
