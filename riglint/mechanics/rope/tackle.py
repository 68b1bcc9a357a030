"""Forces in a rope tackle: strands, blocks, and a multiplier on the lead.

The tackle meant here: n strands carry the moving block. Strand 0, the lead, comes off the moving block and
runs to the brake on the fixed side. From the lead the rope goes round the moving block, strand 1 runs to the
fixed block, strand 2 back, and so on to the dead end. So the dead end sits on the moving block when n is odd
and on the fixed block when n is even: two double blocks with the dead end on the moving one make five
strands.

Each turn of 180° over a sheave passes on the share η of the tension (0 < η ≤ 1). While hauling the lead is
the tightest strand; while lowering friction works the other way, so the same sums hold with 1/η and the dead
end is the tightest. At rest the truth lies between the two: judge every part at the worse.
"""

from typing import Literal

from riglint.mechanics.valid_range import Numbers, require_force, require_within
from riglint.records import dataclass

LEAST_EFFICIENCY = 0.1  # below this nothing turns; a smaller number is a percentage or a slip
MOST_STRANDS = 20  # at η 0.9 the sum is past 8.7 and can reach 10 at the most: more strands gain nothing
# Beyond it people build compound tackles, whose losses are other than those of a simple one.
MOST_MULTIPLIER = 5

Block = Literal["moving", "fixed"]
MultiplierStrand = Literal["lead", "tail"]


@dataclass(frozen=True, slots=True)
class StrandForces(Numbers):
    """Forces in a tackle, N. `strands_n[0]` is the lead; the others follow in path order to the dead end."""

    lead_n: float
    strands_n: tuple[float, ...]
    moving_block_n: float
    fixed_block_n: float
    dead_end_n: float


@dataclass(frozen=True, slots=True)
class HaulForces(Numbers):
    """Forces while the crew pulls, N, and `actual_ratio` = line force over hand force."""

    line_n: float
    lead_n: float
    grip_n: float
    multiplier_pulley_n: float
    hand_n: float
    actual_ratio: float


def _require_efficiency(what: str, efficiency: float) -> None:
    require_within(what, efficiency, LEAST_EFFICIENCY, 1.0)


def strand_sum(strands: int, efficiency: float) -> float:
    """Line force over lead force: Σ ηⁱ for i = 0 … n−1.

    Args:
        strands: n, 1 to 20.
        efficiency: share η that each sheave passes on, 0.1 to 1 when hauling; give 1/η, up to 10, when lowering.

    Returns:
        The ratio.

    Raises:
        ValueError: an argument outside its range.

    Valid: all sheaves alike.

    Source: geometric series of the sheave losses, as in the reeving tables of wire-rope handbooks.

    >>> round(strand_sum(5, 0.9), 4)
    4.0951
    """
    require_within("number of strands", strands, 1, MOST_STRANDS)
    require_within("sheave efficiency", efficiency, LEAST_EFFICIENCY, 1 / LEAST_EFFICIENCY)
    return sum(efficiency**i for i in range(strands))


def strand_forces(
    line_tension_n: float, strands: int, efficiency: float, *, lowering: bool, dead_end_on: Block
) -> StrandForces:
    """Every strand, both blocks and the dead end: lead f = T/Σηⁱ, strand i carries f·ηⁱ; lowering with 1/η.

    Args:
        line_tension_n: T, 0 to 1 MN.
        strands: n, 1 to 20.
        efficiency: share η that each sheave passes on, 0.1 to 1.
        lowering: whether the rope runs out.
        dead_end_on: the block that the dead end sits on: the moving one for n odd, the fixed one for n even.

    Returns:
        The forces in N. The moving block carries all strands, T; the fixed block all but the lead, T − f: for n odd
        strands 1 … n−1 turn on it in pairs, for n even the last of them is the dead end on its becket, and the lead
        goes to the brake, not over it.

    Raises:
        ValueError: an argument outside its range, or `dead_end_on` that contradicts n.

    Valid: the tackle that the module describes, its strands parallel.

    Source: statics, one tension ratio for each sheave.

    >>> forces = strand_forces(6000.0, 5, 1.0, lowering=False, dead_end_on="moving")
    >>> (forces.lead_n, forces.fixed_block_n, forces.dead_end_n)
    (1200.0, 4800.0, 1200.0)
    """
    require_force("line tension", line_tension_n)
    _require_efficiency("sheave efficiency", efficiency)
    along = 1 / efficiency if lowering else efficiency
    lead_n = line_tension_n / strand_sum(strands, along)
    where = "moving" if strands % 2 else "fixed"
    if dead_end_on != where:
        raise ValueError(f"{strands} strands with the lead off the moving block end on the {where} block")
    forces_n = tuple(lead_n * along**i for i in range(strands))
    return StrandForces(lead_n, forces_n, line_tension_n, sum(forces_n[1:]), forces_n[-1])


def line_tension_bounds_n(lead_n: float, strands: int, efficiency: float) -> tuple[float, float]:
    """Least and greatest line tension behind a force read in the lead: lead·Σηⁱ to lead·Σ(1/η)ⁱ.

    Args:
        lead_n: force read in the lead, 0 to 1 MN.
        strands: n, 1 to 20.
        efficiency: share η that each sheave passes on, 0.1 to 1.

    Returns:
        Both bounds in N: as after hauling, as after lowering.

    Raises:
        ValueError: an argument outside its range.

    Valid: a tackle at rest, where friction holds it anywhere between.

    Source: statics, friction bounds.

    >>> [round(bound_n) for bound_n in line_tension_bounds_n(1300.0, 5, 0.92)]
    [5540, 7733]
    """
    require_force("lead force", lead_n)
    _require_efficiency("sheave efficiency", efficiency)
    return lead_n * strand_sum(strands, efficiency), lead_n * strand_sum(strands, 1 / efficiency)


def _multiplier_gain(
    multiplier: int, on: MultiplierStrand, efficiency: float, brake_efficiency: float
) -> tuple[float, float]:
    """Grip force and lead force for a hand force of 1; the derivation stands at `hauled`."""
    if multiplier == 1:
        return 0.0, brake_efficiency
    odd = multiplier % 2 == 1
    grip = strand_sum(multiplier - 1 if odd else multiplier, efficiency)
    if on == "tail":
        return grip, brake_efficiency * strand_sum(multiplier, efficiency)
    through_brake = efficiency ** (multiplier - 2) * brake_efficiency if odd else 0.0
    return grip, grip + through_brake


def hauled(
    hand_n: float,
    strands: int,
    multiplier: int,
    *,
    efficiency: float,
    multiplier_efficiency: float,
    brake_efficiency: float,
    multiplier_on: MultiplierStrand = "lead",
) -> HaulForces:
    """Forces when the hands pull with h through a multiplier m : 1 on an n-strand tackle: T = f·Σηⁱ, i = 0 … n−1.

    The lead force f:

    - m = 1: the rope is drawn through the brake. Lead f = h·η_b, no grip.
    - m odd, grip on the lead: the tail leaves the brake for a pulley at the grip, back to a fixed pulley, and
      so on to the hands. m − 1 strands pull the grip, h·(1 + η_m + … + η_m^(m−2)); the last, h·η_m^(m−2),
      turns in the brake and helps the lead with η_b of itself. For 3 : 1, f = h·(1 + η_m + η_m·η_b) and grip
      h·(1 + η_m).
    - m even, grip on the lead: a separate rope, dead end on the fixed side, m strands at the grip. f = grip =
      h·(1 + … + η_m^(m−1)). The rope behind the brake is only taken in; its pull is not counted.
    - grip on the tail (`multiplier_on="tail"`): the same simple tackle behind the brake, a fixed pulley in
      the brake's place; all of its pull is drawn through the brake, f = h·(1 + … + η_m^(m−1))·η_b.

    Args:
        hand_n: h, 0 to 1 MN.
        strands: n, 1 to 20.
        multiplier: m, 1 to 5.
        efficiency: share η that a tackle sheave passes on, 0.1 to 1.
        multiplier_efficiency: share η_m that a multiplier pulley passes on, 0.1 to 1.
        brake_efficiency: share η_b that the brake passes on as a redirect, 0.1 to 1.
        multiplier_on: the strand that the multiplier's grip is on.

    Returns:
        The forces in N, and the ratio of line force to hand force; the ideal one is n·m.

    Raises:
        ValueError: an argument outside its range.

    Valid: a simple multiplier, whose pulley (double from m = 4) hangs on the grip: both carry the same.

    Source: statics strand by strand.

    >>> forces = hauled(600.0, 5, 3, efficiency=0.9, multiplier_efficiency=0.9, brake_efficiency=0.5)
    >>> (round(forces.actual_ratio, 2), round(forces.grip_n))
    (9.62, 1140)
    """
    require_force("hand force", hand_n)
    require_within("multiplier", multiplier, 1, MOST_MULTIPLIER)
    for what, value in (
        ("sheave efficiency", efficiency),
        ("multiplier efficiency", multiplier_efficiency),
        ("brake efficiency", brake_efficiency),
    ):
        _require_efficiency(what, value)
    grip, lead = _multiplier_gain(multiplier, multiplier_on, multiplier_efficiency, brake_efficiency)
    ratio = lead * strand_sum(strands, efficiency)
    grip_n = grip * hand_n
    return HaulForces(ratio * hand_n, lead * hand_n, grip_n, grip_n, hand_n, ratio)


def hand_needed(
    line_n: float,
    strands: int,
    multiplier: int,
    *,
    efficiency: float,
    multiplier_efficiency: float,
    brake_efficiency: float,
    multiplier_on: MultiplierStrand = "lead",
) -> HaulForces:
    """Forces when the line is to reach a tension: h = line/ratio, the ratio that of `hauled`.

    Args:
        line_n: tension that the line is to reach, 0 to 1 MN.
        strands: n, 1 to 20.
        multiplier: m, 1 to 5.
        efficiency: share η that a tackle sheave passes on, 0.1 to 1.
        multiplier_efficiency: share η_m that a multiplier pulley passes on, 0.1 to 1.
        brake_efficiency: share η_b that the brake passes on as a redirect, 0.1 to 1.
        multiplier_on: the strand that the multiplier's grip is on.

    Returns:
        The forces in N, and the ratio of line force to hand force; the ideal one is n·m.

    Raises:
        ValueError: an argument outside its range.

    Valid: as `hauled`.

    Source: that of `hauled`, solved for the hand.

    >>> needed = hand_needed(6000.0, 5, 3, efficiency=0.9, multiplier_efficiency=0.9, brake_efficiency=0.5)
    >>> round(needed.hand_n, 1)
    623.5
    """

    def haul(hand_n: float) -> HaulForces:
        return hauled(
            hand_n,
            strands,
            multiplier,
            efficiency=efficiency,
            multiplier_efficiency=multiplier_efficiency,
            brake_efficiency=brake_efficiency,
            multiplier_on=multiplier_on,
        )

    require_force("line tension", line_n)
    return haul(line_n / haul(1.0).actual_ratio)
