"""The works that numbers and rules rest on, by the ids with which sources name them; see `bibliography.toml`."""

from __future__ import annotations

import tomllib
from functools import cache
from pathlib import Path
from typing import Literal, NamedTuple

FILE = Path(__file__).with_name("bibliography.toml")
SEEN = {"read": "read", "quoted": "quoted by another work", "memory": "from memory, not read again"}


class Work(NamedTuple):
    """One book, standard, law or paper."""

    id: str
    title: str
    publisher: str
    year: int | str  # `n.d.` where none is printed
    kind: Literal["published", "standard"]
    seen: Literal["read", "quoted", "memory"]
    page: str = ""
    by: str = ""  # of a quoted work: who quotes it

    @property
    def words(self) -> str:
        """The work as a list of references prints it."""
        page = f", {self.page}" if self.page else ""
        by = f": {self.by}" if self.by else ""
        return f"{self.title}. {self.publisher}, {self.year}{page}. {SEEN[self.seen].capitalize()}{by}."


@cache
def works() -> dict[str, Work]:
    """Return every work by its id.

    Raises:
        TypeError: an entry has a key that works do not have, or lacks one.
    """
    entries = tomllib.loads(FILE.read_text(encoding="utf-8"))
    return {name: Work(name, **entry) for name, entry in entries.items()}
