"""What stands on the card for the tree, before it is printed."""

from __future__ import annotations

from riglint.findings import Finding
from riglint.records import dataclass
from riglint.views.assumed import AssumedRow
from riglint.views.audit.verdict import Verdict
from riglint.views.drawing.curves import Profile
from riglint.views.drawing.haul import HaulView


@dataclass(frozen=True, slots=True)
class Fact:
    """A figure of this rig with a word in front of it."""

    label: str
    text: str


@dataclass(frozen=True, slots=True)
class SagToRead:
    """What a folding rule must show under somebody at rest."""

    under_kg: float
    below_bare_m: float
    from_a_m: float
    least_m: float  # below the bare line, over all ends of what is assumed
    most_m: float


@dataclass(frozen=True, slots=True)
class Figures:
    """The card's own numbers; None for what is not known."""

    standing_n: float | None
    pulse_returns: int | None
    pulse_time_s: float | None  # of all returns
    pulse_least_s: float | None  # over all ends of what is assumed
    pulse_most_s: float | None
    pulse_over_m: float | None
    lead_least_n: float | None
    lead_most_n: float | None
    keep_out_m: float | None
    sags: tuple[SagToRead, ...]


@dataclass(frozen=True, slots=True)
class Row:
    """One part, or one piece of a part, in the order of the load."""

    number: str  # of the part in the chain, counted from 1; empty for a piece of it
    words: str
    take: str  # label, length, hitch, knot: what to take from the shelf and how to lay it
    force_kn: float | None = None  # in the state that leaves it the least
    ratio: float | None = None
    asked: float | None = None
    of: str = (
        ""  # whose strength the ratio is of, where that is not the part's own: `webbing inside, 28.8 kN`
    )

    @property
    def short(self) -> bool:
        """Whether the ratio falls short of what is asked."""
        return self.ratio is not None and self.asked is not None and self.ratio < self.asked


@dataclass(frozen=True, slots=True)
class Tick:
    """One thing to do or to look at, with a box."""

    words: str
    second: bool = False  # whether a second person looks, not the one who rigged


@dataclass(frozen=True, slots=True)
class CheckBox:
    """A box that is signed on site and goes into the rig file."""

    words: str
    names: tuple[str, ...]  # what each of its entries under `checks` names
    second: bool = False
    tight: bool = True  # whether it is looked at under the tension that is read


@dataclass(frozen=True, slots=True)
class Step:
    """One step of the work."""

    title: str
    ticks: tuple[Tick, ...]
    builds: bool = False  # whether the pulley system is rigged in it


@dataclass(frozen=True, slots=True)
class Card:
    """The card of one rig."""

    title: str
    path: str
    on: str
    limits: str
    fingerprint: str
    spot: str
    at_stake: str
    answer: Verdict  # in the words of the audit
    faults: tuple[Finding, ...]  # fails of DANGER and WARNING, gravest first
    open: tuple[Finding, ...]
    others: tuple[Finding, ...]  # what counts beside these and is more than a tick
    accepted: tuple[Finding, ...]
    not_judged: tuple[str, ...]
    chain: tuple[Row, ...]
    line: tuple[Fact, ...]
    reading: tuple[Fact, ...]
    haul: tuple[Fact, ...]
    stop: tuple[str, ...]
    work: tuple[Step, ...]
    emergency: tuple[Fact, ...]
    pack: tuple[Fact, ...]  # what to bring, by kind
    sign: tuple[Fact, ...]  # lines to sign by hand, by role
    missing: tuple[str, ...]
    policy: tuple[str, ...]
    caution: str
    figures: Figures
    profile: Profile | None
    pulleys: HaulView | None  # as they are reeved, and in what order they are built
    assumed: tuple[AssumedRow, ...] = ()  # values that the files leave out and the parts tell
    what_if: tuple[str, ...] = ()  # values taken instead of the file's, one sentence each
    boxes: tuple[CheckBox, ...] = ()  # still to be signed; none where the values are no file's
    standing_text: str = ""  # as the file has it; a check below it counts for nothing
    settings: tuple[str, ...] = ()  # what the library's mark file sets
