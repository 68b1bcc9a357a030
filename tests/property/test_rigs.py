"""What holds for every rig as a whole, from the file to the forces."""

from typing import Any

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from riglint.loads import Loads
from riglint.loads.states.line import State
from riglint.rulekit import REMOVE
from tests.rigs import loads_of, rig_data

# A rig takes up to a second, so a failing example is not made smaller.
FEW = settings(max_examples=4, deadline=None, derandomize=True, phases=(Phase.generate,))
BASELINES = ("highline", "low", "long_haul")

baselines = st.sampled_from(BASELINES)
tensions_kn = st.floats(1.0, 12.0)
masses_kg = st.floats(20.0, 150.0)
rises_m = st.floats(-6.0, 6.0)


def edits(
    baseline: str, tension_kn: float = 3.0, mass_kg: float = 80.0, rise_m: float = 0.0
) -> dict[str, Any]:
    last = {"highline": 4, "low": 2, "long_haul": 2}[baseline]
    return {
        "plan.standing_tension": f"{tension_kn:.4f} kN",
        "plan.users[0].mass": f"{mass_kg:.3f} kg",
        f"spot.ground.profile[{last}][1]": f"{rise_m:.3f} m",
    }


def loads(baseline: str, **changed: float) -> Loads:
    return loads_of(rig_data(baseline, edits(baseline, **changed)))


def states(one: Loads) -> dict[str, State]:
    """Those that people cause, with the backup's catch where there is one."""
    found = {state.name: state for state in one.people()}
    found |= {backup.id: one.catch(backup).state for backup in one.backups}
    return found


def mirrored(data: dict[str, Any]) -> dict[str, Any]:
    """The same rig, described from its other end."""
    count = len(data["chain"])
    for part in data["chain"]:
        if "tie_back" in part:
            number = int(part["tie_back"]["from"].removeprefix("chain[").removesuffix("]"))
            part["tie_back"]["from"] = f"chain[{count - 1 - number}]"
    for one in (data, *data["backups"]):
        one["chain"].reverse()
    data["plan"]["walk_zone"].reverse()
    if data["plan"]["standing_at"] == "end":
        data["plan"]["standing_at"] = "start"
    return data


@FEW
@given(baselines, tensions_kn, masses_kg, rises_m, st.floats(2.0, 5.0))
def test_a_mirrored_rig_has_mirrored_forces(
    baseline: str, tension_kn: float, mass_kg: float, rise_m: float, zone_m: float
) -> None:
    changes = {**edits(baseline, tension_kn, mass_kg, rise_m), "plan.walk_zone[1]": f"{zone_m:.3f} m"}
    one, other = loads_of(rig_data(baseline, changes)), loads_of(mirrored(rig_data(baseline, changes)))
    assert one.geometry.rise_m == pytest.approx(-other.geometry.rise_m)
    theirs = states(other)
    for name, state in states(one).items():
        assert state.tension_a_n == pytest.approx(theirs[name].tension_b_n, rel=1e-6), name
        assert state.tension_b_n == pytest.approx(theirs[name].tension_a_n, rel=1e-6), name
        assert state.tension_n == pytest.approx(theirs[name].tension_n, rel=1e-6), name
        assert state.least_clearance_m == pytest.approx(theirs[name].least_clearance_m, abs=1e-4), name


@pytest.mark.parametrize("baseline", BASELINES)
def test_a_mirrored_rig_has_the_same_ratios(baseline: str) -> None:
    one, other = loads_of(rig_data(baseline)), loads_of(mirrored(rig_data(baseline)))
    ratios = [
        sorted(
            (part.gear or part.part, worst.ratio) for part in rig.parts if (worst := part.worst(rig.people()))
        )
        for rig in (one, other)
    ]
    assert [name for name, _ in ratios[0]] == [name for name, _ in ratios[1]]
    assert [ratio for _, ratio in ratios[0]] == pytest.approx([ratio for _, ratio in ratios[1]], rel=1e-6)


@FEW
@given(baselines, tensions_kn, st.floats(0.05, 5.0), masses_kg)
def test_more_standing_tension_never_lowers_a_tension(
    baseline: str, tension_kn: float, more_kn: float, mass_kg: float
) -> None:
    """Of the states that start from the standing line; the backup's catch starts from its own length."""
    less = loads(baseline, tension_kn=tension_kn, mass_kg=mass_kg)
    more = loads(baseline, tension_kn=tension_kn + more_kn, mass_kg=mass_kg)
    for before, after in zip(less.people(), more.people(), strict=True):
        for side in ("tension_n", "tension_a_n", "tension_b_n"):
            assert getattr(after, side) >= getattr(before, side) * (1.0 - 1e-9), (before.name, side)


@FEW
@given(baselines, masses_kg, st.floats(1.0, 60.0))
def test_a_heavier_user_never_raises_a_ratio(baseline: str, mass_kg: float, more_kg: float) -> None:
    lighter, heavier = loads(baseline, mass_kg=mass_kg), loads(baseline, mass_kg=mass_kg + more_kg)
    compared = 0
    for part, same in zip(lighter.parts, heavier.parts, strict=True):
        for state, heavy in zip(lighter.people(), heavier.people(), strict=True):
            before, after = part.ratio(state), same.ratio(heavy)
            if before is not None and after is not None:
                compared += 1
                assert after <= before * (1.0 + 1e-9), (part.id, state.name)
    assert compared >= 2 * len(lighter.path.carrying)


@FEW
@given(
    st.sampled_from(("low", "long_haul")), tensions_kn, masses_kg, st.floats(0.5, 8.0), st.floats(0.1, 8.0)
)
def test_give_never_raises_a_peak(
    baseline: str, tension_kn: float, mass_kg: float, stretch_percent: float, more_percent: float
) -> None:
    """Give of the haul rope: none, some, more."""
    stretch = "shelf[0].items.RP-1.stretch"
    given = (
        REMOVE,
        {"1.5 kN": f"{stretch_percent:.3f} %"},
        {"1.5 kN": f"{stretch_percent + more_percent:.3f} %"},
    )
    rigs = [
        loads_of(rig_data(baseline, {**edits(baseline, tension_kn, mass_kg), stretch: value}))
        for value in given
    ]
    stiff, soft, softer = (rig.state("bounce").tension_n for rig in rigs)
    assert softer <= soft * (1.0 + 1e-9)
    assert soft <= stiff * (1.0 + 1e-9)
    assert softer < stiff


@FEW
@given(baselines, tensions_kn, masses_kg, st.floats(0.1, 0.9))
def test_a_webbing_in_two_is_the_same_webbing(
    baseline: str, tension_kn: float, mass_kg: float, share: float
) -> None:
    data = rig_data(baseline, edits(baseline, tension_kn, mass_kg))
    whole = loads_of(data)
    length_m = whole.standing.line.unstressed_m
    number = next(n for n, part in enumerate(data["chain"]) if part["part"] == "webbing")
    first = {"part": "webbing", "gear": data["chain"][number]["gear"], "length": f"{share * length_m:.6f} m"}
    data["chain"][number:number] = [first, {"part": "webbing_join", "reach": "0 m"}]
    halves = loads_of(data)
    assert len(halves.standing.line.webbings) == 2
    assert halves.standing.line.unstressed_m == pytest.approx(length_m, rel=1e-7)
    for one, two in zip(whole.people(), halves.people(), strict=True):
        assert two.tension_n == pytest.approx(one.tension_n, rel=1e-5), one.name
        assert two.least_clearance_m == pytest.approx(one.least_clearance_m, abs=1e-4), one.name


def test_a_rise_of_6_m_moves_the_governing_place() -> None:
    """On 16 m of span: the walker pulls most well towards the upper end, and so does the landing."""
    level, rising = (loads("low", rise_m=rise) for rise in (0.0, 6.0))
    assert rising.geometry.rise_m == pytest.approx(6.0)
    for name in ("walker", "bounce"):
        state, flat = rising.state(name), level.state(name)
        assert state.rest is not None
        assert flat.rest is not None
        middle = next(rest for rest in state.positions if rest.fraction == 0.5)
        assert state.rest.fraction > 0.6, name
        assert state.rest.fraction > flat.rest.fraction, name
        assert state.tension_n > middle.tension_n, name
        assert state.tension_b_n > state.tension_a_n, name  # the upper end holds the slope as well


def test_of_two_places_alike_the_first_is_named() -> None:
    """The sound highline is symmetric, so rounding would choose between the ends."""
    rig = loads("highline")
    for name in ("walker", "leash_fall"):
        state = rig.state(name)
        assert state.rest is not None
        assert state.least_clearance_at is not None
        mirrored = next(
            rest for rest in state.positions if abs(rest.fraction + state.rest.fraction - 1.0) < 1e-9
        )
        assert mirrored.tension_n == pytest.approx(state.tension_n, rel=1e-8), name
        assert state.rest.fraction < 0.5, name
        assert state.least_clearance_at < 0.5, name
