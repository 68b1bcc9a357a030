"""What a rig refers to, found: its spot and its gear, or every reference that leads nowhere."""

from collections.abc import Iterable
from pathlib import Path

from riglint.model.documents.gear import Shelf
from riglint.model.documents.kind_check import a_kind
from riglint.model.documents.leg_names import legs_to_no_bolt
from riglint.model.documents.parts import Part
from riglint.model.documents.rig import Rig
from riglint.model.documents.spot import Spot
from riglint.model.documents.spot_plan import Moved, line_ends, seen_between
from riglint.model.library import Item, Library, Loaded, RigFile
from riglint.model.load import what_is_left
from riglint.model.reference_path import wrong_path
from riglint.model.sentences import Key
from riglint.model.vocabulary import kinds
from riglint.read.document import Document
from riglint.read.problems import (
    MOST_SUGGESTIONS,
    Problem,
    a_run_without_numbers,
    key_text,
    odd_letters,
    shown,
)
from riglint.read.spelling import nearest
from riglint.read.yaml_text import MAX_PROBLEMS

LEASHES = frozenset({"leash", "rope"})
LEASH_RINGS = frozenset({"ring", "connector", "quick_link"})


def resolve(library: Library, path: Path) -> tuple[RigFile | None, list[Problem], list[Loaded]]:
    """Return a rig with what it refers to, its own problems, and the files it needs that have problems.

    The rest of a rig that has problems itself is looked through all the same: all come in one run.
    """
    loaded = library.load(path)
    rig, document = loaded.model, loaded.document
    lost: frozenset[str] = frozenset()
    if document is not None and loaded.kind == "rig" and rig is None:
        rig, lost = what_is_left(document, loaded.kind)
    if not isinstance(rig, Rig) or document is None:
        return None, list(loaded.problems), []
    finder = _Finder(library, path, rig, document, lost)
    found = finder.find()
    known = {problem.key for problem in loaded.problems}
    # On a line that was not read as it stands, a reference may be another one.
    unread = {one.place.line for one in loaded.problems if one.rule in {"file/readable", "file/yaml"}}
    more = [one for one in finder.problems if one.key not in known and one.place.line not in unread]
    problems = [*loaded.problems, *more]
    return (None if problems or finder.broken else found), problems, finder.broken


class _Finder:
    """Finds what one rig refers to. `lost` are the top keys of the rig whose values are not whole."""

    def __init__(
        self, library: Library, path: Path, rig: Rig, document: Document, lost: frozenset[str] = frozenset()
    ) -> None:
        self.library, self.path, self.rig, self.document = library, path, rig, document
        self.problems: list[Problem] = []
        self.broken: list[Loaded] = []
        self.refers_to: list[str] = []
        unknown = bool(lost - set(Rig.model_fields))  # a misspelt top key may hold the shelf or the spot
        self.gear_unknown = "shelf" in lost or (unknown and not rig.shelf)
        self.spot_unknown = "spot" in lost

    def find(self) -> RigFile:
        spot, spot_document, spot_key = self._spot()
        items = self._items()
        for key, part in _every_part(self.rig):
            self._check_part(key, part, items, spot)
        self._check_names(items, spot)
        if spot is not None:
            for key, name, anchor in legs_to_no_bolt(self.rig, spot):
                bolts = spot.anchors[anchor].points
                self._misnamed(key, name, bolts, f"no bolt of {shown(anchor)}", "bolts there")
        moved: Moved = {}
        if spot is not None:
            spot, moved = seen_between(spot, *line_ends(self.rig))
        return RigFile(
            self.rig, self.document, spot, spot_document, spot_key, items, tuple(self.refers_to), moved
        )

    def _spot(self) -> tuple[Spot | None, Document, Key]:
        if not isinstance(self.rig.spot, str):
            return (None if self.spot_unknown else self.rig.spot), self.document, ("spot",)
        loaded = self._referred(self.rig.spot, ("spot",), "spot")
        if loaded is None or loaded.document is None or not isinstance(loaded.model, Spot):
            return None, self.document, ("spot",)
        return loaded.model, loaded.document, ()

    def _items(self) -> dict[str, Item]:
        items: dict[str, Item] = {}
        named: set[str] = set()
        for n, one in enumerate(self.rig.shelf):
            document, shelf = self.document, one
            key: Key = ("shelf", n, "items")
            if isinstance(one, str):
                loaded = self._referred(one, ("shelf", n), "shelf")
                if loaded is None or loaded.document is None or not isinstance(loaded.model, Shelf):
                    self.gear_unknown = True  # what is on no other shelf may stand on this one
                    continue
                if loaded.path in named:
                    message = f"{shown(one)} is listed twice as a gear list (`shelf`)."
                    self._wrong(("shelf", n), "file/duplicate", message, "Name each gear list once.")
                    continue
                named.add(loaded.path)
                document, key, shelf = loaded.document, ("items",), loaded.model
            if isinstance(shelf, Shelf):
                self._add(items, document, key, shelf, n)
        return items

    def _add(self, items: dict[str, Item], document: Document, key: Key, shelf: Shelf, n: int) -> None:
        for name, gear in shelf.items.items():
            new = Item(name, gear, document, (*key, name))
            if items.setdefault(name, new) is not new:
                message = (
                    f"{shown(name)} is in two gear lists (`shelf`), {_place(items[name])} and {_place(new)}."
                )
                self._wrong(
                    ("shelf", n), "file/duplicate", message, "Give each piece of gear a name of its own."
                )

    def _referred(self, written: str, key: Key, kind: str) -> Loaded | None:
        """Return the file that a path names, or note what is wrong with it."""
        target = self.path.parent / written
        few, there = len(self.problems) < MOST_SUGGESTIONS, self.library.holds(target)
        wrong = wrong_path(written, target, kind, self.library.root, there=there, suggest=few)
        if wrong is not None:
            self._wrong(key, "file/reference", wrong.message, wrong.do, *wrong.meant)
            return None
        loaded = self.library.load(target)
        self.refers_to.append(loaded.path)
        if loaded.problems:
            self.broken.append(loaded)
            return None
        if loaded.kind != kind:
            message = f"{shown(written)} begins with `riglint: {loaded.kind}`. Expected a {kind}."
            self._wrong(key, "file/reference", message, f"Name a file that begins with riglint: {kind}/1.")
            return None
        return loaded

    def _wrong(self, key: Key, rule: str, message: str, do: str, *instead: str) -> None:
        if len(self.problems) < MAX_PROBLEMS:
            place = self.document.place(key)
            self.problems.append(Problem(rule, place, key_text(key), message, do, instead))

    def _near(self, name: str, known: Iterable[str]) -> str | None:
        return nearest(name, known) if len(self.problems) < MOST_SUGGESTIONS else None

    def _check_part(self, key: Key, part: Part, items: dict[str, Item], spot: Spot | None) -> None:
        allowed = kinds.GEAR_OF_PART.get(part.part)
        if part.gear is not None and allowed is not None:
            self._check_gear((*key, "gear"), part.gear, allowed, items)
        if part.part == "anchor" and part.at is not None and spot is not None:
            self._check_anchor((*key, "at"), part.at, spot)
        if part.part == "haul":
            for path, kinds_allowed in kinds.GEAR_OF_HAUL.items():
                name = _inside(part, path)
                if isinstance(name, str):
                    self._check_gear((*key, *path.split(".")), name, kinds_allowed, items)

    def _check_names(self, items: dict[str, Item], spot: Spot | None) -> None:
        leash = self.rig.leash
        if leash is not None and leash.gear is not None:
            self._check_gear(("leash", "gear"), leash.gear, LEASHES, items)
        for n, ring in enumerate((leash.rings or []) if leash else []):
            self._check_gear(("leash", "rings", n), ring, LEASH_RINGS, items)
        for n, edge in enumerate(self.rig.edges or []):
            if edge.at is not None and spot is not None:
                self._check_anchor(("edges", n, "at"), edge.at, spot)

    def _check_gear(self, key: Key, name: str, allowed: frozenset[str], items: dict[str, Item]) -> None:
        item = items.get(name)
        if item is None and not self.gear_unknown:
            fitting = [other for other, entry in items.items() if entry.gear.kind in allowed]
            suggestion = self._near(name, fitting) or self._near(name, items)
            do = "Add it to a gear list, or name the `shelf` file that has it."
            run = a_run_without_numbers(name, items)
            if run:
                do, suggestion = run, None
            elif suggestion:  # pieces often differ by one digit, so this is no advice to write the other
                do = f"Write the nearest name there, {suggestion}, or add {shown(name)} if it is another piece."
                do += odd_letters(name, suggestion)
            elif not self.rig.shelf:
                do = "Name the gear list that has it: shelf: [path]."
            self._wrong(
                key,
                "file/reference",
                f"{shown(name)} is in no gear list (`shelf`) of this rig.",
                do,
                *_as_list(suggestion),
            )
        elif item is not None and item.gear.kind not in allowed:
            wanted = " or ".join(a_kind(kind) for kind in sorted(allowed))
            message = f"{shown(name)} is {a_kind(item.gear.kind)}. Expected {wanted}."
            do = f"Name another piece, or correct its kind in {_place(item)}."
            self._wrong(key, "file/reference", message, do)

    def _check_anchor(self, key: Key, name: str, spot: Spot) -> None:
        if name not in spot.anchors:
            self._misnamed(key, name, spot.anchors, "no anchor of this spot", "anchors of this spot")

    def _misnamed(self, key: Key, name: str, known: Iterable[str], what: str, they: str) -> None:
        suggestion = self._near(name, known)
        has = f"The {they} are {', '.join(known)}."
        do = (
            f"Write `{suggestion}` if you mean that. {has}{odd_letters(name, suggestion)}"
            if suggestion
            else has
        )
        self._wrong(key, "file/reference", f"{shown(name)} is {what}.", do, *_as_list(suggestion))


def _as_list(meant: str | None) -> list[str]:
    return [] if meant is None else [meant]


def _place(item: Item) -> str:
    """Return where a piece of gear stands."""
    place = item.document.key_places.get(item.key, item.document.place(item.key))
    return f"{item.document.path} line {place.line}"


def _every_part(rig: Rig) -> list[tuple[Key, Part]]:
    found: list[tuple[Key, Part]] = []

    def walk(key: Key, parts: list[Part]) -> None:
        for n, part in enumerate(parts):
            found.append(((*key, n), part))
            walk((*key, n, "made_fast"), part.made_fast or [])
            for m, leg in enumerate(part.legs or []):
                walk((*key, n, "legs", m, "chain"), leg.chain)

    walk(("chain",), rig.chain)
    for n, backup in enumerate(rig.backups or []):
        walk(("backups", n, "chain"), backup.chain)
    return found


def _inside(thing: object, path: str) -> object:
    for step in path.split("."):
        thing = getattr(thing, step, None)
    return thing
