"""What a document is made of, before it is printed: sections of tables, worked lines and notes."""

from __future__ import annotations

from riglint.loads.inputs import At
from riglint.model.values.sources import MARKS, Source
from riglint.records import dataclass
from riglint.views.figures import fixed, number

STATICS = Source("statics", "own")
GEOMETRY = Source("geometry", "own")


@dataclass(frozen=True, slots=True)
class ReportPlace:
    """A place in the files."""

    path: str
    line: int
    key: str


def place_of(at: At) -> ReportPlace:
    """Return a place as it is written in reports."""
    return ReportPlace(at.path, at.line, at.key_text)


@dataclass(frozen=True, slots=True)
class WorkedInput:
    """One value that goes into a formula."""

    symbol: str
    value: float | str
    unit: str = ""
    words: str = ""  # what it is, or where it stands
    source: Source | None = None  # of a default

    @property
    def text(self) -> str:
        """It in one phrase: `h 0.5 m (policy, common practice)`."""
        value = f"{self.symbol} {number(self.value, 4)} {self.unit}".strip()
        phrases = [self.words] if self.words else []
        if self.source is not None:
            phrases.append(sourced(self.source))
        return f"{value} ({'; '.join(phrases)})" if phrases else value


@dataclass(frozen=True, slots=True)
class Worked:
    """One computed line: what it is, how it is found, with the numbers put in, so that it can be redone by hand."""

    label: str
    words: str
    symbol: str
    formula: str
    working: str  # the formula's right side with the numbers put in; empty where no hand can follow
    value: float | None
    unit: str
    source: Source
    inputs: tuple[WorkedInput, ...] = ()
    digits: int = 2  # after the point
    part: str | None = None

    @property
    def result(self) -> str:
        """The result with its unit."""
        return f"{fixed(self.value, self.digits)} {self.unit}".strip()

    @property
    def calculation(self) -> str:
        """The formula, its numbers and its result in one row."""
        if self.formula == "":
            return f"{self.symbol} = {self.result}"
        steps = [self.formula, *([self.working] if self.working else []), self.result]
        return f"{self.symbol} = {' = '.join(steps)}"


@dataclass(frozen=True, slots=True)
class Column:
    """One column of a table."""

    label: str
    unit: str = ""
    words: str = ""  # for where there is room

    @property
    def heading(self) -> str:
        """The long heading, with the unit."""
        name = self.words or self.label
        return f"{name} [{self.unit}]" if self.unit else name


@dataclass(frozen=True, slots=True)
class Table:
    """A table; its first column is text, the others are figures or single words."""

    columns: tuple[Column, ...]
    rows: tuple[tuple[str, ...], ...]
    caption: str


@dataclass(frozen=True, slots=True)
class Note:
    """A sentence with a word in front of it."""

    label: str
    text: str


Block = Table | Worked | Note


@dataclass(frozen=True, slots=True)
class Section:
    """One part of a document."""

    title: str
    blocks: tuple[Block, ...]

    @property
    def worked(self) -> list[Worked]:
        """Its computed lines."""
        return [block for block in self.blocks if isinstance(block, Worked)]


def sourced(source: Source) -> str:
    """Return a source with its mark in words, said once."""
    mark = MARKS[source.mark]
    return source.text if source.text == mark else f"{source.text} ({mark})"
