"""The names that a document can refer to: gear, kits, anchors, bolts, lines, and the files of its library."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

from riglint.editor.half_written import read_loosely
from riglint.editor.open_files import kind_said
from riglint.model.documents.own_names import LINES
from riglint.model.documents.ranges import MOST, RANGE, names_of
from riglint.model.load import Key
from riglint.model.reference_path import wrong_path
from riglint.model.references import LEASH_RINGS, LEASHES
from riglint.model.vocabulary import kinds
from riglint.read.file_names import YAML
from riglint.read.library import inside
from riglint.records import dataclass

MOST_FILES = 300  # of a library that are looked at for their kind
ROUND = ("trunk", "ring")  # what a sling goes round beside what has a name

Texts = Callable[[Path], str]


@dataclass(frozen=True, slots=True)
class NamedThing:
    """A name that may be written, and what it names, in words."""

    name: str
    about: str
    kind: str = ""  # of gear


class NamesHere:
    """What one document can refer to, read as it stands in the editor, however far it has come."""

    def __init__(self, data: Any, file: Path, root: Path, text: Texts) -> None:
        self.data = data if isinstance(data, dict) else {}
        self.file, self.root, self._text = file, root, text

    def gear(self) -> list[NamedThing]:
        """Return the pieces of every gear list, each with its kind and what is on its label."""
        found: dict[str, NamedThing] = {}
        for shelf in self._shelves():
            for name, piece in _entries(shelf.get("items")):
                found.setdefault(name, _piece(name, piece))
        return list(found.values())

    def kits(self) -> list[NamedThing]:
        """Return the kits of every gear list."""
        found = [kit for shelf in self._shelves() for kit in _group(shelf.get("kits"))]
        return [NamedThing(name, "kit of a gear list") for name in dict.fromkeys(found)]

    def anchors(self) -> list[NamedThing]:
        """Return the anchors of the spot."""
        return [NamedThing(name, _anchor(one)) for name, one in _group(self._spot().get("anchors")).items()]

    def bolts(self) -> list[NamedThing]:
        """Return the bolts of the spot's anchors."""
        rock = _group(self._spot().get("anchors"))
        points = (
            (anchor, name) for anchor, one in rock.items() for name, _ in _entries(_group(one).get("points"))
        )
        return [NamedThing(name, f"bolt of {anchor}") for anchor, name in points]

    def lines(self) -> list[NamedThing]:
        """Return the lines of the rig: the main one, all backups together, and each backup."""
        backups = [f"backups[{n}]" for n, _ in enumerate(_list(self.data.get("backups")))]
        about = {"main": "the line itself", "backup": "all backups together"}
        return [NamedThing(one, about.get(one, "one backup")) for one in (*LINES, *backups)]

    def parts(self) -> list[NamedThing]:
        """Return the ids of the parts."""
        parts = [part for part in _list(self.data.get("chain")) if isinstance(part, dict) and part.get("id")]
        return [NamedThing(str(part["id"]), f"{part.get('part', 'part')} of the chain") for part in parts]

    def files(self, kind: str) -> list[NamedThing]:
        """Return the files of a kind in the library, as this document would write them."""
        found = []
        for file in _yaml_below(self.root):
            if file != self.file and kind_said(self._text(file)) == kind:
                path = Path(os.path.relpath(file, self.file.parent)).as_posix()
                found.append(NamedThing(path, f"a {kind} of this library"))
        return found

    def at(self, key: Key, part: Any) -> list[NamedThing]:
        """Return the names that fit at a key; `part` is the group that the key stands in."""
        words = [step for step in key if isinstance(step, str)]
        last = words[-1] if words else ""
        if last in {"spot", "shelf"} and len(words) == 1:
            return self.files(last)
        if isinstance(key[-1], int) and last in {"chain", "made_fast"}:
            return [*self.gear(), *self.kits()]
        if last == "at" and "measured" in words:
            return []  # a distance
        named = self._named().get(last)
        return named() if named is not None else self._gear_that_fits(key, last, part)

    def _named(self) -> dict[str, Callable[[], list[NamedThing]]]:
        """Return what gives the names that are no gear, by the key that takes them."""
        ends = dict.fromkeys(("at", "profile_from", "between"), self.anchors)
        lines = dict.fromkeys(("rings_on", "padded"), self.lines)
        more = {"to": self._held, "around": self._round, "holds": self._held_up, "kit": self.kits}
        return {**ends, **lines, **more}

    def _held(self) -> list[NamedThing]:
        return [*self.anchors(), *self.bolts()]

    def _round(self) -> list[NamedThing]:
        return [
            *self._held(),
            *self.parts(),
            *self.gear(),
            *(NamedThing(one, "what the sling goes round") for one in ROUND),
        ]

    def _held_up(self) -> list[NamedThing]:
        return [*self.lines(), *self.parts()]

    def _gear_that_fits(self, key: Key, last: str, part: Any) -> list[NamedThing]:
        allowed = _gear_at(key, last, part)
        return [] if allowed is None else [one for one in self.gear() if one.kind in allowed or not allowed]

    def _shelves(self) -> Iterator[dict[str, Any]]:
        if "items" in self.data or "kits" in self.data:
            yield self.data
        for one in _list(self.data.get("shelf")):
            shelf = self._referred(one, "shelf") if isinstance(one, str) else one
            if isinstance(shelf, dict):
                yield shelf

    def _spot(self) -> dict[str, Any]:
        if "anchors" in self.data:
            return self.data
        spot = self.data.get("spot")
        return _group(self._referred(spot, "spot") if isinstance(spot, str) else spot)

    def _referred(self, written: str, kind: str) -> Any:
        """Return what can be read of a file that this one refers to; nothing from outside the library."""
        target = self.file.parent / written
        if wrong_path(written, target, kind, self.root, there=True, suggest=False) is not None:
            return None
        return read_loosely(self._text(target.resolve()))


def _gear_at(key: Key, last: str, part: Any) -> frozenset[str] | None:
    """Return the kinds of gear that fit at a key; an empty set for any, None where no gear is named."""
    if key[:1] == ("leash",):
        return {"gear": LEASHES, "rings": LEASH_RINGS}.get(last)
    steps = [str(step) for step in key]
    for n in range(len(steps)):
        fits = kinds.GEAR_OF_HAUL.get(".".join(steps[n:]))
        if fits is not None:
            return fits
    if last == "gear":
        return kinds.GEAR_OF_PART.get(str(_group(part).get("part")), frozenset())
    return None


def _piece(name: str, piece: Any) -> NamedThing:
    piece = _group(piece)
    kind = str(piece.get("kind") or "")
    said = [
        kind.replace("_", " "),
        *(f"{key} {piece[key]}" for key in ("mbs", "wll", "length") if piece.get(key)),
    ]
    return NamedThing(name, ", ".join(one for one in (*said, str(piece.get("title") or "")) if one), kind)


def _anchor(one: Any) -> str:
    one = _group(one)
    girth = f", girth {one['girth']}" if one.get("girth") else ""
    return f"{one.get('kind') or 'anchor'}{girth}"


def _entries(group: Any) -> Iterator[tuple[str, Any]]:
    """Yield the entries of a group, those written as a range one by one."""
    for name, one in _group(group).items():
        found = RANGE.fullmatch(name)
        for each in names_of(found)[:MOST] if found else [name]:
            yield each, one


def _group(value: Any) -> dict[str, Any]:
    return value if isinstance(value, dict) else {}


def _list(value: Any) -> list[Any]:
    return value if isinstance(value, list) else []


def _yaml_below(root: Path) -> Iterator[Path]:
    """Yield YAML files of a library, in their order, without hidden folders; not more than some hundred."""
    left = MOST_FILES
    for folder, below, files in os.walk(root):
        below[:] = sorted(one for one in below if not one.startswith("."))
        for name in sorted(files):
            path = Path(folder, name)
            if path.suffix.lower() in YAML and inside(root, path):
                yield path
                left -= 1
            if left <= 0:
                return
