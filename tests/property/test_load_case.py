"""Everything on the line counts: more people, mass, wind or height never make a force smaller or a clearance greater.

Over the example rigs, ordinary rigs, baselines and rigs generated from them. The greatest force over all states and the
least clearance over all states are compared, as a rigger would: which state governs may change.
"""

from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from riglint.loadpath import build
from riglint.loads import Loads
from riglint.loads.inputs import MissingInput, NotComputable
from riglint.model.changed import value_at, with_value
from riglint.model.library import Library, RigFile
from riglint.model.references import resolve
from riglint.model.values.policy import Values
from riglint.read.library import library_root
from riglint.read.quantity import Quantity
from tests.rigs import ON, loads_of, rig_data

ROOT = Path(__file__).parents[2]
FOLDERS = ("examples/rigs", "examples/ordinary/rigs", "examples/built")
SOME = settings(max_examples=60, deadline=None, derandomize=True, phases=(Phase.generate,))
CLOSE = 1e-6  # share that root searches may leave


@cache
def rigs() -> dict[str, RigFile]:
    """Every example rig and baseline that can be computed."""
    found = {name: loads_of(rig_data(name)).path.rig for name in ("low", "long_haul", "highline")}
    for folder in FOLDERS:
        for file in sorted((ROOT / folder).glob("*.yaml")):
            rig, _, _ = resolve(Library(library_root(file, None)), file)
            if rig is not None:
                found[f"{folder}/{file.stem}"] = rig
    return found


NAMES = st.sampled_from(sorted(rigs()))


def worst(rig: RigFile, values: Values = Values()) -> tuple[float, float | None]:  # noqa: B008 - frozen
    """Return the greatest force over all states, N, and the least clearance that is judged, m."""
    loads = Loads(build(rig), values, ON)
    states = [
        state for state in loads.computable() if state.kind.strength not in {"overshoot", "tie_back", "hold"}
    ]
    states += [near for backup in loads.backups if (near := _near(loads, backup.number)) is not None]
    judged = [state.least_clearance_m for state in states if state.kind.clearance is not None]
    clear = [height for height in judged if height is not None]
    return max(state.tension_n for state in states), min(clear, default=None)


def _near(loads: Loads, number: int):  # type: ignore[no-untyped-def]
    try:
        return loads.catch(loads.backups[number]).near_ends
    except (MissingInput, NotComputable):
        return None


def no_milder(before: tuple[float, float | None], after: tuple[float, float | None]) -> None:
    """Hold a rig with more on it against the same without."""
    assert after[0] >= before[0] * (1.0 - CLOSE)
    assert (before[1] is None) == (after[1] is None)
    if before[1] is not None and after[1] is not None:
        assert after[1] <= before[1] + CLOSE * abs(before[1]) + 1e-6


def planned(rig: RigFile, **values: object) -> RigFile:
    """Return a rig with values of its plan replaced."""
    changed = rig.rig
    for name, value in values.items():
        changed = with_value(changed, ("plan", name), value)
    return replace(rig, rig=changed)


@pytest.mark.parametrize("name", sorted(rigs()))
@pytest.mark.parametrize("people", [2, 3])
def test_one_more_on_the_line_is_never_milder(name: str, people: int) -> None:
    rig = rigs()[name]
    if rig.rig.plan is None or rig.rig.plan.at_once >= people:
        pytest.skip("as many are on it already")
    no_milder(worst(planned(rig, at_once=people - 1)), worst(planned(rig, at_once=people)))


@SOME
@given(NAMES, st.floats(1.0, 60.0), st.integers(1, 3))
def test_more_mass_is_never_milder(name: str, more_kg: float, people: int) -> None:
    rig = planned(rigs()[name], at_once=people)
    heavier = rig.rig
    for n, user in enumerate(rig.rig.plan.users or [] if rig.rig.plan else []):
        if user.mass is not None:
            mass = Quantity(user.mass.si + more_kg, 0.0, "")
            heavier = with_value(heavier, ("plan", "users", n, "mass"), mass)
    no_milder(worst(rig), worst(replace(rig, rig=heavier)))


@SOME
@given(NAMES, st.floats(0.0, 8.0), st.floats(0.5, 6.0), st.integers(1, 2))
def test_more_wind_is_never_milder(name: str, wind: float, more: float, people: int) -> None:
    rig = planned(rigs()[name], at_once=people)
    calm, blown = (planned(rig, wind=Quantity(one, 0.0, "")) for one in (wind, wind + more))
    no_milder(worst(calm), worst(blown))


@SOME
@given(NAMES, st.sampled_from(["bounce_height", "harness_above_line"]), st.floats(1.05, 3.0))
def test_a_longer_fall_is_never_milder(name: str, value: str, times: float) -> None:
    rig = rigs()[name]
    no_milder(worst(rig), worst(rig, Values({value: Values()[value] * times})))


@SOME
@given(NAMES, st.floats(1.05, 3.0))
def test_a_stiffer_band_pulls_harder_and_hangs_no_higher(name: str, times: float) -> None:
    rig = rigs()[name]
    stiffer = {key: Values()[key] * times for key in _fibres(rig)}
    no_milder(worst(rig), worst(rig, Values(stiffer)))


def _fibres(rig: RigFile) -> list[str]:
    materials = {item.gear.material for item in rig.items.values() if item.gear.kind == "webbing"}
    return [f"in_use.{one}" for one in materials if one in {"polyamide", "polyester", "uhmwpe"}]


@SOME
@given(NAMES, st.floats(1.05, 2.0), st.data())
def test_a_stronger_part_never_has_a_worse_ratio(name: str, times: float, data: st.DataObject) -> None:
    rig = rigs()[name]
    loads = Loads(build(rig), Values(), ON)
    states = loads.peaks()
    parts = [one for one in loads.parts if one.gear in rig.items and rig.items[one.gear].gear.mbs is not None]
    part = data.draw(st.sampled_from(parts))
    item = rig.items[part.gear or ""]
    stronger = Quantity(value_at(item.gear, ("mbs",)).si * times, 0.0, "")
    items = {**rig.items, item.id: replace(item, gear=with_value(item.gear, ("mbs",), stronger))}
    after = Loads(build(replace(rig, items=items)), Values(), ON)
    for old, new in zip(loads.parts, after.parts, strict=True):
        was, now = old.worst(states), new.worst(after.peaks())
        if was is not None and now is not None:
            assert now.ratio >= was.ratio * (1.0 - CLOSE)
