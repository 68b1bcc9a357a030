"""No figure at the head of a report, on the card or of a reading is milder for a key left out than with its value."""

from random import Random
from typing import Any, NamedTuple

import pytest

from riglint.findings import judge
from riglint.loads import Loads
from riglint.loads.assumed import at_each_end, loads_of
from riglint.loads.inputs import known
from riglint.loads.states.consequence import CLASSES
from riglint.loads.what_if.sensitivity import results
from riglint.model.documents.rig import Measured
from riglint.policy import DEFAULT
from riglint.read.quantity import Dimension, Quantity, parse_quantity
from riglint.testing import as_text, edit_value, rig_of
from riglint.views.card.numbers import figures, line_facts
from riglint.views.gauge.build import gauge_rig
from tests.faults.seeded import BOOK, ON
from tests.silence.assumed import LeftOut, allowed, judged, left_out, with_value, without

SEED, MOST = 20260502, 3
ROUNDING = 1e-6
NEARLY = 2e-3  # a slack light line may pull a tenth of a per cent harder than a heavy one; a curve is no straight line
TENSIONS = {"low": ("1.3 kN", "2.6 kN", "4.5 kN"), "highline": ("1.5 kN", "5 kN")}
CASES = [(one, tension) for rig, all_of in TENSIONS.items() for tension in all_of for one in left_out(rig)]


def named(one: LeftOut | str) -> str:
    return one if isinstance(one, str) else f"{one.rig} {one.keys[0]}"


class Pair(NamedTuple):
    """One rig with a key left out, and with values that the key may have."""

    left_out: Loads
    written: tuple[Loads, ...]


def pair(one: LeftOut, tension: str) -> Pair:
    def at_tension(data: dict[str, Any]) -> dict[str, Any]:
        edit_value(data, "plan.standing_tension", tension)
        return data

    def loads(data: dict[str, Any]) -> Loads:
        return loads_of(rig_of(as_text(data)), DEFAULT.values, ON)

    data = at_tension(without(one))
    values = allowed(one, judged(data)[1])
    some = Random(SEED).sample(values, min(MOST, len(values)))  # noqa: S311 - no secret
    return Pair(loads(data), tuple(loads(at_tension(with_value(one, value))) for value in some))


@pytest.mark.parametrize(("one", "tension"), CASES, ids=named)
def test_the_head_of_an_audit_has_the_greatest_force_and_the_gravest_consequence(
    one: LeftOut, tension: str
) -> None:
    both = pair(one, tension)
    head = judge(both.left_out.path.rig, BOOK, ON, loads=both.left_out, with_remedies=False).loads
    here = results(head)
    for written in both.written:
        there = results(written)
        assert CLASSES.index(head.consequence.word) >= CLASSES.index(written.consequence.word)
        assert (here.peak_n or 0.0) >= (there.peak_n or 0.0) * (1.0 - NEARLY)
        assert here.ratio is None or there.ratio is None or here.ratio <= there.ratio * (1.0 + NEARLY)


@pytest.mark.parametrize(("one", "tension"), CASES, ids=named)
def test_the_card_has_the_least_clearance_and_every_reading_that_may_come(one: LeftOut, tension: str) -> None:
    both = pair(one, tension)
    here = figures(at_each_end(both.left_out))
    clear = least_clearance_m(both.left_out)
    for written in both.written:
        there = figures([written])
        assert clear <= least_clearance_m(written) + 0.01  # as it is written
        assert (here.keep_out_m or 0.0) >= (there.keep_out_m or 0.0) * (1.0 - ROUNDING)
        assert spans(here.pulse_least_s, there.pulse_time_s, here.pulse_most_s)
        for own, other in zip(here.sags, there.sags, strict=True):
            assert spans(own.least_m, other.below_bare_m, own.most_m)


def least_clearance_m(loads: Loads) -> float:
    each = at_each_end(loads)
    (text,) = (fact.text for fact in line_facts(each, figures(each)) if fact.label == "clear")
    return float(text.partition(" ")[0])


def spans(least: float | None, value: float | None, most: float | None) -> bool:
    if least is None or value is None or most is None:
        return least is most is None  # nothing is said of it
    return least * (1.0 - NEARLY) <= value <= most * (1.0 + NEARLY)


def quantity(text: str, dimension: Dimension) -> Quantity:
    return parse_quantity(text, dimension)


READINGS: tuple[dict[str, object], ...] = (
    {"what": "pulse", "returns": 10, "time": quantity("3 s", "duration")},
    {
        "what": "sag",
        "under": quantity("75 kg", "mass"),
        "depth": quantity("0.5 m", "length"),
        "from": "still_line",
    },
)


@pytest.mark.parametrize("reading", READINGS, ids=lambda one: str(one["what"]))
@pytest.mark.parametrize(("one", "tension"), CASES, ids=named)
def test_a_reading_may_mean_all_that_it_means_with_any_value(
    one: LeftOut, tension: str, reading: dict[str, object]
) -> None:
    both = pair(one, tension)
    entry = Measured.model_construct(**reading)  # type: ignore[arg-type]
    here = known(lambda: gauge_rig(both.left_out, entry, 0.15))
    if here is None:
        return  # no tension is told
    found = [known(lambda each=each: gauge_rig(each, entry, 0.15)) for each in both.written]  # type: ignore[misc]
    for there in found:
        assert there is not None
        assert spans(here.low_n, there.tension_n, here.high_n)
        assert here.planned is not None
        assert there.planned is not None
        assert here.planned.verdict != "fits" or there.planned.verdict == "fits"
