"""The part of a rig file that differs from another, in its context, as a person would write it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from difflib import SequenceMatcher
from typing import Any

from riglint.reports.rules.rule_words import flow

LONGEST = 96  # characters of a value on one line
# What tells a reader which part, gear or structure it is.
NAMES = ("part", "kind", "gear", "at")


def snippet(old: Any, new: Any) -> str:
    """Return what stands otherwise in `new` than in `old`, with the keys above it and the names of its parts.

    >>> print(snippet({"chain": [{"part": "webbing", "cut": "20 m"}]}, {"chain": [{"part": "webbing", "cut": "9 m"}]}))
    chain:
      - part: webbing  # chain[0]
        cut: 9 m
    """
    return "\n".join(_group(old, new, ""))


def _group(old: dict[str, Any], new: dict[str, Any], way: str) -> Iterator[str]:
    """Yield the lines of keys that differ; of the others only those that say what this is."""
    for key in [*new, *(one for one in old if one not in new)]:
        here = f"{way}.{key}" if way else key
        if key not in new:
            yield f"# no {key}"
        elif key not in old:
            yield from _whole(key, new[key])
        elif old[key] == new[key]:
            yield from (_whole(key, new[key]) if key in NAMES and _is_short(new[key]) else ())
        elif isinstance(old[key], dict) and isinstance(new[key], dict):
            yield f"{key}:"
            yield from _indented(_group(old[key], new[key], here))
        elif _of_groups(old[key]) and _of_groups(new[key]):
            yield f"{key}:"
            yield from _indented(_list(old[key], new[key], here))
        else:
            yield from _whole(key, new[key])


def _list(old: list[Any], new: list[Any], way: str) -> Iterator[str]:
    """Yield the entries that differ, each with its number."""
    # Two entries are alike enough to be compared key by key where they are of the same name.
    matcher = SequenceMatcher(None, [flow(one) for one in old], [flow(one) for one in new], autojunk=False)
    for what, i, i_end, j, j_end in matcher.get_opcodes():
        if what == "equal":
            continue
        pairs = list(zip(range(i, i_end), range(j, j_end), strict=False)) if what == "replace" else []
        for m, n in pairs:
            yield from _entry(list(_group(old[m], new[n], f"{way}[{n}]")), f"{way}[{n}]")
        for n in range(j + len(pairs), j_end):
            yield from _entry(list(_group({}, new[n], f"{way}[{n}]")), f"{way}[{n}]")
        for m in range(i + len(pairs), i_end):
            yield f"# no {flow(old[m]) if len(flow(old[m])) < LONGEST else _name(old[m])}"


def _entry(lines: list[str], place: str) -> Iterator[str]:
    first, *rest = lines
    if first.startswith("#") or first.endswith(":"):
        yield f"# {place}"
    else:
        first = f"{first}  # {place}"
    yield f"- {first}"
    yield from _indented(rest)


def _whole(key: str, value: Any) -> Iterator[str]:
    """Yield a key with its value: on one line where it fits."""
    text = flow(value)
    if _is_short(value) or not isinstance(value, dict | list):
        yield f"{key}: {text}"
    elif isinstance(value, dict):
        yield f"{key}:"
        yield from _indented(line for name, one in value.items() for line in _whole(name, one))
    else:
        yield f"{key}:"
        yield from _indented(f"- {flow(one)}" for one in value)


def _is_short(value: Any) -> bool:
    return len(flow(value)) <= LONGEST


def _name(value: Any) -> str:
    return flow({key: value[key] for key in NAMES if key in value})


def _of_groups(value: Any) -> bool:
    return isinstance(value, list) and bool(value) and all(isinstance(one, dict) for one in value)


def _indented(lines: Iterable[str]) -> Iterator[str]:
    yield from (f"  {line}" for line in lines)
