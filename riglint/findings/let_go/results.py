"""What was found in each rig of a large audit: the last ones in memory, all others on the disk until they are read.

A result that was let go looks like any other. Its findings come back when somebody asks for them, and what was changed
in them goes back to the disk with them.
"""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable
from dataclasses import fields, is_dataclass
from functools import partial
from threading import RLock
from typing import Any

from riglint.findings.finding import AssumedValue, FileResult, Finding
from riglint.findings.let_go.gists import Gist, gists_of
from riglint.findings.let_go.scratch import Scratch, Taken
from riglint.findings.library.as_record import NoRecordError, Records
from riglint.model.documents.known_file import KnownRow

MOST = 200  # results in memory; a library of so many rigs writes nothing to the disk


class HeldResult:
    """What takes room in a result."""

    __slots__ = ("assumed", "findings", "kept", "path", "put_away")

    def __init__(
        self, path: str, findings: list[Finding], kept: Any, assumed: tuple[AssumedValue, ...]
    ) -> None:
        self.path = path
        self.findings, self.kept, self.assumed = findings, kept, assumed
        self.put_away: tuple[object, ...] = ()  # as it can be had again

    def as_had_again(self) -> HeldResult:
        """Note that it can be had again as it is now."""
        self.put_away = (self.kept, self.assumed, *self.findings)
        return self

    @property
    def changed(self) -> bool:
        """Whether it is other than it can be had again."""
        now = (self.kept, self.assumed, *self.findings)
        return len(now) != len(self.put_away) or any(
            one is not other for one, other in zip(now, self.put_away, strict=True)
        )


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
        self._gists: dict[int, tuple[Gist, ...]] = {}  # of those that are on the disk
        self._records = Records((AssumedValue, KnownRow))
        self._scratch = Scratch()
        self._numbers = 0
        self._seen: LetGo | None = None

    def take(
        self,
        told: HeldResult,
        again: Callable[[], HeldResult] | None = None,
        gists: tuple[Gist, ...] = (),
    ) -> int:
        """Hold what is told of one more file, and return its number; of one that can be had again, in short as well."""
        with self._lock:
            self._numbers += 1
            if gists:
                self._gists[self._numbers] = gists
            if again is not None:
                self._again[self._numbers] = again
            else:
                self._hold(self._numbers, told)
            return self._numbers

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

    def gists(self, number: int, path: str) -> tuple[Gist, ...]:
        """Return the findings of a file in short, without reading what is on the disk."""
        with self._lock:
            if number not in self._held and number in self._gists:
                return self._gists[number]
            return gists_of(self.told(number).findings, path)

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
        again = self._put_away(told)
        if again is None:
            self._stay[number] = told
            return
        self._again[number] = again
        self._gists[number] = gists_of(told.findings, told.path)

    def _put_away(self, told: HeldResult) -> Callable[[], HeldResult] | None:
        kind = type(told.kept)
        if is_dataclass(kind):
            self._records.known.setdefault(kind.__name__, kind)
        try:
            text = self._records.text((told.path, told.findings, told.kept, told.assumed))
        except (NoRecordError, ValueError, TypeError):
            return None
        return partial(self._told_again, self._scratch.put(text))

    def _told_again(self, taken: Taken) -> HeldResult:
        path, findings, kept, assumed = self._records.value(self._scratch.get(taken))
        told = HeldResult(path, findings, kept, assumed).as_had_again()
        if self.sorted:
            told.findings.sort(key=self.order)
            told.as_had_again()
        return told


class ResultAgain(FileResult):
    """A result whose findings may be on the disk."""

    __slots__ = ("_number", "_results", "_told")

    def __init__(self, *given: Any, **named: Any) -> None:
        self._results: LetGo | None = None
        self._number = 0
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
            return gists_of(self.findings, self.path)
        return self._results.gists(self._number, self.path)

    def seen_as(self, seen: Callable[[FileResult], list[Finding]]) -> FileResult:
        """Return the same result with its findings as somebody sees them, worked out when they are asked for."""
        if self._results is None:
            return super().seen_as(seen)
        return self._seen_as(seen, ())

    def reworded(self, words: Callable[[FileResult], list[Finding]]) -> FileResult:
        """Return the same result with its findings in other words, which are found when they are asked for."""
        return self.seen_as(words) if self._results is None else self._seen_as(words, self.gists)

    def _seen_as(self, seen: Callable[[FileResult], list[Finding]], gists: tuple[Gist, ...]) -> FileResult:
        assert self._results is not None  # noqa: S101 - asked above
        copied = {one.name: getattr(self, one.name) for one in fields(self) if one.name not in _LARGE}
        made = ResultAgain(**copied)
        made._results = self._results.seen
        made._number = made._results.take(made._now(), partial(_seen, self, seen), gists)
        made._told = None
        return made


_LARGE = {"findings", "kept", "assumed"}


def _seen(result: FileResult, seen: Callable[[FileResult], list[Finding]]) -> HeldResult:
    return HeldResult(result.path, seen(result), result.kept, result.assumed).as_had_again()
