"""What a failure would mean at this rig: a stumble, a fall, a life."""

from __future__ import annotations

from riglint.loads.inputs import MissingInput, NotComputable
from riglint.loads.path.geometry import Geometry
from riglint.loads.states.line import Band
from riglint.model.library import RigFile
from riglint.model.values.policy import Values
from riglint.model.vocabulary.words import Consequence
from riglint.records import dataclass

CLASSES: tuple[Consequence, ...] = ("ground", "fall", "life")


@dataclass(frozen=True, slots=True)
class ConsequenceClass:
    """The class in force and the reasons for it."""

    word: Consequence
    reasons: tuple[str, ...]
    known: Consequence  # what is known gives this one
    unknown: str | None = None  # what raised it by one: `'chain[8].open' is not filled in`


def classify(
    geometry: Geometry, band: Band | None, unable: MissingInput | NotComputable | None = None
) -> ConsequenceClass:
    """Return the consequence class of a rig; what is not known raises it by one, if it can.

    `unable` says why there is no line to tell heights from. Heights and ground alone then bound how high feet can be.
    """
    plan = geometry.rig.rig.plan
    found: list[tuple[Consequence, str]] = [("ground", "nothing makes it worse")]
    found += _from_files(geometry.rig)
    found += _from_mechanics(band, geometry.values)
    if plan is not None and plan.consequence is not None:
        found.append((plan.consequence, "the plan says so"))
    worst = max((word for word, _ in found), key=CLASSES.index)
    unknown = _unknown(geometry, band, unable)
    if unknown and worst != "life" and not (worst == "fall" and _never_high(geometry)):
        raised = CLASSES[CLASSES.index(worst) + 1]
        why_raised = f"one class up, since {unknown}"
        reasons = (*(why for word, why in found if word == worst), why_raised)
        return ConsequenceClass(raised, reasons, worst, unknown)
    return ConsequenceClass(worst, tuple(why for word, why in found if word == worst), worst)


def _never_high(geometry: Geometry) -> bool:
    """Return whether feet stay below the height that can cost a life, at any tension and with any webbing.

    A line hangs below the straight line between its anchors. What it stores makes a failure a fall and no more.
    """
    try:
        highest_m, _ = geometry.greatest_height_m()
    except (MissingInput, NotComputable):
        return False
    return highest_m <= geometry.values["life_above"]


def _from_files(file: RigFile) -> list[tuple[Consequence, str]]:
    """Return what use, moves and surroundings make of a failure, each with its reason."""
    rig, plan, spot = file.rig, file.rig.plan, file.spot
    moves = plan.moves if plan else []
    around = spot.surroundings if spot else None
    table: tuple[tuple[bool, Consequence, str], ...] = (
        (rig.use == "highline", "life", "it is a highline"),
        (rig.leash is not None, "life", "users wear a leash"),
        (rig.use == "waterline", "fall", "it is over water"),
        ("jump" in moves, "fall", "people jump on it"),
        ("surf" in moves, "fall", "people surf on it"),
        (bool(plan and plan.public), "fall", "the public can come near"),
        (bool(around and around.path_crosses), "fall", "a path crosses"),
    )
    return [(word, why) for holds, word, why in table if holds]


def _from_mechanics(band: Band | None, values: Values) -> list[tuple[Consequence, str]]:
    if band is None:
        return []
    found: list[tuple[Consequence, str]] = []
    heights = band.foot_heights_m()
    highest = max(heights, default=0.0)
    if highest > values["life_above"]:
        found.append(("life", _feet(highest, values["life_above"])))
    elif highest > values["fall_above"]:
        found.append(("fall", _feet(highest, values["fall_above"])))
    # A line that stores much hurts whoever stands beside it when it parts, however low it hangs.
    energy = band.soft.standing.equilibrium.stretch_energy_j
    if energy >= values["fall_energy"]:
        found.append(("fall", f"the standing webbing stores {energy / 1000.0:.1f} kJ"))
    return found


def _feet(highest_m: float, above_m: float) -> str:
    """Say how high the feet are; just above a bound with enough digits to show that it is passed."""
    for digits in (1, 2, 3):
        if round(highest_m, digits) > above_m:
            return f"feet are up to {highest_m:.{digits}f} m above the ground"
    return f"feet are just over {above_m:g} m above the ground"


def _unknown(
    geometry: Geometry, band: Band | None, unable: MissingInput | NotComputable | None
) -> str | None:
    if band is None:
        return _because(unable)
    try:
        geometry.ground()
        geometry.height_m(0)
        geometry.height_m(1)
    except (MissingInput, NotComputable) as reason:
        return _because(reason)
    return None


def _because(reason: MissingInput | NotComputable | None) -> str:
    """Say why heights are not known: the values that are missing, by name."""
    if isinstance(reason, MissingInput):
        lacking = [f"'{at.key_text}' {getattr(at, 'lacks', '')}".strip() for at in reason.fields]
        names = " and ".join(dict.fromkeys(lacking))
        explained = any(getattr(at, "lacks", "") for at in reason.fields)
        return names if explained else f"{names} {'is' if len(set(lacking)) == 1 else 'are'} not filled in"
    return reason.because if reason is not None else "the line can't be calculated"
