"""Which parts of a rig come from a kit of a gear list."""

from __future__ import annotations

from itertools import groupby

from riglint.model.library import RigFile
from riglint.read.document import Origin, Path


def from_kits(rig: RigFile) -> list[str]:
    """Return one sentence for each kit that the rig calls, in the order of its parts."""
    origins = sorted(
        rig.document.origins.items(), key=lambda one: (*map(str, one[0][:-1]), f"{one[0][-1]:05}")
    )
    return [_told([*parts]) for _, parts in groupby(origins, _call)]


def _call(part: tuple[Path, Origin]) -> tuple[Path, str, int, int]:
    key, origin = part
    return key[:-1], origin.name, origin.called_at.line, origin.called_at.column


def _told(parts: list[tuple[Path, Origin]]) -> str:
    (key, origin), (last, _) = parts[0], parts[-1]
    first, to = int(key[-1]) + 1, int(last[-1]) + 1
    counted = f"part {first}" if first == to else f"parts {first} to {to}"
    of = " of the backup" if key[0] == "backups" else "" if len(key) == 2 else " of a leg"  # noqa: PLR2004 - chain and number
    line = origin.document.place(origin.key).line
    return f"{counted}{of}: kit {origin.name}, {origin.document.path}:{line}"
