"""What was found in each rig of a large audit: the last ones in memory, all others on the disk until they are read.

A result that was let go looks like any other. Its findings come back when somebody asks for them, and what was changed
in them goes back to the disk with them.
"""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable, Iterable
from dataclasses import is_dataclass
from threading import RLock
from typing import Any
from zlib import decompress

from riglint.findings.finding import AssumedValue, Finding
from riglint.findings.let_go.bodies import HeldResult, body_of
from riglint.findings.let_go.gists import Gist, InShort, elsewhere_of, gists_of
from riglint.findings.let_go.scratch import Scratch, Taken
from riglint.findings.library.as_record import NoRecordError, Records
from riglint.model.documents.known_file import KnownRow
from riglint.remembered import watching

MOST = 200  # results in memory; a library of so many rigs writes nothing to the disk


class LetGo:
    """The results of one audit."""

    def __init__(self, order: Callable[[Finding], Any], most: int = MOST) -> None:
        """Begin with none.

        Args:
            order: by what findings are sorted once all are there.
            most: how many results are held in memory; the one in use always is.
        """
        self.order, self.most, self.sorted = order, max(most, 1), False
        self._lock = RLock()
        self._held: OrderedDict[int, HeldResult] = OrderedDict()
        self._taken: dict[int, Taken] = {}  # those that are not held, and may be
        self._stay: dict[int, HeldResult] = {}  # of which no record can be made
        self._short: dict[int, InShort] = {}  # of those that are on the disk
        self._records = Records((AssumedValue, KnownRow))
        self._scratch = Scratch()
        self._numbers = 0
        self._seen: LetGo | None = None

    def take(self, told: HeldResult) -> int:
        """Take what is told of one more file, and return its number."""
        with self._lock:
            self._numbers += 1
            self._hold(self._numbers, told)
            return self._numbers

    def number(self) -> int:
        """Return a number for a file of which all is worked out again."""
        with self._lock:
            self._numbers += 1
            return self._numbers

    def take_text(self, compressed: bytes, short: InShort) -> int:
        """Take what is told of one more file as the text that it is put away as; nothing of it is read yet."""
        with self._lock:
            self._numbers += 1
            self._short[self._numbers], self._taken[self._numbers] = short, self._put_raw(compressed)
            return self._numbers

    def _put_raw(self, compressed: bytes) -> Taken:
        """Put a text away; a library that is not large writes nothing to the disk."""
        return compressed if self._numbers < self.most else self._scratch.put_raw(compressed)

    def know(self, kinds: Iterable[type]) -> None:
        """Let what is kept of rigs be of these classes."""
        self._records.known |= {one.__name__: one for one in kinds}

    def read(self, compressed: bytes) -> HeldResult:
        """Return what is told of a file in the text that it is put away as."""
        return HeldResult(*self._records.value(decompress(compressed)))

    def told(self, number: int, again: Callable[[], HeldResult] | None = None) -> HeldResult:
        """Return what is told of a file, as it is worked out again where that is given; changes in it are kept."""
        with self._lock:
            told = self._held.get(number) or self._stay.get(number)
            if told is None:
                told = (
                    again() if again is not None and number not in self._taken else self._told_again(number)
                )
                self._hold(number, told)
            elif number in self._held:
                self._held.move_to_end(number)
            return told

    def gists(self, number: int) -> tuple[Gist, ...]:
        """Return the findings of a file in short, without reading what is on the disk."""
        with self._lock:
            short = self._in_short(number)
            return short.gists if short is not None else gists_of(self.told(number).findings)

    def elsewhere(self, number: int, path: str) -> tuple[int, ...]:
        """Return a number for each fault that a file tells of a shared file."""
        with self._lock:
            short = self._in_short(number)
            return short.elsewhere if short is not None else elsewhere_of(self.told(number).findings, path)

    def mark(self, number: int) -> bytes:
        """Return a hash of all that is told of a file; empty where there is none."""
        with self._lock:
            short = self._in_short(number)
            if short is not None:
                return short.mark
            told = self.told(number)
            try:
                return body_of(self._records, self.order, told).mark
            except (NoRecordError, ValueError, TypeError):
                return b""

    def _in_short(self, number: int) -> InShort | None:
        """Return what is known of a file as it is now; None where it may have changed."""
        told = self._held.get(number)
        return self._short.get(number) if told is None or not told.changed else None

    @property
    def seen(self) -> LetGo:
        """The same results as somebody sees them."""
        with self._lock:
            if self._seen is None:
                self._seen = LetGo(self.order, self.most)
            return self._seen

    def sort(self) -> None:
        """Sort the findings of each file from now on."""
        with self._lock:
            self.sorted = True
            for told in (*self._held.values(), *self._stay.values()):
                told.findings.sort(key=self.order)

    def put_by(self, value: object) -> PutBy | None:
        """Put something by that is seldom asked for, and return what fetches it; None while there is room for it."""
        with self._lock:
            if self._numbers <= self.most:
                return None
            try:
                text = self._records.text(value)
            except (NoRecordError, ValueError, TypeError):
                return None
            return PutBy(self, self._scratch.put(text))

    def by_text(self, compressed: bytes) -> PutBy:
        """Put something by as the text that it is made of, and return what fetches it."""
        with self._lock:
            return PutBy(self, self._put_raw(compressed))

    def fetched(self, taken: Taken) -> Any:
        """Return what was put by."""
        with self._lock:
            return self._records.value(self._scratch.get(taken))

    def _hold(self, number: int, told: HeldResult) -> None:
        self._held[number] = told
        while len(self._held) > self.most:
            self._let_go(*self._held.popitem(last=False))

    def _let_go(self, number: int, told: HeldResult) -> None:
        if not told.changed:
            return
        if not self._put_away(number, told):
            self._stay[number] = told
            self._short.pop(number, None)

    def _put_away(self, number: int, told: HeldResult) -> bool:
        kind = type(told.kept)
        if is_dataclass(kind):
            self._records.known.setdefault(kind.__name__, kind)
        try:
            text, mark = body_of(self._records, self.order, told)
        except (NoRecordError, ValueError, TypeError):
            return False
        mark = mark if watching.current is not None else b""  # without a memory nobody asks for it
        short = InShort(gists_of(told.findings), elsewhere_of(told.findings, told.path), mark)
        self._short[number], self._taken[number] = short, self._scratch.put(text)
        return True

    def _told_again(self, number: int) -> HeldResult:
        told = HeldResult(*self._records.value(self._scratch.get(self._taken[number]))).as_had_again()
        if self.sorted:
            told.findings.sort(key=self.order)
            told.as_had_again()
        return told


class PutBy:
    """Something that was put by, which a call fetches."""

    __slots__ = ("results", "taken")

    def __init__(self, results: LetGo, taken: Taken) -> None:
        self.results, self.taken = results, taken

    def __call__(self) -> Any:
        """Return it."""
        return self.results.fetched(self.taken)
