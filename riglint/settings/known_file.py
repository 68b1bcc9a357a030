"""The findings that a library has known for a while, as their file lists them."""

from __future__ import annotations

from hashlib import sha256
from pathlib import Path

from riglint.model.documents.known_file import KnownFile, KnownRow
from riglint.read.document import Document
from riglint.read.library import read_bytes
from riglint.read.problems import Place, Problem, shown
from riglint.read.spelling import nearest
from riglint.records import dataclass
from riglint.rulebook import Rulebook
from riglint.settings.reading import understood


@dataclass(frozen=True, slots=True)
class Known:
    """The findings that a file lists, each with its place in that file."""

    path: str | None = None
    sha256: str = ""
    rows: tuple[tuple[KnownRow, Place], ...] = ()


NOTHING_KNOWN = Known()


def load_known(
    file: Path, path: str, book: Rulebook, held: bytes | None = None
) -> tuple[Known, list[Problem]]:
    """Return what a file of known findings lists, or every problem with it.

    Args:
        file: the file.
        path: how it is named to people.
        book: the rules that its entries name.
        held: its text, where it is not taken from the disk.
    """
    raw, problems = (held, []) if held is not None else read_bytes(file)
    if raw is None:
        return NOTHING_KNOWN, problems
    document, form, problems = understood(raw, path, KnownFile, "known")
    if document is None or form is None:
        return NOTHING_KNOWN, problems
    wrong = [one for n, row in enumerate(form.known) for one in _wrong(document, n, row, book)]
    if wrong:
        return NOTHING_KNOWN, wrong
    places = [document.place(("known", n)) for n in range(len(form.known))]
    return Known(path, sha256(raw).hexdigest(), tuple(zip(form.known, places, strict=True))), []


def _wrong(document: Document, n: int, row: KnownRow, book: Rulebook) -> list[Problem]:
    """Return what is wrong with one entry."""
    found = []
    if row.rule not in book.rules:
        guess = nearest(row.rule, book.rules)
        do = f"Write `{guess}` if you mean that." if guess else "`riglint rulebook` lists all rules."
        found.append(("rule", f"There is no rule {shown(row.rule)}.", do, (guess,) if guess else ()))
    if row.until < row.since:
        do = "Correct the dates."
        found.append(("until", f"The entry ends on {row.until}, before it begins on {row.since}.", do, ()))
    return [
        Problem("file/value", document.place(("known", n, key)), f"known[{n}].{key}", message, do, instead)
        for key, message, do, instead in found
    ]
