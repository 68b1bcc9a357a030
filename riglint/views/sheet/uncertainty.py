"""Each result with its ±, what each stated ± adds to it, and the guidance where none is stated."""

from __future__ import annotations

from riglint.loads.what_if.sensitivity import Ranking, Sensitivity
from riglint.loads.what_if.typical_errors import TypicalError
from riglint.records import dataclass
from riglint.views.blocks import ReportPlace, place_of


@dataclass(frozen=True, slots=True)
class Spread:
    """One result with its ±; None for what is not known."""

    value: float | None
    plus_minus: float | None
    of: str  # the state or the part that governs it; empty where none does


@dataclass(frozen=True, slots=True)
class InputMoved:
    """One input, and what moving it by so much adds to each result."""

    at: ReportPlace
    text: str
    moved_by: str
    peak_n: float | None
    ratio: float | None
    clearance_m: float | None
    share_of_peak: float | None  # of the square of the whole ±
    share_of_ratio: float | None
    share_of_clearance: float | None


@dataclass(frozen=True, slots=True)
class Uncertainty:
    """How sure the results are."""

    peak_n: Spread
    ratio: Spread
    clearance_m: Spread
    stated: tuple[InputMoved, ...]
    left_out: tuple[str, ...]  # keys of inputs that were too many to weigh
    guidance: tuple[InputMoved, ...]


def uncertainty_of(ranked: Ranking) -> Uncertainty:
    """Return how sure the results are."""
    here = ranked.results
    return Uncertainty(
        Spread(here.peak_n, ranked.plus_minus("peak_n"), here.peak_state),
        Spread(here.ratio, ranked.plus_minus("ratio"), here.ratio_part),
        Spread(here.clearance_m, ranked.plus_minus("clearance_m"), here.clearance_state),
        tuple(_moved(ranked, one) for one in ranked.stated),
        tuple(one.at.key_text for one in ranked.left_out),
        tuple(_moved(ranked, one) for one in ranked.assumed),
    )


def _moved(ranked: Ranking, one: Sensitivity) -> InputMoved:
    return InputMoved(
        place_of(one.input.at),
        one.input.text,
        one.input.by if isinstance(one.input, TypicalError) else "its ±",
        one.peak_n,
        one.ratio,
        one.clearance_m,
        ranked.share(one, "peak_n"),
        ranked.share(one, "ratio"),
        ranked.share(one, "clearance_m"),
    )
