"""Files that were examined before: what they say is taken from memory, as long as all that it rests on is unchanged.

So one rig that was changed in a library of thousands is the only one that is judged again.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from dataclasses import field
from json import dumps, loads
from pathlib import Path
from typing import TYPE_CHECKING, Any
from zlib import compress

from riglint.findings.finding import RuleCount, in_order
from riglint.findings.let_go.bodies import HeldResult, Later, body_of
from riglint.findings.let_go.gists import Gist, InShort, elsewhere_of, gists_of
from riglint.findings.library.as_record import NoRecordError, Records, canonical
from riglint.model.library import Library
from riglint.read.decoding import MAX_BYTES
from riglint.read.library import real
from riglint.records import dataclass
from riglint.remembered import QUICK, store, watching
from riglint.remembered.looks import KINDS, Look, NoTellingError, digest, hashed, seen
from riglint.remembered.modules import settled, whole
from riglint.remembered.pieces import Pieces
from riglint.remembered.records import Answer, packed, unpacked
from riglint.remembered.watching import Looks, Watch
from riglint.rulekit import Signal
from riglint.rulekit.facts import FACTS, plan

if TYPE_CHECKING:
    from riglint.findings.library.again import FilesAgain
    from riglint.findings.library.examined import Examined, ExaminedRig, Terms
    from riglint.findings.remembering.on_shelves import ShelvesBefore

OWN = b":taken out:"  # stands for the folder of a call's own
OF_A_FILE = b".file"  # at the end of the name of a record
FACT_OF = {fact.__name__: fact for fact in FACTS}
SETS = ("answered", "unanswered", "unsearched")  # of names of rules
PIECES = 4  # of a record
# They decide; the rules count by the seal of their book.
PACKAGES = ("riglint", "pydantic", "pydantic_core", "yaml")


def program(watch: Watch) -> bytes:
    """Return a hash of all that decides what a file says; empty where it was written a moment ago."""
    if watch.program is None:
        with watch:
            looks = whole(PACKAGES)
        parts = [part for (kind, name), what in sorted(looks.items()) for part in (kind, name, what)]
        watch.program = digest(sys.version.encode(), *parts) if settled(looks, watch.began_ns) else b""
    return watch.program


@dataclass(slots=True)
class RememberedFiles:
    """What is remembered of files, for one run."""

    kinds: tuple[type, ...]  # of which what is kept of a rig consists
    own: Path | None = None  # the folder of this call's own to which the files of a revision are taken out
    records: Records = field(init=False)
    _of: dict[tuple[int, int], tuple[bytes, Library, Terms]] = field(default_factory=dict)
    _seen: Looks = field(default_factory=dict)
    _own: dict[Look, tuple[Look, bytes]] = field(
        default_factory=dict
    )  # of looks, each held once for all files
    _made: dict[Any, Any] = field(default_factory=dict)

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

    def on_shelves(self, terms: Terms, shelves: FilesAgain) -> ShelvesBefore | None:
        """Return the gear lists of a library as they were judged before; None where nothing is remembered."""
        from riglint.findings.remembering.on_shelves import ShelvesBefore  # noqa: PLC0415 - only a library has gear lists

        watch, library = watching.current, shelves.library
        try:
            together = (
                self._together(library, terms, watch) if watch is not None and not watch.spoilt else b""
            )
        except (NoRecordError, OSError):
            return None
        if not together or library.other_values:
            return None
        return ShelvesBefore(Pieces(together, b"shelves"), shelves, shelves.recent, self.records)

    def _name(self, library: Library, file: Path, terms: Terms, watch: Watch) -> bytes:
        """Return what a file is remembered under; empty where it is not."""
        try:
            places = canonical((self._called(file), library.shown(file)))
            together = self._together(library, terms, watch)
        except (NoRecordError, OSError):
            return b""
        if not together or library.other_values:
            return b""
        return digest(together, places.encode(errors="surrogateescape")) + OF_A_FILE

    def _together(self, library: Library, terms: Terms, watch: Watch) -> bytes:
        """Return a hash of what decides every file of a library; empty where that was written a moment ago."""
        known = self._of.get((id(library), id(terms)))
        if known is not None:
            return known[0]
        running = program(watch)
        where = canonical((self._called(library.root), self._called(library.start), Path.cwd()))
        made = digest(running, self._said(terms), where.encode(errors="surrogateescape")) if running else b""
        self._of[id(library), id(terms)] = made, library, terms  # held, so that no other gets their numbers
        return made

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
            if answer is None or text is None or len(answer.chunks) != PIECES:
                return None
            head, body, planned, known = (piece for _, piece in answer.chunks)
            looks = self._renamed(answer.looks, OWN, os.fsencode(self.own or b""))
            if not self._unchanged(looks):
                return None
            looks = dict(self._own.setdefault(one, (one, what)) for one, what in looks.items())
            try:
                found = self._taken(self.records.value(head), body, planned, file)
            except (ValueError, TypeError, KeyError, IndexError, AttributeError):
                return None
        for (kind, what), it in looks.items():
            watch.note(kind, what, it)
        # Whatever somebody writes into the file from now on, what is read of it again is what was judged.
        resolved = real(file)
        library.know({resolved: known or compress(text, QUICK)}, {resolved: looks})
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

    def _taken(self, data: Any, body: bytes, planned: bytes, file: Path) -> Examined:
        from riglint.findings.library.examined import Examined, ExaminedRig  # noqa: PLC0415 - it imports this module

        told, rig = data
        found = Examined(file, **told)
        if rig is not None:
            answered, unanswered, unsearched = (self._set(rig[name]) for name in SETS)
            short = InShort(self._gists(rig["gists"]), rig["elsewhere"], rig["mark"].encode())
            found.rig = ExaminedRig(
                rig["findings"],
                rig["not_judged"],
                answered,
                unanswered,
                self._rules(rig["rules"]),
                {FACT_OF[name]: value for name, value in rig["facts"].items()},
                unsearched=unsearched,
                later=Later(body, short, planned),
            )
        return found

    # A thousand rigs have few sets of rules and few rows of findings in short: each is made once.

    def _set(self, names: str) -> frozenset[str]:
        known: frozenset[str] | None = self._made.get(names)
        if known is None:
            known = self._made[names] = frozenset(names.split())
        return known

    def _rules(self, rules: tuple[str, ...] | None) -> RuleCount | None:
        if rules is None:
            return None
        if rules not in self._made:
            self._made[rules] = RuleCount(*map(self._set, rules))
        count: RuleCount = self._made[rules]
        return count

    def _gists(self, rows: str) -> tuple[Gist, ...]:
        name = Gist, rows
        if name not in self._made:
            self._made[name] = tuple(Gist(Signal(word), *more) for word, *more in loads(rows))
        gists: tuple[Gist, ...] = self._made[name]
        return gists

    # What is to be remembered

    def _keep(self, name: bytes, found: Examined, looks: Looks, watch: Watch) -> None:
        with watch:
            try:
                pieces = self._pieces(found, looks)
                same = all(seen(*one) == what for one, what in looks.items() if one[0] in KINDS)
            except (NoRecordError, NoTellingError, ValueError):
                return
            known = looks and all(kind in KINDS and not what.startswith(OWN) for kind, what in looks)
            own = os.fsencode(self.own or OWN)
            if same and known and not any(own in one for one in pieces):
                chunks = [(1, one if n == 0 else _short(one)) for n, one in enumerate(pieces)]
                store.keep(name, packed(name, Answer(0, chunks, self._renamed(looks, own, OWN))))

    def _pieces(self, found: Examined, looks: Looks) -> tuple[bytes, bytes, bytes, bytes]:
        """Return what a file says: what is read of it each time, what was found, what is planned, and its text."""
        text = self._text(found.file)
        as_read = looks.get((b"content", os.fsencode(found.file)))
        text = text if text is not None and hashed(text) == as_read else b""
        rig = found.rig
        if rig is None:
            return self.records.text((_told(found), None)), b"", b"", text
        own = [one for one in rig.findings if not one.rigs]
        body, mark = body_of(self.records, in_order, HeldResult(found.path, own, rig.kept, rig.assumed))
        short = InShort(gists_of(own), elsewhere_of(own, found.path), mark)
        head = self.records.text((_told(found), _rig(rig, short)))
        return head, body, self.records.text(rig.facts[plan]) if plan in rig.facts else b"", text


def _short(piece: bytes) -> bytes:
    return compress(piece, QUICK) if piece else b""


def _told(found: Examined) -> dict[str, Any]:
    left = {"file", "rig", "failed"}
    return {name: getattr(found, name) for name in found.__dataclass_fields__ if name not in left}


def _rig(rig: ExaminedRig, short: InShort) -> dict[str, Any]:
    rules = rig.rules
    counted = rules and (rules.judged, rules.open, rules.not_applicable, rules.crashed)
    return {name: _joined(getattr(rig, name)) for name in SETS} | {
        "findings": tuple(one for one in rig.findings if one.rigs),  # on files that other rigs share
        "not_judged": rig.not_judged,
        "rules": counted and tuple(map(_joined, counted)),
        "facts": {fact.__name__: value for fact, value in rig.facts.items() if fact is not plan},
        "gists": dumps(short.gists),
        "elsewhere": short.elsewhere,
        "mark": short.mark.decode(),
    }


def _joined(names: frozenset[str]) -> str:
    return " ".join(sorted(names))
