"""What can be wrong with a file before anything is judged, and where in the file it stands."""

import re
from dataclasses import dataclass
from typing import NamedTuple

# Characters that a reader cannot see or that end a line in some programs and not in others: control
# characters, the next-line and line and paragraph separators, byte order marks, zero width spaces, marks that
# turn the reading direction, halves of surrogate pairs, and code points that are no characters.
UNSEEN = re.compile(
    "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u200b\u2028\u2029\u202a-\u202e\u2060\u2066-\u2069"
    "\ud800-\udfff\ufeff\ufffe\uffff]"
)
LONGEST_SHOWN = 60


class Place(NamedTuple):
    """Where something stands in a file: line and column, both counted from 1, columns in characters."""

    line: int
    column: int


@dataclass(frozen=True, slots=True)
class Problem:
    """Something in a file that keeps it from being read or understood.

    `rule` is one of file/readable, file/yaml, file/kind, file/key, file/value, file/unit, file/reference,
    file/duplicate. `key` is the place within the document (`chain[5].length`), empty for the whole file.
    `message` says in one sentence what was read and what was expected, `do` what to write instead.
    """

    rule: str
    place: Place
    key: str
    message: str
    do: str


def key_text(path: tuple[str | int, ...]) -> str:
    """Return a path as people write it: `("chain", 5, "length")` is `chain[5].length`. Ids stay as they are.

    >>> key_text(("chain", 5, "length"))
    'chain[5].length'
    """
    text = ""
    for step in path:
        if isinstance(step, int):
            text += f"[{step}]"
        else:
            text += f".{step}" if text else step
    return text


def shown(text: str) -> str:
    """Return text as it is quoted in a message: on one line, at most 60 characters, nothing unseen.

    >>> shown("82,5 m")
    "'82,5 m'"
    """
    start = " ".join(text[: 4 * LONGEST_SHOWN].split())
    seen = "".join(letter if letter.isprintable() else f"\\u{ord(letter):04x}" for letter in start)
    return f"'{seen if len(seen) <= LONGEST_SHOWN else seen[: LONGEST_SHOWN - 1] + '…'}'"
