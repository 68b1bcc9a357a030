"""A result that was let go and looks like any other: its findings come back when somebody asks for them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import fields
from typing import Any

from riglint.findings.finding import AssumedValue, FileResult, Finding
from riglint.findings.let_go.bodies import HeldResult
from riglint.findings.let_go.gists import Gist, InShort
from riglint.findings.let_go.results import LetGo


class ResultAgain(FileResult):
    """A result whose findings may be on the disk."""

    __slots__ = ("_base", "_number", "_results", "_told", "_words")

    def __init__(self, *given: Any, **named: Any) -> None:
        self._results: LetGo | None = None
        self._number = 0
        self._base: FileResult | None = None  # what somebody sees in other words, or in part
        self._words: Callable[[FileResult], list[Finding]] | None = None  # gives the findings from it
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
        if self._told is not None:
            return self._told
        assert self._results is not None  # noqa: S101 - it has one or the other
        return self._results.told(self._number, self._seen if self._base is not None else None)

    def _seen(self) -> HeldResult:
        base, words = self._base, self._words
        assert base is not None and words is not None  # noqa: S101, PT018 - it has both or none
        return HeldResult(base.path, words(base), base.kept, base.assumed).as_had_again()

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
        if self._results is None or self._base is not None:
            return super().gists
        return self._results.gists(self._number)

    @property
    def elsewhere(self) -> tuple[int, ...]:
        """A number for each fault that stands in a shared file."""
        if self._results is None or self._base is not None:
            return super().elsewhere
        return self._results.elsewhere(self._number, self.path)

    @property
    def mark(self) -> bytes:
        """A hash of all that was found."""
        if self._results is None or self._base is not None:
            return b""
        return self._results.mark(self._number)

    def seen_as(self, seen: Callable[[FileResult], list[Finding]]) -> FileResult:
        """Return the same result with its findings as somebody sees them, worked out when they are asked for."""
        if self._results is None:
            return super().seen_as(seen)
        return ResultAgain.seen_in(self, seen, self._results.seen)

    def reworded(self, words: Callable[[FileResult], list[Finding]]) -> FileResult:
        """Return the same result with its findings in other words, which are found when they are asked for."""
        if self._results is None:
            return super().seen_as(words)
        return ResultReworded.seen_in(self, words, self._results.seen)

    @classmethod
    def seen_in(
        cls, base: FileResult, words: Callable[[FileResult], list[Finding]], results: LetGo
    ) -> ResultAgain:
        """Return a result whose findings are worked out from another one when they are asked for."""
        made = cls(**{one.name: getattr(base, one.name) for one in fields(base) if one.name not in _LARGE})
        made._results, made._base, made._words, made._told = results, base, words, None
        made._number = results.number()
        return made


class ResultReworded(ResultAgain):
    """The same result in other words: what reports count of it is as before."""

    __slots__ = ()

    @property
    def gists(self) -> tuple[Gist, ...]:
        """Each finding in short."""
        return self._base.gists if self._base is not None else super().gists

    @property
    def mark(self) -> bytes:
        """A hash of all that was found, in whatever words."""
        return self._base.mark if self._base is not None else super().mark


_LARGE = {"findings", "kept", "assumed"}
