"""Files that were examined before: what they say is taken from memory, as long as all that it rests on is unchanged.

So one rig that was changed in a library of thousands is the only one that is judged again.
"""

from __future__ import annotations

import os
from collections.abc import Callable
from dataclasses import field
from pathlib import Path
from typing import TYPE_CHECKING, Any
from zlib import compress

from riglint.findings.library.as_record import NoRecordError, Records, canonical
from riglint.model.library import Library
from riglint.read.decoding import MAX_BYTES
from riglint.read.library import real
from riglint.records import dataclass
from riglint.remembered import store, watching
from riglint.remembered.looks import KINDS, Look, NoTellingError, digest, hashed, seen
from riglint.remembered.modules import settled, whole
from riglint.remembered.records import Answer, packed, unpacked
from riglint.remembered.watching import Looks, Watch
from riglint.rulekit.facts import FACTS

if TYPE_CHECKING:
    from riglint.findings.library.examined import Examined, ExaminedRig, Terms

OWN = b":taken out:"  # stands for the folder of a call's own
OF_A_FILE = b".file"  # at the end of the name of a record
FACT_OF = {fact.__name__: fact for fact in FACTS}
PACKAGES = (
    "riglint",
    "pydantic",
    "pydantic_core",
    "yaml",
)  # they decide; the rules count by the seal of their book


def program(watch: Watch) -> bytes:
    """Return a hash of all that decides what a file says; empty where it was written a moment ago."""
    if watch.program is None:
        with watch:
            looks = whole(PACKAGES)
        parts = [part for (kind, name), what in sorted(looks.items()) for part in (kind, name, what)]
        watch.program = digest(*parts) if settled(looks, watch.began_ns) else b""
    return watch.program


@dataclass(slots=True)
class RememberedFiles:
    """What is remembered of files, for one run."""

    kinds: tuple[type, ...]  # of which what is kept of a rig consists
    own: Path | None = None  # the folder of this call's own to which the files of a revision are taken out
    records: Records = field(init=False)
    _terms: dict[int, bytes] = field(default_factory=dict)
    _seen: Looks = field(default_factory=dict)

    def __post_init__(self) -> None:
        """Know also what the caller keeps."""
        self.records = Records(self.kinds)

    def examined(
        self, library: Library, file: Path, terms: Terms, examine: Callable[[], Examined]
    ) -> Examined:
        """Return what a file says: remembered, or examined now and remembered for the next time."""
        watch = watching.current
        name = self._name(library, file, terms, watch) if watch is not None and not watch.spoilt else b""
        if watch is None or not name:
            return examine()
        found = self._recalled(name, library, file, watch)
        if found is None:
            looks = watch.begin_part()
            try:
                found = examine()
            finally:
                watch.end_part()
            if not watch.spoilt and found.is_whole:
                self._keep(name, found, looks, watch)
        return found

    def _name(self, library: Library, file: Path, terms: Terms, watch: Watch) -> bytes:
        """Return what a file is remembered under; empty where it is not."""
        try:
            said = self._terms.get(id(terms)) or self._said(terms)
            where = tuple(self._called(one) for one in (file, library.root, library.start))
            places = canonical((where, library.shown(file), Path.cwd()))
        except (NoRecordError, OSError):
            return b""
        self._terms[id(terms)] = said
        running = program(watch)
        if not running or library.other_values:
            return b""
        return digest(running, said, places.encode(errors="surrogateescape")) + OF_A_FILE

    def _said(self, terms: Terms) -> bytes:
        keep = getattr(terms.keep, "__qualname__", "")
        rules = tuple(terms.book.rules), terms.book.seal
        return canonical((rules, terms.on, terms.force, keep, terms.remedies_from)).encode(
            errors="surrogateescape"
        )

    # What files say is the same wherever they are taken out to: that folder is called by a name that stays.

    def _called(self, place: Path | None) -> object:
        if self.own is None or place is None or not place.is_relative_to(self.own):
            return place
        return OWN, place.relative_to(self.own)

    def _renamed(self, looks: Looks, old: bytes, new: bytes) -> Looks:
        """Return looks with the name of the folder changed."""
        if self.own is None:
            return looks
        return {
            (kind, new + name[len(old) :] if name == old or name.startswith(old + b"/") else name): what
            for (kind, name), what in looks.items()
        }

    # What is remembered

    def _recalled(self, name: bytes, library: Library, file: Path, watch: Watch) -> Examined | None:
        with watch:
            raw = store.fetch(name)
            answer = unpacked(name, raw) if raw is not None else None
            text = self._text(file)
            if answer is None or text is None:
                return None
            looks = self._renamed(answer.looks, OWN, os.fsencode(self.own or b""))
            if not self._unchanged(looks):
                return None
            try:
                found = self._taken(self.records.value(answer.chunks[0][1]), file)
            except (ValueError, TypeError, KeyError, IndexError, AttributeError):
                return None
        for (kind, what), it in looks.items():
            watch.note(kind, what, it)
        # Whatever somebody writes into the file from now on, what is read of it again is what was judged.
        library.know({real(file): compress(text)}, {real(file): looks})
        return found

    def _text(self, file: Path) -> bytes | None:
        """Return the text of a file, and note what was seen by it: the very bytes that count."""
        try:
            with file.open("rb") as stream:
                raw = stream.read(MAX_BYTES + 1)
        except (OSError, ValueError):
            return None
        self._seen[b"content", os.fsencode(file)] = hashed(raw)
        return raw if len(raw) <= MAX_BYTES else None

    def _unchanged(self, looks: Looks) -> bool:
        try:
            return all(self._now(one) == what for one, what in looks.items())
        except NoTellingError:
            return False

    def _now(self, one: Look) -> bytes:
        if one[0] not in KINDS:
            raise NoTellingError
        if one not in self._seen:
            self._seen[one] = seen(*one)
        return self._seen[one]

    def _taken(self, data: Any, file: Path) -> Examined:
        from riglint.findings.library.examined import Examined, ExaminedRig  # noqa: PLC0415 - it imports this module

        told, rig = data
        found = Examined(file, **told)
        if rig is not None:
            facts = {FACT_OF[name]: value for name, value in rig.pop("facts").items()}
            found.rig = ExaminedRig(facts=facts, **rig)
        return found

    # What is to be remembered

    def _keep(self, name: bytes, found: Examined, looks: Looks, watch: Watch) -> None:
        with watch:
            try:
                text = self.records.text((_told(found), _rig(found.rig)))
                same = all(seen(*one) == what for one, what in looks.items() if one[0] in KINDS)
            except (NoRecordError, NoTellingError):
                return
            known = looks and all(kind in KINDS and not what.startswith(OWN) for kind, what in looks)
            own = os.fsencode(self.own or OWN)
            if same and known and own not in text:
                store.keep(name, packed(name, Answer(0, [(1, text)], self._renamed(looks, own, OWN))))


def _told(found: Examined) -> dict[str, Any]:
    left = {"file", "rig", "failed"}
    return {name: getattr(found, name) for name in found.__dataclass_fields__ if name not in left}


def _rig(rig: ExaminedRig | None) -> dict[str, Any] | None:
    if rig is None:
        return None
    told = {name: getattr(rig, name) for name in rig.__dataclass_fields__ if name != "loads"}
    return told | {"facts": {fact.__name__: value for fact, value in rig.facts.items()}}
