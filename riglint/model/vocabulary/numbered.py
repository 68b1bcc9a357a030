"""Names of gear in a list that stays short: those that count on are one entry."""

from __future__ import annotations

import re
from collections.abc import Iterable

LEAST_RUN = 3  # names that count on; two are no shorter as a run
_ENDS_IN_NUMBER = re.compile(r"(.*?)([1-9]\d{0,5})", re.DOTALL)


def numbered(names: Iterable[str]) -> str:
    """Return names as a list, such as `QL-1 to QL-4, SH-2`."""
    runs: list[list[str]] = []
    for name in sorted(names, key=_stem_and_number):
        if runs and _counts_on(runs[-1][-1], name):
            runs[-1].append(name)
        else:
            runs.append([name])
    return ", ".join(f"{run[0]} to {run[-1]}" if len(run) >= LEAST_RUN else ", ".join(run) for run in runs)


def _counts_on(before: str, name: str) -> bool:
    (stem, number), (other, next_number) = _stem_and_number(before), _stem_and_number(name)
    return stem == other and number > 0 and next_number == number + 1


def _stem_and_number(name: str) -> tuple[str, int]:
    """Return a name in two; one that ends in no number, or in one with a zero before it, is all stem."""
    found = _ENDS_IN_NUMBER.fullmatch(name)
    return (found[1], int(found[2])) if found and not found[1].endswith("0") else (name, 0)
