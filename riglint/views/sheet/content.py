"""What stands on a calculation sheet, before it is printed."""

from __future__ import annotations

from riglint.records import dataclass
from riglint.views.assumed import AssumedRow
from riglint.views.blocks import Section
from riglint.views.drawing.bars import Bar
from riglint.views.drawing.curves import Profile, Tensions
from riglint.views.sheet.results import Results


@dataclass(frozen=True, slots=True)
class Sheet:
    """The calculation sheet of one rig."""

    title: str
    path: str
    on: str
    limits: str
    at_stake: str
    sections: tuple[Section, ...]
    missing: tuple[str, ...]
    caution: str
    results: Results
    profile: Profile | None = None
    tensions: Tensions | None = None
    bars: tuple[Bar, ...] = ()
    assumed: tuple[AssumedRow, ...] = ()  # values that the files leave out and the parts tell
    what_if: tuple[str, ...] = ()  # values taken instead of the file's, one sentence each
    settings: tuple[str, ...] = ()  # what the library's mark file sets

    @property
    def beside(self) -> str:
        """Which file and day the sheet is of."""
        return f"{self.path}, as of {self.on}, {self.limits}"
