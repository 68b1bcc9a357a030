"""Where a number comes from, and how far that may be trusted."""

from typing import Literal, NamedTuple

Mark = Literal["published", "standard", "unnamed", "practice", "memory", "own"]

MARKS: dict[Mark, str] = {
    "published": "read in a published document",
    "standard": "read in a standard or a summary of it",
    "unnamed": "read in a document whose title is not on record",
    "practice": "common practice, no source",
    "memory": "from memory, not checked against the document",
    "own": "worked out here",
}


class Source(NamedTuple):
    """One source: what it is, in a few words, its mark, and the works in `bibliography.toml` that it stands in."""

    text: str
    mark: Mark
    works: tuple[str, ...] = ()


PRACTICE = Source("common practice, no source", "practice")
OWN = Source("worked out here", "own")
