"""The pulley system with its forces at standing tension, its parts by name, and the order in which it is built."""

from __future__ import annotations

from riglint.loads import Loads
from riglint.loads.haul.pulleys import Haul
from riglint.loads.haul.working import HaulSheet
from riglint.loads.inputs import known
from riglint.records import dataclass
from riglint.views.drawing.building import BuildStep, steps_of
from riglint.views.drawing.named import NamedPart, named_of
from riglint.views.drawing.reeving import Reeving, reeving_of
from riglint.views.figures import number


@dataclass(frozen=True, slots=True)
class Strand:
    """One strand, the lead being the first; None where its force is not known."""

    name: str
    hauled_kn: float | None  # as it stands after hauling
    let_down_kn: float | None


@dataclass(frozen=True, slots=True)
class HaulView:
    """What the drawing of a haul shows; None for what is not named or not known."""

    reeving: Reeving
    named: tuple[NamedPart, ...]
    standing_tension_kn: float | None
    strands: tuple[Strand, ...]
    tied_back: bool
    stand: str | None  # aside or behind
    redirected: bool
    steps: tuple[BuildStep, ...]
    notes: tuple[str, ...]

    @property
    def wrong(self) -> tuple[str, ...]:
        """What does not fit together, in sentences."""
        return tuple(one.wrong for one in self.named if one.wrong)


def haul_of(loads: Loads) -> HaulView | None:
    """Return the haul as the file describes it; None where there is none or its strands are not known."""
    haul = loads.haul
    reeving = reeving_of(haul) if haul is not None else None
    if haul is None or reeving is None:
        return None
    part, tension = haul.part, known(lambda: loads.standing_tension_n)
    named = named_of(loads, haul, reeving)
    return HaulView(
        reeving,
        named,
        None if tension is None else tension / 1000.0,
        _strands(haul, reeving, tension),
        part.tie_back is not None,
        part.pull.stand if part.pull else None,
        part.pull is not None and part.pull.redirect is not None,
        steps_of(loads, haul, reeving, named),
        tuple(_notes(known(lambda: loads.haul_sheet))),
    )


def _strands(haul: Haul, reeving: Reeving, tension_n: float | None) -> tuple[Strand, ...]:
    """Return every strand that is drawn, with its forces where they are known."""
    unknown = [None] * len(reeving.strands)
    hauled = known(lambda: haul.at_rest(tension_n).strands_n) if tension_n is not None else None
    let_down = known(lambda: haul.let_down(tension_n).strands_n) if tension_n is not None else None
    return tuple(
        Strand(run.name, _kilo(up), _kilo(down))
        for run, up, down in zip(reeving.strands, hauled or unknown, let_down or unknown, strict=True)
    )


def _kilo(value_n: float | None) -> float | None:
    return None if value_n is None else value_n / 1000.0


def _notes(sheet: HaulSheet | None) -> list[str]:
    """Return what stands below the drawing."""
    if sheet is None:
        return []
    told = []
    if sheet.actual_ratio is not None and sheet.ideal_ratio is not None:
        told.append(f"line over hand {number(sheet.actual_ratio)}; {sheet.ideal_ratio} without friction")
    if sheet.grip_n is not None:
        told.append(f"the grip then bears {number(sheet.grip_n / 1000.0)} kN")
    if sheet.overshoot_n is not None:
        told.append(f"the crew could heave the line to {number(sheet.overshoot_n / 1000.0)} kN")
    if sheet.hold_force_n is not None:
        told.append(f"letting down, the hand holds {number(sheet.hold_force_n / 1000.0)} kN")
    if sheet.tie_back_catch_n is not None:
        told.append(f"tie-back catches at most {number(sheet.tie_back_catch_n / 1000.0)} kN")
    return told
