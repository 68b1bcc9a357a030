"""What a person calls a part: names in place of the places that a file counts by."""

from __future__ import annotations

import json
import re
from typing import NamedTuple

from riglint.findings import FileResult
from riglint.loadpath.path import LoadPath, NotComputable, Placed, first_up
from riglint.loads import Loads
from riglint.read.problems import key_text

_STEPS = r"(?:(?:\.[a-z_]+)?(?:\[\d+\])+|\.[a-z_]+)*"
_PLACE = re.compile(rf"(?P<at>\bat )?(?<![\w.'\[])(?P<place>(?:backups|chain)\[\d+\]{_STEPS})")
_KNOTS = frozenset({"rope_knot", "webbing_knot"})
_INSIDE = {"strand[0]": "the lead strand"}
_COUNTED = ("first", "second", "third", "fourth", "fifth")


class _Name(NamedTuple):
    """What one part is called."""

    part: str  # its kind
    gear: str | None
    name: str


class PartNames:
    """The names of all parts of one rig."""

    def __init__(self, loads: Loads) -> None:
        backups = loads.backups
        self.backups = len(backups)
        chains = [(loads.path, ""), *((one.path, f" of {self._backup(one.number)}") for one in backups)]
        self.known: dict[str, _Name] = {}
        for path, of in chains:
            for placed in path.everything:
                name = _Name(placed.part.part, placed.part.gear, _named(placed, path, of))
                self.known.setdefault(placed.id, name)
                self.known.setdefault(key_text(placed.key), name)

    def as_text(self) -> str:
        """Return them as one text, which takes little room."""
        return json.dumps([self.backups, self.known], ensure_ascii=False, separators=(",", ":"))

    @classmethod
    def from_text(cls, text: str) -> PartNames:
        """Return the names that a text was made of."""
        names = cls.__new__(cls)
        names.backups, known = json.loads(text)
        names.known = {place: _Name(*name) for place, name in known.items()}
        return names

    def with_names(self, text: str) -> str:
        """Return a sentence with the name of each part in place of its place."""
        return _PLACE.sub(lambda match: self._in_place(match, text), text)

    def name(self, place: str) -> str | None:
        """Return what a part is called; None for what is no part of the rig."""
        held = self._holder(place)
        if held is None:
            number = re.fullmatch(r"backups\[(\d+)\]", place)
            return self._backup(int(number[1])) if number and self.backups else None
        inside = place.removeprefix(held).removeprefix(".")
        name = self.known[held].name
        if not inside:
            return name
        return f"{_INSIDE.get(inside, 'the ' + _words(inside))} of {name}"

    def short(self, place: str) -> str:
        """Return the gear of a part, for a list; else what it is called, else its place."""
        held = self._holder(place)
        gear = self.known[held].gear if held == place and held else None
        return gear or self.name(place) or place

    def _holder(self, place: str) -> str | None:
        """Return the innermost known part that a place lies in."""
        while place and place not in self.known:
            place = re.sub(r"(?:\.?[^.\[\]]+|\[\d+\])$", "", place)
        return place or None

    def _backup(self, number: int) -> str:
        return "the backup" if self.backups == 1 else f"the {_nth(number)} backup"

    def _in_place(self, match: re.Match[str], text: str) -> str:
        place, at = match["place"], match["at"] or ""
        name = self.name(place)
        if name is None:
            return match[0]
        held = self._holder(place)
        if at and held is not None and held == place and self.known[held].part in _KNOTS:
            name = re.sub(r"the (?:rope|webbing) knot at ", "", name)
        begins = not at and (match.start() == 0 or text[: match.start()].endswith(". "))
        return at + (first_up(name) if begins else name)


def says_a_place(text: str) -> bool:
    """Whether a sentence holds the place of a part."""
    return _PLACE.search(text) is not None


def names_of(result: FileResult) -> PartNames | None:
    """Return the names of a rig's parts; None of a file that is no rig, or could not be read as one."""
    kept = getattr(result.kept, "names", "")
    if kept:
        return PartNames.from_text(kept)
    loads = result.computed
    return PartNames(loads) if loads is not None else None


def _nth(number: int) -> str:
    return _COUNTED[number] if number < len(_COUNTED) else f"{number + 1}th"


def _words(inside: str) -> str:
    """Return the steps inside a part as words: `multiplier.grip` is the grip of the multiplier."""
    steps = [re.sub(r"\[(\d+)\]", lambda n: f" {int(n[1]) + 1}", step) for step in inside.split(".")]
    return " of the ".join(step.replace("_", " ").strip() for step in reversed(steps))


def _named(placed: Placed, path: LoadPath, of: str) -> str:
    """Return the kind and gear of a part, or its kind and the end where it is."""
    kind = "pulley system" if placed.part.part == "haul" else placed.part.part.replace("_", " ")
    if placed.part.gear:
        return f"{kind} {placed.part.gear}"
    if placed.part.part in {"haul", "webbing", "rope"}:
        return f"the {kind}{of}"
    try:
        anchor = path.anchor_of(placed).part.at
    except NotComputable:
        anchor = None
    between = path.side(placed) == "between"
    if between or anchor is None:
        return f"the {kind}{of} (part {path.number(placed) + 1} of {len(path.parts)})"
    return f"the {kind} at the {anchor} end{of}"
