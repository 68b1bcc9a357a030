"""The haul with its forces at standing tension: strands, blocks, brake, multiplier and hand."""

from __future__ import annotations

from dataclasses import dataclass

from riglint.loads import Loads
from riglint.loads.haul.pulleys import Haul
from riglint.loads.haul.working import HaulSheet
from riglint.loads.inputs import known
from riglint.views.figures import number


@dataclass(frozen=True, slots=True)
class Strand:
    """One strand, the lead being the first."""

    name: str
    hauled_kn: float  # as it stands after hauling
    let_down_kn: float


@dataclass(frozen=True, slots=True)
class HaulView:
    """What the drawing of a haul shows; None for what is not named or not known."""

    standing_tension_kn: float
    strands: tuple[Strand, ...]
    dead_end_on: str
    fixed_block: str | None
    moving_block: str | None
    has_brake: bool
    brake: str | None
    has_multiplier: bool
    multiplier_ratio: int | None
    grip_kn: float | None
    hand_kn: float | None
    notes: tuple[str, ...]


def haul_of(loads: Loads) -> HaulView | None:
    """Return the haul at standing tension; None where there is none or its forces are not known."""
    sheet, haul = known(lambda: loads.haul_sheet), loads.haul
    tension = known(lambda: loads.standing_tension_n)
    if sheet is None or haul is None or tension is None:
        return None
    strands = known(lambda: _strands(haul, tension))
    if strands is None:
        return None
    part = haul.part
    return HaulView(
        tension / 1000.0,
        strands,
        haul.dead_end_on,
        part.fixed_block,
        part.moving_block,
        part.brake is not None,
        part.brake.gear if part.brake else None,
        part.multiplier is not None,
        part.multiplier.ratio if part.multiplier else None,
        _kilo(sheet.grip_n),
        _kilo(sheet.hand_force_n),
        tuple(_notes(haul, sheet)),
    )


def _kilo(value_n: float | None) -> float | None:
    return None if value_n is None else value_n / 1000.0


def _strands(haul: Haul, tension_n: float) -> tuple[Strand, ...]:
    up, down = haul.at_rest(tension_n).strands_n, haul.let_down(tension_n).strands_n
    return tuple(
        Strand("lead" if n == 0 else f"strand {n}", hauled_n / 1000.0, let_down_n / 1000.0)
        for n, (hauled_n, let_down_n) in enumerate(zip(up, down, strict=True))
    )


def _notes(haul: Haul, sheet: HaulSheet) -> list[str]:
    """Return what stands below the drawing."""
    brake, told = haul.part.brake, []
    if brake is not None and brake.side == "moving":
        told.append("the file has the brake on the moving block, not as drawn")
    if sheet.actual_ratio is not None and sheet.ideal_ratio is not None:
        told.append(f"line over hand {number(sheet.actual_ratio)}; {sheet.ideal_ratio} without friction")
    if sheet.overshoot_n is not None:
        told.append(f"the crew could heave the line to {number(sheet.overshoot_n / 1000.0)} kN")
    if sheet.hold_force_n is not None:
        told.append(f"letting down, the hand holds {number(sheet.hold_force_n / 1000.0)} kN")
    if sheet.tie_back_catch_n is not None:
        told.append(f"tie-back catches at most {number(sheet.tie_back_catch_n / 1000.0)} kN")
    return told
