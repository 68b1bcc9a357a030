"""What can be wrong with a file before anything is judged, and where in the file it stands."""

import re
import unicodedata
from collections.abc import Iterable
from typing import NamedTuple

from riglint.records import dataclass

# Characters that a reader cannot see or that end a line in some programs and not in others: control
# characters, the next-line and line and paragraph separators, byte order marks, zero width spaces, marks that
# turn the reading direction, halves of surrogate pairs, and code points that are no characters.
UNSEEN = re.compile(
    "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u200b\u2028\u2029\u202a-\u202e\u2060\u2066-\u2069"
    "\ud800-\udfff\ufeff\ufffe\uffff]"
)
# What programs may leave out when they show a text: Default_Ignorable_Code_Point of the Unicode Standard 15.1
# (DerivedCoreProperties.txt), and the braille pattern without a dot, which is drawn as nothing.
HIDDEN = re.compile(
    "[\u00ad\u034f\u061c\u115f\u1160\u17b4\u17b5\u180b-\u180f\u200b-\u200f\u202a-\u202e\u2060-\u206f\u2800\u3164"
    "\ufe00-\ufe0f\ufeff\uffa0\ufff0-\ufff8\U0001bca0-\U0001bca3\U0001d173-\U0001d17a\U000e0000-\U000e0fff]"
)
LONGEST_SHOWN = 60
MOST_SUGGESTIONS = 20  # in one file; looking for near words in thousands of places takes longer than reading
NUMBER_THEM = "Number the pieces, or list each."


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
    what was meant, where that is plain: the nearest known word, or each reading of a number. It takes the place of
    the key or value that stands there, in its quotes; of `written` with quotes and all, where that is given.
    """

    rule: str
    place: Place
    key: str
    message: str
    do: str
    instead: tuple[str, ...] = ()
    written: str = ""

    def in_one_row(self, path: str) -> str:
        """Return it in one row: the file as it is called, the line, what is wrong and what to do."""
        return f"{path}, line {self.place.line}: {self.message} {self.do}"


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
    if text.isprintable() and not HIDDEN.search(text):
        return text
    return "".join(letter if _is_seen(letter) else by_number(letter) for letter in text)


def one_line(text: str) -> str:
    r"""Return a sentence on one line, with nothing hidden in it, whatever a file has put into it.

    >>> print(one_line("Tail\t0.3\nm"))
    Tail 0.3 m
    """
    if text.isprintable() and not HIDDEN.search(text):
        return text
    return visible(_BLANKS.sub(" ", text))


def command_escaped(text: str, hash_sign: str) -> str:
    """Return a text in which no host of CI takes anything for a command: they look for ##[ and ##vso[ anywhere.

    Args:
        text: a whole report.
        hash_sign: how its form writes a # otherwise.
    """
    return _COMMAND.sub(f"{hash_sign}#".replace("\\", r"\\"), text)


def row_escaped(row: str) -> str:
    r"""Return a row of plain text that no host of CI takes for a command, which begin with :: or hold ##[.

    >>> print(row_escaped("  ::set-output name=x::y"))
      \u003a:set-output name=x::y
    """
    return command_escaped(_COMMAND_ROW.sub(r"\1\\u003a:", row), r"\u0023")


def by_number(letter: str) -> str:
    r"""Return the number of a letter, as Python and JSON write it.

    >>> print(by_number("\u3164"), by_number("\U000e0100"))
    \u3164 \U000e0100
    """
    return f"\\u{ord(letter):04x}" if ord(letter) <= _LAST_OF_FOUR else f"\\U{ord(letter):08x}"


def _is_seen(letter: str) -> bool:
    return (letter.isprintable() or letter in _WIDTHS) and not HIDDEN.match(letter)


_COMMAND = re.compile(r"##(?=\[|vso\[)")
_COMMAND_ROW = re.compile(r"^(\s*)::")
_BLANKS = re.compile(r"[ \t\n\r\f\v]+")
_LAST_OF_FOUR = 0xFFFF  # what four digits can number
_WIDTHS = "\u00a0\u2009\u202f"  # spaces that numbers are written with: no-break, thin, narrow no-break


def a_run_without_numbers(name: str, there: Iterable[str]) -> str:
    """Say that a name is the end of what was meant as a run and counts no numbers; empty where there is none.

    >>> a_run_without_numbers("RB", ["RA to RB"])
    "'RA to RB' is one name there: a run counts numbers, such as RA1 to RA2. Number the pieces, or list each."
    """
    for one in there:
        if name in one.split(" to ") and " to " in one:
            return f"{shown(one)} is one name there: a run counts numbers, such as RA1 to RA2. {NUMBER_THEM}"
    return ""


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
