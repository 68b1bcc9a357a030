"""Documents as they were read, and the files of a library, each read once."""

from collections.abc import Callable, Mapping, MutableMapping
from dataclasses import field
from functools import partial
from pathlib import Path, PurePosixPath
from types import MappingProxyType
from zlib import compress, decompress

from riglint.model.compact.assumption import Assumption
from riglint.model.compact.kits import OnHand, circles, ticked
from riglint.model.compact.leg_ranges import with_leg_ranges
from riglint.model.compact.short_parts import written_out
from riglint.model.documents.gear import Gear, Shelf
from riglint.model.documents.ranges import with_ranges
from riglint.model.documents.rig import Rig
from riglint.model.documents.spot import Spot
from riglint.model.documents.spot_plan import Moved
from riglint.model.load import UNJUDGED, kind_of, load
from riglint.model.reference_path import wrong_path
from riglint.model.sentences import Key
from riglint.model.what_if import WhatIf, with_values
from riglint.read.document import Document
from riglint.read.file_names import MARK
from riglint.read.library import read_bytes, real
from riglint.read.problems import Problem, key_text
from riglint.read.yaml_text import read_yaml
from riglint.records import dataclass
from riglint.remembered import QUICK, watching
from riglint.remembered.watching import Looks

Model = Rig | Spot | Shelf
FEWEST_HELD = 8  # files, however long: a rig, its spot and its gear lists are asked for in turn


@dataclass(frozen=True, slots=True)
class Loaded:
    """One file: its document where it could be read, its model where it could be understood."""

    path: str
    document: Document | None
    kind: str | None
    model: Model | None
    problems: tuple[Problem, ...]
    as_written: Document | None = None  # before kits and parts by name were written out


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
    moved: Moved = field(default_factory=dict)  # keys of the spot that stand elsewhere than they are read at
    assumed: tuple[
        Assumption, ...
    ] = ()  # values that the files leave out and its parts tell; they are written in

    def spot_place(self, key: Key) -> Key:
        """Return where a key of the spot stands in its document: what a line has for itself stands in `spans`."""
        for n in range(len(key) if self.moved else 0, 0, -1):
            if key[:n] in self.moved:
                return (*self.spot_key, *self.moved[key[:n]], *key[n:])
        return (*self.spot_key, *key)

    @property
    def over_water(self) -> bool:
        """Whether people who fall in fall into water: on a waterline, or on any line with water below it."""
        ground = self.spot.ground if self.spot is not None else None
        return self.rig.use == "waterline" or (ground is not None and ground.surface == "water")


@dataclass(slots=True)
class Library:
    """The files below one root, each read once."""

    root: Path
    other_values: tuple[WhatIf, ...] = ()  # of rigs, for this run
    start: Path | None = None  # of the paths in reports; the root, unless given
    most: int | None = (
        None  # characters of files that are held as they were understood; of others, only their text
    )
    _loaded: dict[Path, Loaded] = field(default_factory=dict)  # what was asked for last stands last
    _characters: int = 0  # of these
    kept: MutableMapping[Path, bytes] = field(default_factory=dict)  # texts, compressed
    _looks: dict[Path, Looks] = field(default_factory=dict)  # where a watch notes what was looked at

    def shown(self, path: Path) -> str:
        """Return a path as it stands in reports: from where they start, with forward slashes."""
        resolved, start = real(path), self.start or self.root
        within = resolved.is_relative_to(start)
        return (resolved.relative_to(start) if within else resolved).as_posix()

    def file(self, shown: str) -> Path:
        """Return the file that a path in a report means."""
        return (self.start or self.root) / shown

    def shown_link(self, link: Path) -> str:
        """Return the path of a link itself, as it stands in reports."""
        return (PurePosixPath(self.shown(link.parent)) / link.name).as_posix()

    def load(self, path: Path) -> Loaded:
        """Return one file, read at most once."""
        resolved = real(path)
        loaded = self._loaded.get(resolved)
        if loaded is not None:
            self._loaded[resolved] = self._loaded.pop(resolved)
            watching.again(self._looks.get(resolved))
            return loaded
        if resolved in self.kept:
            watching.again(self._looks.get(resolved))
        looks = watching.part()
        try:
            loaded = self._read(path, resolved)
        finally:
            if looks is not None:
                watching.part_ends()
        if looks is not None:
            self._looks.setdefault(resolved, looks)
        return loaded

    def _read(self, path: Path, resolved: Path) -> Loaded:
        text, on_hand = self.kept.get(resolved), partial(self._on_hand, path)
        if text is None:
            loaded = load_file(path, self.shown(path), self.other_values, on_hand)
        else:
            loaded = load_bytes(decompress(text), self.shown(path), self.other_values, on_hand)
        self._hold(resolved, loaded)
        return loaded

    def holds(self, path: Path) -> bool:
        """Return whether a file was read or taken already."""
        resolved = real(path)
        return resolved in self._loaded or resolved in self.kept

    def texts(self) -> dict[Path, bytes]:
        """Return the text of every file that was read and could be, compressed, by its whole path."""
        return {path: self.kept[path] for path in self.kept}

    def text_of(self, path: Path) -> bytes | None:
        """Return the text of a file that was read; None where it could not be."""
        text = self.kept.get(real(path))
        return None if text is None else decompress(text)

    def know(self, texts: Mapping[Path, bytes], looks: Mapping[Path, Looks] = MappingProxyType({})) -> None:
        """Take over what another library of the same root has read, and what was looked at for it."""
        self.kept.update(texts)
        self._looks |= looks

    def _hold(self, resolved: Path, loaded: Loaded, *, taken: bool = False) -> None:
        """Hold a file as it was understood; let those go that nobody has asked for longest, and keep their text."""
        before = self._loaded.pop(resolved, None)
        self._loaded[resolved] = loaded
        if self.most is None or loaded.document is None:
            return
        self._characters -= _characters(before) if before is not None else 0
        if resolved not in self.kept or taken:
            self.kept[resolved] = compress(loaded.document.text.encode(), QUICK)
        self._characters += _characters(loaded)
        while self._characters > self.most and len(self._loaded) > FEWEST_HELD:
            longest = next(file for file in self._loaded if file in self.kept)
            self._characters -= _characters(self._loaded.pop(longest))

    def take(self, path: Path, raw: bytes) -> Loaded:
        """Read a document from bytes as if it stood at a path."""
        loaded = load_bytes(raw, self.shown(path), self.other_values, partial(self._on_hand, path))
        self._hold(real(path), loaded, taken=True)
        return loaded

    def _on_hand(self, path: Path, document: Document) -> OnHand:
        """Return what the gear lists of a rig hold, as far as they can be read."""
        found = OnHand(whole=next(circles(document), None) is None)
        shelves = document.data.get("shelf")
        for n, one in enumerate(shelves if isinstance(shelves, list) else []):
            if not isinstance(one, str):
                found.add(document, ("shelf", n))
                continue
            target = path.parent / one
            if wrong_path(one, target, "shelf", self.root, there=self.holds(target), suggest=False):
                found.whole = False
                continue
            loaded = self.load(target)
            found.whole &= loaded.kind == "shelf" and not loaded.problems
            if loaded.as_written is not None and loaded.kind == "shelf":
                found.add(loaded.as_written)
        return found.without_circles()


def _characters(loaded: Loaded) -> int:
    return len(loaded.document.text) if loaded.document is not None else 0


def load_file(
    path: Path,
    shown: str,
    other_values: tuple[WhatIf, ...] = (),
    on_hand: Callable[[Document], OnHand] | None = None,
) -> Loaded:
    """Read one file from disk; what is wrong with it becomes problems, never an exception."""
    raw, problems = read_bytes(path)
    return (
        load_bytes(raw, shown, other_values, on_hand)
        if raw is not None
        else Loaded(shown, None, None, None, tuple(problems))
    )


def load_bytes(
    raw: bytes,
    shown: str,
    other_values: tuple[WhatIf, ...] = (),
    on_hand: Callable[[Document], OnHand] | None = None,
) -> Loaded:
    """Read one document from its bytes. `on_hand` says what the gear lists of a rig hold."""
    document, problems = read_yaml(raw, shown)
    if document is None:
        return Loaded(shown, None, None, None, tuple(problems))
    kind, wrong = kind_of(document)
    if kind is None or kind in UNJUDGED:
        wrong = wrong or _misnamed(document, kind)
        return Loaded(shown, document, kind, None, (*problems, wrong) if wrong else tuple(problems))
    if kind == "rig":
        document = with_values(document, other_values)
    document, more = with_ranges(document)
    as_written = document
    if kind in {"rig", "shelf"}:
        more += [*circles(document), *ticked(document)]
        document, legs = with_leg_ranges(document)
        as_written = document
        document, short = written_out(document, on_hand(document) if on_hand and kind == "rig" else None)
        more += [*legs, *short]
    model, wrong_values = load(document, kind)
    more += [one for one in wrong_values if not _told_of_kit(document, one)]
    problems = sorted(dict.fromkeys([*problems, *more]), key=lambda problem: (problem.place, problem.key))
    return Loaded(shown, document, kind, None if problems else model, tuple(problems), as_written)


def _misnamed(document: Document, kind: str | None) -> Problem | None:
    """Return what is wrong with settings of a library that stand in a file of another name: nothing reads them."""
    if kind != "library" or PurePosixPath(document.path).name == MARK:
        return None
    message = "These are the settings of a library, and a file of this name sets nothing."
    do = f"Call it {MARK}, without an ending, or take it out."
    return Problem("file/kind", document.place(("riglint",)), "riglint", message, do)


def _told_of_kit(document: Document, problem: Problem) -> bool:
    """Whether a problem is one of a kit, which the gear list that has it tells."""
    return any(
        problem.key.startswith(key_text(key)) and problem.place == origin.called_at
        for key, origin in document.origins.items()
    )
