"""The gear of a library as its keeper sees it, before it is printed."""

from __future__ import annotations

from datetime import date

from riglint.records import dataclass


@dataclass(frozen=True, slots=True)
class Use:
    """A rig that uses a piece; no days where its plan does not say them."""

    rig: str
    stage: str
    first: date | None
    last: date | None

    def up_on(self, day: date) -> bool | None:
        """Return whether the rig is up on a day; None where its plan doesn't say."""
        if self.first is None:
            return False if self.stage == "lowered" else None
        if self.last is None and self.stage != "lowered" and day > self.first:
            return None
        return self.first <= day <= (self.last or self.first)


@dataclass(frozen=True, slots=True)
class Piece:
    """One piece of gear."""

    id: str
    listed_in: str
    kind: str
    checked: date | None
    due: date | None  # None where no check is on file
    retires: date | None  # None for metal, and where nobody wrote down when it was made
    ages: bool  # whether it has an age at all
    asked: bool  # whether it is asked for a yearly check
    out: str  # why it is out of use; empty where it is not
    uses: tuple[Use, ...]

    def overdue(self, on: date) -> bool:
        """Return whether its check is overdue on a day, or not on file."""
        return self.asked and not self.out and (self.due is None or self.due < on)

    def too_old(self, on: date) -> bool:
        """Return whether it must be retired by a day."""
        return not self.out and self.retires is not None and self.retires < on


@dataclass(frozen=True, slots=True)
class GearBook:
    """All that is asked about the gear of a library."""

    folder: str
    on: date
    pieces: tuple[Piece, ...]
    piece: str | None  # the one piece that was asked for
    day: date | None  # the day that was asked for
    undated: tuple[str, ...]  # rigs whose plan doesn't say whether they are up on that day
    unread: tuple[str, ...]
    caution: str
    settings: tuple[str, ...] = ()  # what the library's mark file sets

    @property
    def attention(self) -> bool:
        """Whether a piece shown here is overdue, too old or out of use where a rig still counts on it."""
        day = self.day or self.on
        return any(one.overdue(day) or one.too_old(day) or (one.out and one.uses) for one in self.pieces)
