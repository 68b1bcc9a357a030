"""What can be wrong with a file before anything is judged, and where in the file it stands."""

import re
import unicodedata
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
MOST_SUGGESTIONS = 20  # in one file; looking for near words in thousands of places takes longer than reading


class Place(NamedTuple):
    """Where something stands in a file: line and column, both counted from 1, columns in characters."""

    line: int
    column: int


@dataclass(frozen=True, slots=True)
class Problem:
    """Something in a file that keeps it from being read or understood.

    `rule` is one of file/readable, file/yaml, file/kind, file/key, file/value, file/unit, file/reference,
    file/duplicate. `key` is the place within the document (`chain[5].length`), empty for the whole file.
    `message` says in one sentence what was read and what was expected, `do` what to write instead. `instead` is
    the nearest known word, where the word that stands at the place is misspelt.
    """

    rule: str
    place: Place
    key: str
    message: str
    do: str
    instead: str | None = None


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
    seen = visible(" ".join(text[: 4 * LONGEST_SHOWN].split()))
    return f"'{seen if len(seen) <= LONGEST_SHOWN else seen[: LONGEST_SHOWN - 1] + '…'}'"


def visible(text: str) -> str:
    r"""Return text in which nothing is hidden and nothing can steer a terminal.

    >>> print(visible("SH\x1b[31m-1"))
    SH\u001b[31m-1
    """
    if text.isprintable():
        return text
    return "".join(
        letter if letter.isprintable() or letter in _WIDTHS else f"\\u{ord(letter):04x}" for letter in text
    )


_WIDTHS = "\u00a0\u2009\u202f"  # spaces that numbers are written with: no-break, thin, narrow no-break


def odd_letters(written: str, meant: str) -> str:
    """Say which letters outside the plain alphabet a name holds where its near namesake does not.

    Letters of two scripts, or of two ways to write an accent, can look the same.

    >>> odd_letters("b\u0430rn", "barn")
    " The name written here holds '\u0430' (CYRILLIC SMALL LETTER A)."
    """
    odd = dict.fromkeys(letter for letter in written if not letter.isascii() and letter not in meant)
    if not odd:
        return ""
    named = [
        f"{shown(letter)} ({unicodedata.name(letter, f'U+{ord(letter):04X}')})" for letter in list(odd)[:3]
    ]
    return f" The name written here holds {', '.join(named)}."
