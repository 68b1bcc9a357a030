"""A draft with its invented values: each blank takes the one behind the # on its line, or above it."""

from __future__ import annotations

import re

DATES = {"made": "2024-03", "inspected": "2026-04-02"}  # as the head of the gear shows them
BLANK = re.compile(r"([\w.]+):(?=\s*(?:[,}\]]|#|$))")
GROUP = re.compile(r"[\w ]+: *|- items: *")  # holds the lines below it


def filled_in(text: str) -> str:
    """Return a draft with every blank filled in.

    Raises:
        ValueError: a blank has no value to show, or a value no blank.
    """
    above: list[str] = []
    left: list[str] = []
    filled = []
    for line in text.splitlines():
        body, _, comment = line.partition("#")
        if not body.strip():
            above, left = examples_of(comment), []
        elif blanks_of(line):
            left = left or list(above)
            body = _filled(body, examples_of(comment) if comment else left, whole=bool(comment))
        filled.append(body.rstrip())
    return "\n".join(filled) + "\n"


def blanks_of(line: str) -> list[str]:
    """Return the keys of a line that wait for a value.

    >>> blanks_of("near: {kind: tree, species: , girth: } # oak, 140 cm")
    ['species', 'girth']
    """
    body, _, comment = line.partition("#")
    if GROUP.fullmatch(body.rstrip()) and (not comment or "such as" in comment):
        return []
    return BLANK.findall(body)


def examples_of(comment: str) -> list[str]:
    """Return the values in a comment, up to an explanation in brackets; commas inside groups part nothing."""
    values, depth = [""], 0
    for letter in comment.partition(" (")[0]:
        depth += (letter in "[{") - (letter in "]}")
        if letter == "," and not depth:
            values.append("")
        else:
            values[-1] += letter
    return [one.strip() for one in values if one.strip()]


def _filled(body: str, values: list[str], *, whole: bool) -> str:
    """Return a line with its blanks filled in; `whole` says that the values are for this line alone."""

    def value(blank: re.Match[str]) -> str:
        key = blank[1]
        if key in DATES:
            return f"{key}: {DATES[key]}"
        if not values:
            raise ValueError(f"{key} has no value to show")
        return f"{key}: {values.pop(0)}"

    found = BLANK.sub(value, body)
    if whole and values:
        raise ValueError(f"values without a blank: {values}")
    return found
