"""Bytes to text, or the place of what keeps them from being text."""

import codecs
import re
from itertools import islice

from riglint.read.problems import LONGEST_SHOWN, UNSEEN, Place, Problem, shown

MAX_BYTES = 2_000_000
MOST_UNSEEN = 20  # one file that is no text would otherwise fill the report

_UTF_8 = "Save the file as UTF-8 (most editors ask for the encoding under Save as)."
_NAMES = {
    "\ufeff": "a byte order mark, which belongs at the start of a file",
    "\x85": "a line end of old mainframes (U+0085), which other programs do not see",
    "\u2028": "a line separator (U+2028), which some programs take for a line end and others do not",
    "\u2029": "a paragraph separator (U+2029), which some programs take for a line end and others do not",
}


def decoded(raw: bytes) -> tuple[str | None, list[Problem]]:
    """Return the text of a file without its byte order mark, and each unseen character as a problem.

    The text is None where there is none: more than 2 MB, or bytes that are not UTF-8.
    """
    if len(raw) > MAX_BYTES:
        message = f"The file is larger than {MAX_BYTES // 1000000} MB. A rig is a few kB."
        return None, [_unreadable(Place(1, 1), message, "Split it, or name the right file.")]
    if raw.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)) or b"\x00" in raw[:4]:
        return None, [
            _unreadable(Place(1, 1), "The file is saved as UTF-16 or UTF-32, or is not text.", _UTF_8)
        ]
    try:
        text = raw.removeprefix(codecs.BOM_UTF8).decode()
    except UnicodeDecodeError as error:
        before = error.object[: error.start].decode()
        message = (
            f"{_after(before)} stands the byte 0x{error.object[error.start]:02X}, which is not UTF-8 text."
        )
        return None, [_unreadable(_end(before), message, _UTF_8)]
    return text, [_unseen(text, found.start()) for found in islice(UNSEEN.finditer(text), MOST_UNSEEN)]


def _end(text: str) -> Place:
    """Return the place right after the text. A line ends with LF, CR LF or CR."""
    lines = text.replace("\r\n", "\n").replace("\r", "\n")
    return Place(lines.count("\n") + 1, len(lines) - lines.rfind("\n"))


def _unseen(text: str, at: int) -> Problem:
    character = text[at]
    what = _NAMES.get(character, f"a character that cannot be seen (U+{ord(character):04X})")
    message = f"{_after(text[:at])} stands {what}."
    return _unreadable(_end(text[:at]), message, "Delete it, and type the line again if need be.")


def _after(text: str) -> str:
    """Say where on its line something stands that cannot be pointed at."""
    before = re.split(r"[\r\n]", text[-LONGEST_SHOWN:])[-1]
    return f"After {shown(before)}" if before.strip() else "Where the line begins"


def _unreadable(place: Place, message: str, do: str) -> Problem:
    return Problem("file/readable", place, "", message, do)
