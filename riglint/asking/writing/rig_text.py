"""Writes a rig's document as a person would: short, grouped, at most a hundred characters a line."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from typing import Any

WIDEST = 100
LONGEST = 92  # characters of a value that is kept on one line
# Text that needs no quotes: it begins with a letter or a number and holds nothing that YAML could read otherwise.
PLAIN = re.compile(r"(?:[A-Za-zÀ-ž]|[+-]?[0-9])[A-Za-z0-9À-ž _./°%±+()-]*")
QUOTED_WORDS = frozenset({"null", "yes", "no", "on", "off", "-"})
COMMENTS = {
    "spot": "anchor faces, ground and what is around",
    "chain": "every part from near to far, in the order of the load",
    "backups": "what holds when a part fails",
}
WITHOUT_EDGES = 3  # points of a profile: both ends and the middle
STRAIGHT = "  # ground: level from each anchor to its edge, and straight between the heights given"
OPENING = "# Keys left out are assumed, or asked for. A calculation is no inspection: local rules come first."


def rig_text(document: dict[str, Any]) -> str:
    """Return the rig file."""
    first, *rest = document.items()
    lines = [f"{first[0]}: {first[1]}", OPENING]
    for key, value in rest:
        lines += _top(key, value)
    return "\n".join(lines) + "\n"


def _top(key: str, value: Any) -> Iterator[str]:
    comment = f"  # {COMMENTS[key]}" if key in COMMENTS else ""
    if key == "spot":
        yield f"{key}:{comment}"
        yield from _block(value)
    elif key == "shelf" and value and isinstance(value[0], dict):
        yield f"{key}:{comment}"
        yield "  - items:"
        for name, item in value[0]["items"].items():
            yield from _wrapped(f"      {_plain(name)}: ", _pieces(item))
    elif key == "chain":
        yield f"{key}:{comment}"
        yield from _parts(value, "  ")
    elif key == "backups" and value:
        yield f"{key}:{comment}"
        for backup in value:
            first, *rest = (one for one in backup.items() if one[0] != "chain")
            yield from _wrapped("  - ", [f"{first[0]}: {flow(first[1])}"])
            for name, one in rest:
                yield from _wrapped(f"    {name}: ", _pieces(one))
            yield "    chain:"
            yield from _parts(backup["chain"], "      ")
    else:
        yield from _wrapped(f"{key}: ", _pieces(value))


def _block(value: dict[str, Any]) -> Iterator[str]:
    for name, one in value.items():
        if name == "anchors":
            yield "  anchors:"
            for end, anchor in one.items():
                yield from _anchor(end, anchor)
        else:
            if name == "ground" and len(one.get("profile", ())) > WITHOUT_EDGES:
                yield STRAIGHT
            yield from _wrapped(f"  {name}: ", _pieces(one))


def _anchor(end: str, anchor: dict[str, Any]) -> Iterator[str]:
    if "points" not in anchor:
        yield from _wrapped(f"    {end}: ", _pieces(anchor))
        return
    yield f"    {end}:"
    for name, one in anchor.items():
        if name != "points":
            yield f"      {name}: {flow(one)}"
    yield "      points:"
    for name, point in anchor["points"].items():
        yield from _wrapped(f"        {name}: ", _pieces(point))


def _parts(parts: list[Any], indent: str) -> Iterator[str]:
    """Yield the parts of a chain; short ones share a line, one of several lines stands by itself."""
    row = indent + "["
    for n, part in enumerate(parts):
        end = "]" if n == len(parts) - 1 else ","
        text = flow(part) + end
        if len(row) + len(text) + 1 <= WIDEST:
            row += text if row.endswith(("[", indent)) else f" {text}"
            continue
        if row.strip():
            yield row
        row = f"{indent} "
        lines = list(_wrapped(row, _pieces(part)))
        yield from lines[:-1]
        row = lines[-1] + end
    yield row


def flow(value: Any) -> str:
    """Return a value on one line.

    >>> flow({"part": "sling", "gear": "RS-1"})
    '{part: sling, gear: RS-1}'
    """
    if isinstance(value, dict):
        return "{" + ", ".join(f"{key}: {flow(one)}" for key, one in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(flow(one) for one in value) + "]"
    return _plain(str(value))


def _plain(text: str) -> str:
    plain = PLAIN.fullmatch(text) and text == text.strip() and text.lower() not in QUOTED_WORDS
    return text if plain else json.dumps(text, ensure_ascii=False)


def _pieces(value: Any) -> list[str]:
    """Return a value as pieces between which a line may end."""
    if isinstance(value, dict) and value:
        inner = [piece for key, one in value.items() for piece in _keyed(key, one)]
        return ["{" + inner[0], *inner[1:-1], inner[-1] + "}"] if len(inner) > 1 else ["{" + inner[0] + "}"]
    if isinstance(value, list) and value:
        inner = [piece for one in value for piece in _short(one)]
        return ["[" + inner[0], *inner[1:-1], inner[-1] + "]"] if len(inner) > 1 else ["[" + inner[0] + "]"]
    return [flow(value)]


def _keyed(key: str, value: Any) -> list[str]:
    first, *rest = _short(value, len(key) + 2)
    if rest and first.startswith("[{"):  # a list of groups begins on a line of its own
        return [f"{key}:", first, *rest]
    return [f"{key}: {first}", *rest]


def _short(value: Any, before: int = 0) -> list[str]:
    """Return a value whole, or in pieces where it is too long for a line."""
    return [flow(value)] if before + len(flow(value)) <= LONGEST else _pieces(value)


def _wrapped(start: str, pieces: list[str]) -> Iterator[str]:
    """Yield a value after its key, broken between pieces where the line would grow too long."""
    indent = " " * (len(start) - len(start.lstrip()) + (2 if start.strip() else 1))
    line = start + pieces[0]
    for piece in pieces[1:]:
        comma = "" if line.endswith(":") else ","
        if not comma or len(line) + len(piece) + 3 > WIDEST:
            yield line + comma
            line = indent + piece
        else:
            line += ", " + piece
    yield line.rstrip()
