"""The file that a signed card saves: its `checks`, each with role, day and tension."""

from __future__ import annotations

import re
from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

from riglint.cli.call.stopping import CALL_WRONG, StopError
from riglint.read.problems import visible
from riglint.read.quantity import QuantityError, parse_quantity
from riglint.read.yaml_text import read_yaml

if TYPE_CHECKING:
    from riglint.findings.ticking import Box, Signed

ROLE = re.compile(r"[A-Za-zÀ-ž][A-Za-z0-9À-ž ._-]{0,60}")


class SignedCard(NamedTuple):
    """What a card says, by the name of each check."""

    checks: dict[str, Signed]
    fingerprint: str | None  # of the files that the card was made from

    def ticks(self, open_boxes: Sequence[Box]) -> tuple[list[tuple[Box, Signed]], list[str]]:
        """Return the boxes that it ticks whole, and the names that no such box has."""
        done = [(box, self.checks[box.names[0]]) for box in open_boxes if self.checks.keys() >= {*box.names}]
        used = {name for box, _ in done for name in box.names}
        return done, [name for name in self.checks if name not in used]


def signed_card(file: Path, raw: bytes, on: date) -> SignedCard:
    """Return what the file of a signed card says; `on` is the last day that a check may have.

    Raises:
        StopError: it is no such file, or an entry lacks something; one sentence.
    """
    document, problems = read_yaml(raw, file.as_posix())
    for problem in problems:
        raise StopError(f"{problem.in_one_row(file.as_posix())} Nothing was written.", CALL_WRONG)
    entries = document.data.get("checks") if document is not None else None
    if not isinstance(entries, list) or not entries:
        raise StopError(f"{file} has no entries under `checks`. Nothing was written.", CALL_WRONG)
    checks = dict(_check(file, n, one, on) for n, one in enumerate(entries, 1))
    prints = [str(one["fingerprint"]) for one in entries if isinstance(one, dict) and one.get("fingerprint")]
    return SignedCard(checks, prints[-1] if prints else None)


def _check(file: Path, n: int, entry: Any, on: date) -> tuple[str, Signed]:
    """Return one entry: what it names, and who signed it."""
    from riglint.findings.ticking import Signed  # noqa: PLC0415 - only a call with a card pays for it

    said = {key: str(one) for key, one in entry.items() if one is not None} if isinstance(entry, dict) else {}
    by, day, tension = said.get("by", ""), _day(said.get("date", "")), said.get("after_tension", "")
    wrong = wrong_tension(tension)
    if not said.get("what"):
        wrong = "It doesn't say what was checked."
    elif not ROLE.fullmatch(by):
        wrong = f"'{visible(by)}' can't be a role. Write words such as rigger ab."
    elif day is None or day > on:
        wrong = f"'{visible(said.get('date', ''))}' is no day up to {on}. Write it such as {on}."
    if wrong:
        raise StopError(f"{file}, entry {n} of `checks`: {wrong} Nothing was written.", CALL_WRONG)
    return said["what"], Signed(by, day or on, tension or None)


def _day(text: str) -> date | None:
    try:
        return date.fromisoformat(text)
    except ValueError:
        return None


def wrong_tension(text: str) -> str:
    """Return what is wrong with a tension as somebody typed it; nothing where it is right or left out."""
    try:
        if text:
            parse_quantity(text, "force")
    except QuantityError as error:
        return f"{error.message} {error.do}"
    return ""
