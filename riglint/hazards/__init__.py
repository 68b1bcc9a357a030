"""What can go wrong with a line, in the order of the work.

Each hazard ends in at least one of: a rule that names it in `prevents`, a key whose absence leaves a rule open, or a
line for the eyes on site. Which of them stands in `README.md` beside them, written by `reports/rules/hazard_table.py`.
"""

from riglint.hazards.afterwards import AFTER
from riglint.hazards.at_rig import places
from riglint.hazards.connecting import CONNECT
from riglint.hazards.gear import GEAR
from riglint.hazards.hazard import PHASES, Hazard, Phase, Where
from riglint.hazards.planning import PLAN
from riglint.hazards.pulley import PULLEY
from riglint.hazards.spot import SPOT
from riglint.hazards.tensioning import TENSION
from riglint.hazards.walking import WALK
from riglint.read.spelling import nearest

__all__ = ["HAZARDS", "PHASES", "Hazard", "Phase", "Where", "for_the_eyes", "known", "places"]

HAZARDS: dict[str, Hazard] = {
    one.id: one for one in (*PLAN, *GEAR, *SPOT, *CONNECT, *PULLEY, *TENSION, *WALK, *AFTER)
}


def known(ids: tuple[str, ...]) -> tuple[str, ...]:
    """Return hazard ids as they are.

    Raises:
        ValueError: one of them is no hazard; says which, and the nearest that is one.
    """
    for one in ids:
        if one not in HAZARDS:
            near = nearest(one, HAZARDS)
            meant = f"; '{near}' is the nearest" if near else "; riglint/hazards/ has the list"
            raise ValueError(f"'{one}' is no known hazard{meant}.")
    return ids


def for_the_eyes(*where: Where) -> dict[Phase, list[Hazard]]:
    """Return the hazards that a person on site looks for, by phase; only those of any rig and of `where`, if given."""
    wanted = {"any", *where} if where else None
    found: dict[Phase, list[Hazard]] = {}
    for one in HAZARDS.values():
        if one.eyes and (wanted is None or one.where in wanted):
            found.setdefault(one.phase, []).append(one)
    return found
