"""A draft in two files: the line, and the gear list that it refers to."""

from __future__ import annotations

import json
import os
import re
from pathlib import Path

PLAIN = re.compile(r"[\w./-]+", re.ASCII)  # a path that YAML reads as it stands


def parted(text: str, draft: Path | None, gear_list: Path) -> tuple[str, str]:
    """Return a draft without its gear, and the gear list that it then refers to.

    Args:
        text: the draft, with its gear inside.
        draft: where the draft will stand; None means the folder in which the call runs.
        gear_list: where the gear list will stand.

    Raises:
        ValueError: the draft has no gear inside.
    """
    lines = text.splitlines()
    if "shelf:" not in lines:
        raise ValueError("this draft has no gear")
    first = lines.index("shelf:")
    last = next(n for n in range(first + 1, len(lines)) if re.match(r"\w", lines[n]))
    opening, *pieces = lines[first + 1 : last]
    head = [line for line in lines[: lines.index("riglint: rig/1")] if line.startswith("#")]
    title = next(line.partition(": ")[2] for line in lines if line.startswith("title: "))
    shelf = [
        f"# Gear for: {title}. Example, not advice.",
        *head[1:],
        "riglint: shelf/1",
        f"title: Gear for {title[:1].lower()}{title[1:]}",
        opening.removeprefix("- "),
        *(line.removeprefix("  ") for line in pieces),
    ]
    there = os.path.relpath(gear_list, draft.parent if draft is not None else Path())
    path = Path(there).as_posix()
    named = path if PLAIN.fullmatch(path) else json.dumps(path, ensure_ascii=False)
    return "\n".join([*lines[:first], f"shelf: [{named}]", *lines[last:]]) + "\n", "\n".join(shelf) + "\n"
