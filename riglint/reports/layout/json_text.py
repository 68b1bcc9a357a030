"""JSON as reports print it: letters that cannot be seen stand by their number, and read back as what they are."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Iterator
from textwrap import indent
from typing import Any

from riglint.read.problems import HIDDEN, UNSEEN, command_escaped

_RAW = re.compile(f"{HIDDEN.pattern}|{UNSEEN.pattern}")


def six_digits(value: float | None) -> float | None:
    """Return a figure as far as anybody reads it; None for what is not known."""
    return None if value is None else float(f"{value:.6g}")


def json_text(data: Any) -> str:
    """Return data as JSON, one value a line."""
    return _shown(json.dumps(data, indent=1, ensure_ascii=False) + "\n")


def json_pieces(
    before: dict[str, Any], name: str, rows: Iterable[Any], after: dict[str, Any]
) -> Iterator[str]:
    """Yield the JSON of one object in which a long list stands between other keys, row by row."""
    yield _shown(_dumped(before).removesuffix("\n}") + f',\n "{name}": [')
    between = ""
    for row in rows:
        yield _shown(f"{between}\n" + indent(_dumped(row), "  "))
        between = ","
    closed = "\n ]" if between else "]"
    yield _shown(closed + "," + _dumped(after).removeprefix("{") + "\n")


def _dumped(data: Any) -> str:
    return json.dumps(data, indent=1, ensure_ascii=False)


def _shown(text: str) -> str:
    return command_escaped(_RAW.sub(lambda found: json.dumps(found[0])[1:-1], text), r"\u0023")
