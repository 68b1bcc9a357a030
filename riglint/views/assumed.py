"""What a rig leaves out and its parts tell, as every document says it: the value, why, and what it decides."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from riglint.findings.finding import AssumedValue
from riglint.loads import Loads
from riglint.loads.inputs import known
from riglint.loads.what_if.sensitivity import results
from riglint.records import dataclass
from riglint.views.blocks import sourced
from riglint.views.figures import fixed

TITLE = "Assumed, since the file does not say"
SPREAD_TITLE, VERDICTS_TITLE = "range", "verdicts"


@dataclass(frozen=True, slots=True)
class AssumedRow:
    """One assumed value: what it is of, and a sentence or two on it."""

    label: str
    text: str


def assumed_rows(assumed: Sequence[AssumedValue]) -> tuple[AssumedRow, ...]:
    """Return each assumed value with what tells it; first those that decide a verdict, with the rules."""
    deciding = [one for one in assumed if one.decides]
    others = [one for one in assumed if not one.decides]
    rows = [AssumedRow(one.name, f"{one.value}, from {one.why}. {_decides(one)}") for one in deciding]
    rows += [AssumedRow(one.name, f"{one.value}, from {one.why}.") for one in others]
    if others:
        which = ("the other", "the others") if deciding else ("this", "these")
        rows.append(AssumedRow(VERDICTS_TITLE, f"none here depends on {which[len(others) > 1]}."))
    return tuple(rows)


def assumed_of(each: Sequence[Loads]) -> tuple[AssumedRow, ...]:
    """Return each assumed value of a rig with what tells it and its source, and what the results range over.

    Args:
        each: the rig at each end of what is assumed, as `at_each_end` returns it.
    """
    rows = [
        AssumedRow(
            one.name, f"{one.value}, from {one.why} ({sourced(one.source)}). To know it, {one.look_up}."
        )
        for one in each[0].path.rig.assumed
    ]
    spread = ranges(each)
    return (*rows, *((spread,) if spread else ()))


def ranges(each: Sequence[Loads]) -> AssumedRow | None:
    """Return between which values the main results lie, over all ends of what is assumed; None where none moves."""
    texts = [text for name, unit, of in _RESULTS if (text := _range(name, unit, [of(one) for one in each]))]
    if not texts:
        return None
    with_two = [one.ends[0].text for one in each[0].path.rig.assumed if len(one.ends) > 1]
    first = f"Figures here are computed with {', '.join(with_two)}."
    return AssumedRow(SPREAD_TITLE, f"{'; '.join(texts)}. {first}")


def _decides(one: AssumedValue) -> str:
    return f"It decides {', '.join(one.decides)}. To know it, {one.look_up}, and write {one.at.key}."


def _clearance_m(loads: Loads) -> float | None:
    return results(loads).clearance_m


def _peak_kn(loads: Loads) -> float | None:
    peak_n = results(loads).peak_n
    return None if peak_n is None else peak_n / 1000.0


def _cut_m(loads: Loads) -> float | None:
    return known(loads.cut_needed_m)


def _travel_m(loads: Loads) -> float | None:
    return known(lambda: loads.standing.block_run.travel_m) if loads.haul is not None else None


_RESULTS: tuple[tuple[str, str, Callable[[Loads], float | None]], ...] = (
    ("greatest peak tension", "kN", _peak_kn),
    ("least ratio", "", lambda loads: results(loads).ratio),
    ("least clearance", "m", _clearance_m),
    ("webbing to cut", "m", _cut_m),
    ("travel of the blocks", "m", _travel_m),
)


def _range(name: str, unit: str, values: Sequence[float | None]) -> str:
    known_ones = sorted(one for one in values if one is not None)
    if len(known_ones) < len(values):
        return f"{name} not known at each" if known_ones else ""
    least, most = (fixed(one, 2) for one in (known_ones[0], known_ones[-1]))
    return f"{name} {least} to {most} {unit}".strip() if least != most else ""


def in_sentences(rows: Sequence[AssumedRow]) -> Iterator[str]:
    """Yield each row as one paragraph."""
    for one in rows:
        yield f"{one.label}: {one.text}"
