"""What the text report copies of the report before it: answers and passages on rigs that are told of alike."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import astuple
from functools import partial
from json import dumps, loads

from riglint.findings import FileResult, Finding
from riglint.remembered.looks import digest
from riglint.remembered.pieces import Pieces
from riglint.rulekit import Signal
from riglint.views.audit.verdict import Verdict, verdict_of

Known = Callable[[Callable[[], str]], str] | None


class Copied:
    """The passages of one report, by what they tell of."""

    def __init__(self, pieces: Pieces | None) -> None:
        """Take the pieces that are known; without any, everything is made."""
        self.pieces = pieces
        self._keys: dict[str, bytes] = {}  # of the answers, by the path of the rig
        self._told: dict[int, tuple[Finding, bytes]] = {}  # in full, by its number in memory, which it keeps

    def verdict(self, result: FileResult, shared: Sequence[Finding]) -> Verdict:
        """Return the answer for one file, with what counts in the shared files that touch it."""
        key = self._key(result, shared)
        if self.pieces is None or not key:
            return verdict_of(result, shared)
        self._keys[result.path] = key
        text = self.pieces.text(digest(b"answer", key), lambda: dumps(astuple(verdict_of(result, shared))))
        word, signal, *more = loads(text)
        return Verdict(word, None if signal is None else Signal(signal), *more)

    def row(self, result: FileResult) -> Known:
        """Return what gives the row of a rig among the others."""
        return self._known(b"row", result)

    def passage(self, result: FileResult, own: Verdict | None, beside: str) -> Known:
        """Return what gives the passage of a rig with its answer, where that stands there, and what stands beside."""
        return self._known(b"passage", result, repr((own, beside)))

    def _known(self, what: bytes, result: FileResult, more: str = "") -> Known:
        key = self._keys.get(result.path)
        if self.pieces is None or key is None:
            return None
        return partial(self.pieces.text, digest(what, key, _as_bytes(more)))

    def _key(self, result: FileResult, shared: Sequence[Finding]) -> bytes:
        """Return a hash of all that a report tells of a file; empty where it has to be made."""
        mark = result.mark if self.pieces is not None else b""
        if not mark:
            return b""
        rules = result.rules
        counts = rules and (len(rules.judged), len(rules.open), len(rules.not_applicable), len(rules.crashed))
        told = (result.path, result.kind, result.title, result.judged, result.not_judged, counts)
        return digest(mark, _as_bytes(repr(told)), *map(self._whole, shared))

    def _whole(self, finding: Finding) -> bytes:
        if id(finding) not in self._told:
            self._told[id(finding)] = finding, _as_bytes(repr(finding))
        return self._told[id(finding)][1]


def _as_bytes(text: str) -> bytes:
    return text.encode("utf-8", "surrogatepass")
