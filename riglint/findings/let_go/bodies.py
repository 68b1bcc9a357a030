"""What was found in one rig as a text, and a hash of it that is the same in whatever order it was found."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, NamedTuple

from riglint.findings.finding import AssumedValue, Finding
from riglint.findings.let_go.gists import InShort
from riglint.findings.library.as_record import Records
from riglint.remembered.looks import digest

Order = Callable[[Finding], Any]


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


class Later(NamedTuple):
    """What was found in one rig, from memory, and read when somebody asks for it."""

    body: bytes  # compressed
    short: InShort
    plan: bytes  # what is planned for the day, compressed; empty where that is not known


class Body(NamedTuple):
    """What was found in one rig, as it is put away."""

    text: bytes
    mark: bytes


def body_of(records: Records, order: Order, told: HeldResult) -> Body:
    """Return what was found as a text, and its hash; an empty one where a report would need more than that.

    Raises:
        NoRecordError, ValueError, TypeError: a part of it has no text.
    """
    each = [records.text(one) for one in told.findings]
    ends = records.text(told.kept), records.text(told.assumed)
    text = b'{"tuple":[%s,[%s],%s,%s]}' % (records.text(told.path), b",".join(each), *ends)
    if told.kept is None:
        return Body(text, b"")
    ordered = sorted(range(len(each)), key=lambda n: order(told.findings[n]))
    return Body(text, digest(told.path.encode("utf-8", "surrogatepass"), *ends, *(each[n] for n in ordered)))
