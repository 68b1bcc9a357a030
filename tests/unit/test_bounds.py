"""What the fields take lies within what the formulas cover, and no zero or odd figure in a file crashes a rule.

The bounds themselves are our own choice or common practice, no source; what is tested is that they and the
mechanics agree.
"""

import re
from collections.abc import Iterator
from datetime import date
from math import radians
from typing import Any

import pytest
from pydantic import TypeAdapter, ValidationError

from riglint.findings import judge
from riglint.mechanics.anchors.bolts import bolt_pull, boulder_resistance_n, leg_forces_n
from riglint.mechanics.anchors.sling import length_for_angle, mode_factor
from riglint.mechanics.rope.tackle import strand_forces
from riglint.mechanics.valid_range import OutOfRange, plain, require_force, require_within
from riglint.model.vocabulary.bounds import (
    Efficiency,
    Friction,
    Girth,
    IncludedAngle,
    QuarterAngle,
    RockMass,
    Thickness,
)
from riglint.read.document import Plain
from riglint.read.problems import key_text
from riglint.read.quantity import QuantityError, parse_quantity
from riglint.rulebook import load_rulebook
from riglint.testing import as_text, baseline_names, edited_data, rig_of

ON = date(2026, 5, 2)
ODD = {
    "length": ("0 m", "100000 m"),
    "force": ("0 kN", "1000000 kN"),
    "mass": ("0 kg", "100000 kg"),
    "mass_per_length": ("0 g/m", "100000 g/m"),
    "strain_or_ratio": ("0 %", "400 %"),
    "angle": ("0 deg", "180 deg", "360 deg"),
    "speed": ("0 km/h", "2000 km/h"),
    "voltage": ("0 kV",),
    "duration": ("0 s",),
}


def taken(field: Any, *values: str) -> list[float]:
    """Return the values of a field in SI units; all of them must be taken."""
    read = [TypeAdapter(field).validate_python(Plain(value)) for value in values]
    return [getattr(one, "si", one) for one in read]


def test_every_angle_between_legs_can_be_computed() -> None:
    for angle in taken(IncludedAngle, "0 deg", "90 deg", "177 deg"):
        assert max(leg_forces_n(6000.0, 2, "fixed", angle)) >= 3000.0
        mode_factor("basket", angle)
    for refused in ("178 deg", "180 deg", "360 deg", "3.1 rad"):
        with pytest.raises(ValidationError):
            TypeAdapter(IncludedAngle).validate_python(Plain(refused))


def test_every_efficiency_friction_and_boulder_can_be_computed() -> None:
    for efficiency in taken(Efficiency, "0.1", "0.9", "1"):
        forces = strand_forces(6000.0, 5, efficiency, lowering=True, dead_end_on="moving")
        assert sum(forces.strands_n) == pytest.approx(6000.0)
    for mu in taken(Friction, "0", "1"):
        for mass in taken(RockMass, "10 kg", "10000 t"):
            assert boulder_resistance_n(mass, mu) >= 0.0
    for angle in taken(QuarterAngle, "0 deg", "90 deg"):
        pull = bolt_pull(6000.0, angle)
        assert pull.radial_n**2 + pull.axial_n**2 == pytest.approx(6000.0**2)


def test_every_trunk_with_its_protector_can_be_slung() -> None:
    for girth in taken(Girth, "5 cm", "25 m"):
        for thickness in taken(Thickness, "0.1 mm", "0.5 m"):
            around = girth + 2.0 * 3.1416 * thickness
            assert length_for_angle(around, radians(60.0)) > around


def places(data: Any, key: tuple[Any, ...] = ()) -> Iterator[tuple[tuple[Any, ...], str]]:
    """Yield every text of a file with its place."""
    if isinstance(data, dict | list):
        for step, value in data.items() if isinstance(data, dict) else enumerate(data):
            yield from places(value, (*key, step))
    elif isinstance(data, str):
        yield key, data


def odd_values(text: str) -> list[str]:
    """Return zero and an absurd figure of the dimension that a text has; none for other texts."""
    for dimension, odd in ODD.items():
        try:
            parse_quantity(text, dimension)  # type: ignore[arg-type]
        except QuantityError:
            continue
        return list(odd)
    return []


def tries(baseline: str) -> list[tuple[str, str]]:
    """Return each quantity of a sound rig with odd values for it; of alike places the first."""
    found: dict[str, list[tuple[str, str]]] = {}
    for key, text in places(edited_data(baseline, ())):
        if {"stretch", "stretch_in_use"} & set(key):  # its keys are quantities themselves
            continue
        written = key_text(key)
        alike = re.sub(r"\d+", "", written)
        found.setdefault(alike, [(written, odd) for odd in odd_values(text)])
    return [one for several in found.values() for one in several]


@pytest.mark.parametrize("baseline", baseline_names())
def test_no_odd_figure_crashes_a_rule(baseline: str) -> None:
    book = load_rulebook()
    judged, refused = 0, []
    for key, odd in tries(baseline):
        try:
            rig = rig_of(as_text(edited_data(baseline, [(key, odd)])))
        except ValueError as error:
            refused.append((key, str(error)))
            continue
        findings = judge(rig, book, ON, with_remedies=False).findings
        assert [(key, odd, one.message) for one in findings if one.crashed] == []
        told = [one.message for one in findings if re.search(r"[a-z]_[a-z]\w*=|\be[+-]\d|_n\b", one.message)]
        assert told == [], (key, odd)
        judged += 1
    assert judged > 20
    assert len(refused) > 10
    assert [one for one in refused if not one[1].startswith(f"{one[0]}: ") or "(" in one[1]] == []


def test_a_number_out_of_range_is_told_in_the_units_of_riggers() -> None:
    with pytest.raises(OutOfRange, match=r"^pull is 1500000 kN; valid is 0 to 1000 kN$"):
        require_force("pull", 1.50002e9)
    with pytest.raises(OutOfRange, match=r"^included angle is 180 deg; valid is 0 to 177\.6 deg$"):
        require_within("included angle in rad", radians(180.0), 0.0, 3.1)
    assert [plain(one) for one in (0.0, -0.9, 784.53, 1_137_370.0, 1e154)] == [
        "0",
        "-0.9",
        "784.5",
        "1137000",
        "beyond 1000000000",
    ]
