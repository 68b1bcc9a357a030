"""Slips of the hand in the example library: the message says what to write, and written so the place is right.

Which slip, in which file and at which letter is drawn by a fixed seed. Each file is read as if it stood in its library.
"""

import random
import re
from collections import Counter
from collections.abc import Callable
from pathlib import Path

import pytest

from riglint.model.library import Library
from riglint.model.references import resolve
from riglint.read.problems import Problem

EXAMPLES = Path(__file__).parents[2] / "examples"
FILES = sorted(
    path
    for path in EXAMPLES.rglob("*.yaml")
    if re.match(r"riglint: (rig|spot|shelf)/1", path.read_text(encoding="utf-8"))
)
COUNT = 200
NAMED = (
    0.97  # of the slips have a fix that the message names; of the others only the writer knows what was meant
)
UNITS = {
    "kN": ("kn", "KN", "Kn", "kilonewton", "kN."),
    "m": ("M", "meter", "metre", "mtr", "meters"),
    "mm": ("MM", "millimeter", "mms"),
    "cm": ("CM", "centimeter", "cms"),
    "kg": ("KG", "Kg", "kilo", "kgs"),
    "km/h": ("kmh", "kph", "km/hr", "Km/h"),
    "deg": ("degree", "degrees", "degs"),
    "%": ("percent", "pct"),
    "g/m": ("gr/m", "g/M", "gram/m"),
}
Draw = random.Random
Slip = tuple[re.Pattern[str], Callable[[re.Match[str], Draw], str]]


def misspelt(found: re.Match[str], draw: Draw) -> str:
    """Return a word with one letter left out, doubled, exchanged with the next or hit beside; or another dash."""
    word = found[0]
    n = draw.randrange(1, len(word) - 1)
    beside = chr((ord(word[n]) - ord("a") + 1) % 26 + ord("a")) if word[n] != "_" else "-"
    return draw.choice(
        (
            word[:n] + word[n + 1 :],
            word[:n] + word[n] + word[n:],
            word[:n] + word[n + 1] + word[n] + word[n + 2 :],
            word[:n] + beside + word[n + 1 :],
            word.replace("_", "-") if "_" in word else word.capitalize(),
        )
    )


QUANTITY = re.compile(r"(?<![\w.\"-])(\d+(?:\.\d+)?) (kN|mm|cm|kg|km/h|deg|%|g/m|m)(?![\w/])")
SLIPS: dict[str, Slip] = {
    "unit": (QUANTITY, lambda found, draw: f"{found[1]} {draw.choice(UNITS[found[2]])}"),
    "no unit": (QUANTITY, lambda found, _: found[1]),
    "comma": (
        re.compile(r"(?<=: )\d+\.\d+ (?:kN|mm|cm|kg|m)(?=[,}\n])"),
        lambda found, _: found[0].replace(".", ","),
    ),
    "key": (re.compile(r"(?<![\w\"])[a-z_]{4,}(?=: )"), misspelt),
    "word": (re.compile(r"(?<=: )[a-z_]{4,}(?=[,}\]\n])"), misspelt),
    "yes": (
        re.compile(r"(?<=: )(?:true|false)(?=[,}\n])"),
        lambda found, draw: draw.choice(
            ("yes", "on", "ture", "y") if found[0] == "true" else ("no", "off", "flase")
        ),
    ),
}


def problems_of(file: Path, text: str) -> list[Problem]:
    library = Library(EXAMPLES)
    loaded = library.take(file, text.encode())
    found = list(loaded.problems)
    if loaded.kind == "rig":
        found += [one for one in resolve(library, file)[1] if one not in found]
    return found


def slipped(text: str, kind: str, draw: Draw) -> tuple[str, int] | None:
    """Return a text with a slip, and its line; None where there is nothing to slip on."""
    pattern, wrong = SLIPS[kind]
    for_people = re.compile(r"\s*(?:#|- title|title|note|riglint)")
    before = {one: text[text.rfind("\n", 0, one.start()) + 1 : one.start()] for one in pattern.finditer(text)}
    found = [
        one for one, words in before.items() if "#" not in words and not for_people.match(words or one[0])
    ]
    if not found:
        return None
    one = draw.choice(found)
    new = wrong(one, draw)
    line = text.count("\n", 0, one.start()) + 1
    return (text[: one.start()] + new + text[one.end() :], line) if new != one[0] else None


def named(problem: Problem) -> str | None:
    """Return what a message says to write; None where only the writer knows it."""
    if len(problem.instead) == 1:
        return problem.instead[0]
    for form in (
        r"Write `(\S+)` if you mean that",
        r"Write the nearest name there, ([^,]+),",
        r"behind it: (\S+ \S+?)(?: or|\.)",
        r"such as (\d\S* \S+?)\.(?:\s|$)",
        r"Write ([^ .]\S*(?: \S+){0,4}?)(?:, with|, without| or |\.(?:\s|$))",
    ):
        if found := re.search(form, problem.do):
            return found[1] if found[1] != "true or false" else None
    return None


def put_right(text: str, problem: Problem) -> str | None:
    """Return a text with what a message says written where it stands; None where it names nothing."""
    right = named(problem)
    if right is None:
        return None
    lines = text.splitlines(keepends=True)
    at = sum(map(len, lines[: problem.place.line - 1])) + problem.place.column - 1
    rest = text[at:]
    quoted = sorted(re.findall(r"'([^']+)'", problem.message), key=len, reverse=True)
    if row := re.match(r"In the row '([^']+)': ", problem.message):  # the place is that of the whole table
        said = re.findall(r"'([^']+)'", problem.message)[-1]
        old, new = (said, right) if said == row[1] else (f"{row[1]}: {said}", f"{row[1]}: {right}")
        return text[:at] + rest.replace(
            f"{old}:" if said == row[1] else old, f"{new}:" if said == row[1] else new, 1
        )
    value = re.match(r"\d+,\d+ ?\w*" if "comma" in problem.message else r"[^,}\]\n#]*", rest)
    whole = value[0].rstrip() if value else ""
    here = (
        whole if "±" in right or "comma" in problem.message else next(filter(rest.startswith, quoted), whole)
    )
    return text[:at] + right + rest[len(here) :]


@pytest.mark.parametrize("kind", SLIPS)
def test_written_as_the_message_says_the_place_is_right(kind: str) -> None:
    draw, counted, wrong = Draw(f"slips of {kind}"), Counter[str](), []
    while sum(counted.values()) < COUNT / len(SLIPS):
        file = draw.choice(FILES)
        slip = slipped(file.read_text(encoding="utf-8"), kind, draw)
        if slip is None:
            continue
        text, line = slip
        problems = problems_of(file, text)
        if not problems:  # another word that may stand there, or a name
            continue
        problem = next((one for one in problems if one.place.line == line), problems[0])
        mended = put_right(text, problem)
        counted["named" if mended else "not named"] += 1
        again = problems_of(file, mended) if mended else []
        wrong += [
            f"{file.name}, {problem.message} {problem.do} Then: {one.key}: {one.message}" for one in again
        ]
    assert wrong == []
    assert counted["named"] >= NAMED * sum(counted.values()), counted
