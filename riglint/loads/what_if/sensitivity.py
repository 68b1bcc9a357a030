"""Which input matters most: what the ± of each does to the results of a rig, and what a guess at it would do.

First order, as in `riglint.loads.what_if.uncertain_inputs`. Two lists are kept apart: inputs that state a ±,
whose effects add up to the ± of a result; and, for guidance, main inputs that state none, moved by an error that
nobody measured.
"""

from __future__ import annotations

from collections.abc import Iterable

from riglint.loadpath import build
from riglint.loads.inputs import MissingInput, NotComputable
from riglint.loads.path.parts import Worst
from riglint.loads.rig_loads import Loads
from riglint.loads.what_if.typical_errors import TypicalError, typical_errors_for
from riglint.loads.what_if.uncertain_inputs import UncertainInput, combined, moved_ones, nudged_loads
from riglint.records import dataclass

ROUNDING = 1e-9  # of a result; what moves it less is rounding, and another machine would round otherwise


@dataclass(frozen=True, slots=True)
class SensitivityFigures:
    """What a rig is judged by most, each where it can be computed, with what governs it."""

    peak_n: float | None = None  # greatest tension in the webbing at any peak
    peak_state: str = ""
    ratio: float | None = None  # least ratio of strength to peak of any part of the main line
    ratio_part: str = ""
    clearance_m: float | None = None  # least clearance of any state in which the line must clear the ground
    clearance_state: str = ""


@dataclass(frozen=True, slots=True)
class Sensitivity:
    """What one input does to the results of a rig; None where a result cannot be computed.

    Signed: what a value one ± higher adds (half the difference between both ends).
    """

    input: UncertainInput | TypicalError
    peak_n: float | None
    ratio: float | None
    clearance_m: float | None


@dataclass(frozen=True, slots=True)
class Ranking:
    """The results of a rig, what each ± does to them, and for guidance what an error elsewhere would do."""

    results: SensitivityFigures
    stated: tuple[Sensitivity, ...]  # what matters most first
    left_out: tuple[UncertainInput, ...]  # state a ± and are taken as exact, since there are too many
    assumed: tuple[Sensitivity, ...]  # main inputs without a ±, what would matter most first

    def plus_minus(self, result: str) -> float | None:
        """Return the ± of `peak_n`, `ratio` or `clearance_m`: the root of the sum of squares; None without any."""
        if not self.stated or getattr(self.results, result) is None:
            return None
        return combined([effect for _, effect in self._effects(result)])

    def share(self, one: Sensitivity, result: str) -> float | None:
        """Return the share of one stated input in the square of a result's ±."""
        whole, effect = self.plus_minus(result), getattr(one, result)
        return (effect / whole) ** 2 if whole and effect is not None else None

    def _effects(self, result: str) -> list[tuple[Sensitivity, float]]:
        found = [(one, getattr(one, result)) for one in self.stated]
        return [(one, effect) for one, effect in found if effect is not None]


def ranking(loads: Loads) -> Ranking:
    """Return how much each input of a rig matters; costs two computations of the whole rig for each."""
    _, left_out = moved_ones(loads.path.rig)
    errors = [_assumed(loads, one) for one in typical_errors_for(loads)]
    here = results(loads)
    return Ranking(here, tuple(sensitivities(loads)), tuple(left_out), tuple(_ranked(errors, here)))


def sensitivities(loads: Loads) -> list[Sensitivity]:
    """Return what each uncertain input does to peak tension, least ratio and clearance, what matters most first.

    Ranked by the share of the least ratio that an input moves, else of the peak, else by the clearance. Empty where no
    input has a ±. Costs two computations of the whole rig for each input, at most `MOST` of them; never raises for a
    rig that is not whole.
    """
    rig = loads.path.rig
    inputs, _ = moved_ones(rig)
    if not inputs:
        return []
    found = []
    for one in inputs:
        low, high = (results(nudged_loads(loads, one, by)) for by in (-1.0, 1.0))
        found.append(_effect(one, low, high))
    return _ranked(found, results(loads))


def results(loads: Loads) -> SensitivityFigures:
    """Return greatest peak tension, least ratio and least clearance, each where it can be computed."""
    try:
        peaks = loads.peaks()
        cleared = (
            loads.cleared("line", "line_when_tied", "body") if _fall_counts(loads) else loads.cleared("line")
        )
    except (MissingInput, NotComputable, ValueError):  # a ± beyond the value itself ends where no line is
        return SensitivityFigures()
    ratios: list[tuple[Worst, str]] = []
    try:
        for load in loads.parts:
            worst = load.worst(peaks)
            ratios += [(worst, f"{load.id} {load.words}, {worst.state}")] if worst else []
    except (MissingInput, NotComputable, ValueError):
        ratios = []
    clear = [
        (state.least_clearance_m, state.name) for state in cleared if state.least_clearance_m is not None
    ]
    peak, peak_state = max(((state.tension_n, state.name) for state in peaks), default=(None, ""))
    least, part = min(ratios, key=lambda one: one[0].order) if ratios else (None, "")
    clearance, clear_state = min(clear, default=(None, ""))
    return SensitivityFigures(peak, peak_state, least.ratio if least else None, part, clearance, clear_state)


def _fall_counts(loads: Loads) -> bool:
    """Return whether a bounce or fall must clear the ground: on a leash and over water; elsewhere people step off."""
    spot = loads.path.rig.spot
    surface = spot.ground.surface if spot is not None and spot.ground is not None else None
    return loads.path.rig.rig.leash is not None or surface == "water"


def _assumed(loads: Loads, one: TypicalError) -> Sensitivity:
    low, high = (results(Loads(build(one.moved(by)), loads.values, loads.on)) for by in (-1.0, 1.0))
    return _effect(one, low, high)


def _effect(
    one: UncertainInput | TypicalError, low: SensitivityFigures, high: SensitivityFigures
) -> Sensitivity:
    return Sensitivity(
        one,
        _half(low.peak_n, high.peak_n),
        _half(low.ratio, high.ratio),
        _half(low.clearance_m, high.clearance_m),
    )


def _half(low: float | None, high: float | None) -> float | None:
    if low is None or high is None:
        return None
    half = (high - low) / 2.0
    return half if abs(half) > ROUNDING * max(abs(low), abs(high)) else 0.0


def _ranked(found: Iterable[Sensitivity], here: SensitivityFigures) -> list[Sensitivity]:
    def weight(one: Sensitivity) -> tuple[float, float, float]:
        clear = abs(one.clearance_m) if one.clearance_m is not None else 0.0
        return -_share(one.ratio, here.ratio), -_share(one.peak_n, here.peak_n), -clear

    return sorted(found, key=weight)


def _share(effect: float | None, whole: float | None) -> float:
    return abs(effect / whole) if effect is not None and whole else 0.0
