"""What was found in each rig of a large audit: the last ones in memory, all others on the disk until they are read.

A result that was let go looks like any other. Its findings come back when somebody asks for them, and what was changed
in them goes back to the disk with them.
"""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable, Iterable
from dataclasses import fields, is_dataclass
from functools import partial
from threading import RLock
from typing import Any
from zlib import decompress

from riglint.findings.finding import AssumedValue, FileResult, Finding
from riglint.findings.let_go.bodies import HeldResult, body_of
from riglint.findings.let_go.gists import Gist, InShort, elsewhere_of, gists_of
from riglint.findings.let_go.scratch import Scratch, Taken
from riglint.findings.library.as_record import NoRecordError, Records
from riglint.model.documents.known_file import KnownRow

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
        self._again: dict[int, Callable[[], HeldResult]] = {}  # of those that are not held, and may be
        self._stay: dict[int, HeldResult] = {}  # of which no record can be made
        self._short: dict[int, InShort] = {}  # of those that are on the disk
        self._records = Records((AssumedValue, KnownRow))
        self._scratch = Scratch()
        self._numbers = 0
        self._seen: LetGo | None = None

    def take(
        self,
        told: HeldResult | None,
        again: Callable[[], HeldResult] | None = None,
        short: InShort | None = None,
    ) -> int:
        """Take what is told of one more file, and return its number; of one that can be had again, in short as well."""
        with self._lock:
            self._numbers += 1
            if short is not None:
                self._short[self._numbers] = short
            if again is not None:
                self._again[self._numbers] = again
            elif told is not None:
                self._hold(self._numbers, told)
            return self._numbers

    def take_text(self, compressed: bytes, short: InShort) -> int:
        """Take what is told of one more file as the text that it is put away as; nothing of it is read yet."""
        with self._lock:
            return self.take(None, partial(self._told_again, self._put_raw(compressed)), short)

    def _put_raw(self, compressed: bytes) -> Taken:
        """Put a text away; a library that is not large writes nothing to the disk."""
        return compressed if self._numbers < self.most else self._scratch.put_raw(compressed)

    def know(self, kinds: Iterable[type]) -> None:
        """Let what is kept of rigs be of these classes."""
        self._records.known |= {one.__name__: one for one in kinds}

    def read(self, compressed: bytes) -> HeldResult:
        """Return what is told of a file in the text that it is put away as."""
        return HeldResult(*self._records.value(decompress(compressed)))

    def told(self, number: int) -> HeldResult:
        """Return what is told of a file; whatever is changed in it is kept."""
        with self._lock:
            told = self._held.get(number) or self._stay.get(number)
            if told is None:
                told = self._again[number]()
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

    def put_by(self, value: object) -> Callable[[], Any] | None:
        """Put something by that is seldom asked for, and return what fetches it; None while there is room for it."""
        with self._lock:
            if self._numbers <= self.most:
                return None
            try:
                text = self._records.text(value)
            except (NoRecordError, ValueError, TypeError):
                return None
            return partial(self._fetched, self._scratch.put(text))

    def by_text(self, compressed: bytes) -> Callable[[], Any]:
        """Put something by as the text that it is made of, and return what fetches it."""
        with self._lock:
            return partial(self._fetched, self._put_raw(compressed))

    def _fetched(self, taken: Taken) -> Any:
        with self._lock:
            return self._records.value(self._scratch.get(taken))

    def _hold(self, number: int, told: HeldResult) -> None:
        self._held[number] = told
        while len(self._held) > self.most:
            self._let_go(*self._held.popitem(last=False))

    def _let_go(self, number: int, told: HeldResult) -> None:
        if not told.changed:
            return
        again = self._put_away(number, told)
        if again is None:
            self._stay[number] = told
            self._short.pop(number, None)
            return
        self._again[number] = again

    def _put_away(self, number: int, told: HeldResult) -> Callable[[], HeldResult] | None:
        kind = type(told.kept)
        if is_dataclass(kind):
            self._records.known.setdefault(kind.__name__, kind)
        try:
            text, mark = body_of(self._records, self.order, told)
        except (NoRecordError, ValueError, TypeError):
            return None
        short = InShort(gists_of(told.findings), elsewhere_of(told.findings, told.path), mark)
        self._short[number] = short
        return partial(self._told_again, self._scratch.put(text))

    def _told_again(self, taken: Taken) -> HeldResult:
        told = HeldResult(*self._records.value(self._scratch.get(taken))).as_had_again()
        if self.sorted:
            told.findings.sort(key=self.order)
            told.as_had_again()
        return told


class ResultAgain(FileResult):
    """A result whose findings may be on the disk."""

    __slots__ = ("_number", "_results", "_same_as", "_told")

    def __init__(self, *given: Any, **named: Any) -> None:
        self._results: LetGo | None = None
        self._number = 0
        self._same_as: FileResult | None = None  # the same in other words
        self._told: HeldResult | None = HeldResult("", [], None, ())
        super().__init__(*given, **named)

    @classmethod
    def of(cls, result: FileResult, results: LetGo) -> ResultAgain:
        """Return a result that is let go with others."""
        made = cls(**{one.name: getattr(result, one.name) for one in fields(result)})
        told = made._now()
        told.path = result.path
        made._number, made._results, made._told = results.take(told), results, None
        return made

    @classmethod
    def of_text(cls, result: FileResult, results: LetGo, compressed: bytes, short: InShort) -> ResultAgain:
        """Return a result whose findings stand in a text that is not read yet."""
        made = cls(**{one.name: getattr(result, one.name) for one in fields(result)})
        made._number, made._results, made._told = results.take_text(compressed, short), results, None
        return made

    def _now(self) -> HeldResult:
        return self._told or self._results.told(self._number)  # type: ignore[union-attr]  # it has one or the other

    @property
    def findings(self) -> list[Finding]:
        """What was found."""
        return self._now().findings

    @findings.setter
    def findings(self, findings: list[Finding]) -> None:
        self._now().findings = findings

    @property
    def kept(self) -> Any:
        """What whoever called keeps of a rig's loads."""
        return self._now().kept

    @kept.setter
    def kept(self, kept: Any) -> None:
        self._now().kept = kept

    @property
    def assumed(self) -> tuple[AssumedValue, ...]:
        """What the rig leaves out and its parts tell."""
        return self._now().assumed

    @assumed.setter
    def assumed(self, assumed: tuple[AssumedValue, ...]) -> None:
        self._now().assumed = assumed

    @property
    def gists(self) -> tuple[Gist, ...]:
        """Each finding in short."""
        if self._results is None:
            return gists_of(self.findings)
        return self._results.gists(self._number)

    @property
    def elsewhere(self) -> tuple[int, ...]:
        """A number for each fault that stands in a shared file."""
        if self._results is None:
            return super().elsewhere
        return self._results.elsewhere(self._number, self.path)

    @property
    def mark(self) -> bytes:
        """A hash of all that was found."""
        if self._same_as is not None:
            return self._same_as.mark
        return b"" if self._results is None else self._results.mark(self._number)

    def seen_as(self, seen: Callable[[FileResult], list[Finding]]) -> FileResult:
        """Return the same result with its findings as somebody sees them, worked out when they are asked for."""
        if self._results is None:
            return super().seen_as(seen)
        return self._seen_as(seen, None)

    def reworded(self, words: Callable[[FileResult], list[Finding]]) -> FileResult:
        """Return the same result with its findings in other words, which are found when they are asked for."""
        if self._results is None:
            return self.seen_as(words)
        same = self._seen_as(words, InShort(self.gists))
        same._same_as = self  # noqa: SLF001 - its own
        return same

    def _seen_as(self, seen: Callable[[FileResult], list[Finding]], short: InShort | None) -> ResultAgain:
        assert self._results is not None  # noqa: S101 - asked above
        copied = {one.name: getattr(self, one.name) for one in fields(self) if one.name not in _LARGE}
        made = ResultAgain(**copied)
        made._results = self._results.seen
        made._number = made._results.take(None, partial(_seen, self, seen), short)
        made._told = None
        return made


_LARGE = {"findings", "kept", "assumed"}


def _seen(result: FileResult, seen: Callable[[FileResult], list[Finding]]) -> HeldResult:
    return HeldResult(result.path, seen(result), result.kept, result.assumed).as_had_again()
