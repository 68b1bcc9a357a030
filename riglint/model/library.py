"""Rigs with everything they refer to: their spot, their gear, and what could not be found."""

from dataclasses import dataclass, field
from pathlib import Path

from riglint.model import kinds
from riglint.model.gear import Gear, Shelf
from riglint.model.load import Key, kind_of, load
from riglint.model.parts import Part
from riglint.model.rig import Rig
from riglint.model.spot import Spot
from riglint.read.library import inside, read_bytes
from riglint.read.problems import Problem, key_text
from riglint.read.spelling import nearest
from riglint.read.yaml_text import Document, read_yaml

Model = Rig | Spot | Shelf


@dataclass(frozen=True, slots=True)
class Loaded:
    """One file: its document where it could be read, its model where it could be understood."""

    path: str
    document: Document | None
    kind: str | None
    model: Model | None
    problems: tuple[Problem, ...]


@dataclass(frozen=True, slots=True)
class Item:
    """A piece of gear and where it is written down."""

    id: str
    gear: Gear
    document: Document
    key: Key


@dataclass(frozen=True, slots=True)
class RigFile:
    """A rig with its spot and its gear, ready to be computed."""

    rig: Rig
    document: Document
    spot: Spot | None
    spot_document: Document
    spot_key: Key
    items: dict[str, Item]
    refers_to: tuple[str, ...]


@dataclass(slots=True)
class Library:
    """The files below one root, each read once."""

    root: Path
    _loaded: dict[Path, Loaded] = field(default_factory=dict)

    def shown(self, path: Path) -> str:
        """Return a path as it stands in reports: relative to the root, with forward slashes."""
        resolved = path.resolve()
        return resolved.relative_to(self.root).as_posix() if inside(self.root, path) else resolved.as_posix()

    def load(self, path: Path) -> Loaded:
        """Return one file, read at most once."""
        resolved = path.resolve()
        if resolved not in self._loaded:
            self._loaded[resolved] = load_file(path, self.shown(path))
        return self._loaded[resolved]

    def take(self, path: Path, raw: bytes) -> Loaded:
        """Read a document from bytes as if it stood at a path."""
        loaded = load_bytes(raw, self.shown(path))
        self._loaded[path.resolve()] = loaded
        return loaded

    def resolve(self, path: Path) -> tuple[RigFile | None, list[Problem], list[Loaded]]:
        """Return a rig with what it refers to, the rig's own problems, and the files it needs that have problems."""
        loaded = self.load(path)
        rig, document = loaded.model, loaded.document
        if not isinstance(rig, Rig) or document is None:
            return None, list(loaded.problems), []
        finder = _Finder(self, path, rig, document)
        found = finder.find()
        complete = not finder.problems and not finder.broken
        return (found if complete else None), finder.problems, finder.broken


def load_file(path: Path, shown: str) -> Loaded:
    """Read one file from disk; what is wrong with it becomes problems, never an exception."""
    raw, problems = read_bytes(path)
    return load_bytes(raw, shown) if raw is not None else Loaded(shown, None, None, None, tuple(problems))


def load_bytes(raw: bytes, shown: str) -> Loaded:
    """Read one document from its bytes."""
    document, problems = read_yaml(raw, shown)
    if document is None:
        return Loaded(shown, None, None, None, tuple(problems))
    kind, wrong = kind_of(document)
    if kind is None or kind == "policy":
        return Loaded(shown, document, kind, None, (*problems, wrong) if wrong else tuple(problems))
    model, more = load(document, kind)
    problems = sorted({*problems, *more}, key=lambda problem: (problem.place, problem.key))
    return Loaded(shown, document, kind, None if problems else model, tuple(problems))


class _Finder:
    """Finds what one rig refers to."""

    def __init__(self, library: Library, path: Path, rig: Rig, document: Document) -> None:
        self.library, self.path, self.rig, self.document = library, path, rig, document
        self.problems: list[Problem] = []
        self.broken: list[Loaded] = []
        self.refers_to: list[str] = []

    def find(self) -> RigFile:
        spot, spot_document, spot_key = self._spot()
        items = self._items()
        for key, part in _every_part(self.rig):
            self._check_part(key, part, items, spot)
        self._check_names(items, spot)
        return RigFile(self.rig, self.document, spot, spot_document, spot_key, items, tuple(self.refers_to))

    def _spot(self) -> tuple[Spot | None, Document, Key]:
        if not isinstance(self.rig.spot, str):
            return self.rig.spot, self.document, ("spot",)
        loaded = self._referred(self.rig.spot, ("spot",), "spot")
        if loaded is None or loaded.document is None or not isinstance(loaded.model, Spot):
            return None, self.document, ("spot",)
        return loaded.model, loaded.document, ()

    def _items(self) -> dict[str, Item]:
        items: dict[str, Item] = {}
        for n, one in enumerate(self.rig.shelf):
            document, key, shelf = self.document, ("shelf", n, "items"), one
            if isinstance(one, str):
                loaded = self._referred(one, ("shelf", n), "shelf")
                if loaded is None or loaded.document is None or not isinstance(loaded.model, Shelf):
                    continue
                document, key, shelf = loaded.document, ("items",), loaded.model
            if isinstance(shelf, Shelf):
                self._add(items, document, key, shelf, n)
        return items

    def _add(self, items: dict[str, Item], document: Document, key: Key, shelf: Shelf, n: int) -> None:
        for name, gear in shelf.items.items():
            if name in items:
                first = items[name]
                where = f"{first.document.path} line {first.document.place(first.key).line}"
                message = f"'{name}' stands on two shelves; the first is {where}."
                self._wrong(("shelf", n), "file/duplicate", message, "Give each piece of gear one name of its own.")
            else:
                items[name] = Item(name, gear, document, (*key, name))

    def _referred(self, written: str, key: Key, kind: str) -> Loaded | None:
        target = self.path.parent / written
        if Path(written).is_absolute() or not inside(self.library.root, target):
            message = f"'{written}' lies outside the library, whose root is the folder '{self.library.root.name}'."
            self._wrong(key, "file/reference", message, "Refer to files inside the library, relative to this one.")
            return None
        if not target.is_file():
            siblings = [entry.name for entry in target.parent.iterdir()] if target.parent.is_dir() else []
            guess = nearest(target.name, siblings)
            do = f"The nearest name there is {guess}." if guess else "Check the path; it counts from this file."
            self._wrong(key, "file/reference", f"There is no file '{written}'.", do)
            return None
        loaded = self.library.load(target)
        self.refers_to.append(loaded.path)
        if loaded.problems:
            self.broken.append(loaded)
            return None
        if loaded.kind != kind:
            message = f"'{written}' is a {loaded.kind} document, where a {kind} is expected."
            self._wrong(key, "file/reference", message, f"Refer to a file that begins with riglint: {kind}/1.")
            return None
        return loaded

    def _wrong(self, key: Key, rule: str, message: str, do: str) -> None:
        self.problems.append(Problem(rule, self.document.place(key), key_text(key), message, do))

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
            self._check_gear(("leash", "gear"), leash.gear, frozenset({"leash", "rope"}), items)
        for n, ring in enumerate((leash.rings or []) if leash else []):
            self._check_gear(("leash", "rings", n), ring, frozenset({"ring", "connector", "quick_link"}), items)
        for n, edge in enumerate(self.rig.edges or []):
            if edge.at is not None and spot is not None:
                self._check_anchor(("edges", n, "at"), edge.at, spot)

    def _check_gear(self, key: Key, name: str, allowed: frozenset[str], items: dict[str, Item]) -> None:
        item = items.get(name)
        if item is None:
            if any(loaded.kind == "shelf" or loaded.kind is None for loaded in self.broken):
                return  # it may stand on the shelf that could not be read
            fitting = [other for other, entry in items.items() if entry.gear.kind in allowed]
            guess = nearest(name, fitting) or nearest(name, items)
            do = f"The nearest name there is {guess}." if guess else "Add it to a shelf, or put that shelf in the list."
            self._wrong(key, "file/reference", f"'{name}' stands on no shelf of this rig.", do)
        elif item.gear.kind not in allowed:
            is_a, wanted = item.gear.kind.replace("_", " "), ", ".join(sorted(allowed)).replace("_", " ")
            message = f"'{name}' is a {is_a}, where {wanted} is expected."
            self._wrong(key, "file/reference", message, "Name a piece of that kind, or correct its kind on the shelf.")

    def _check_anchor(self, key: Key, name: str, spot: Spot) -> None:
        if name not in spot.anchors:
            guess = nearest(name, spot.anchors)
            do = f"The nearest name there is {guess}." if guess else f"The spot has {', '.join(spot.anchors)}."
            self._wrong(key, "file/reference", f"'{name}' is no anchor of this spot.", do)


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
