"""A rig with everything written in that it leaves out and its parts tell."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from riglint.loadpath import build
from riglint.loads.assumed.haul import of_haul
from riglint.loads.assumed.hitches import of_slings
from riglint.loads.assumed.webbing import of_webbing
from riglint.loads.rig_loads import Loads
from riglint.model.compact.assumption import Assumption
from riglint.model.library import RigFile
from riglint.model.values.policy import Values

MOST_JUDGED = 32  # times that one rig is judged; what would need more stays open


def loads_of(rig: RigFile, values: Values, on: date) -> Loads:
    """Return the loads of a rig, what it leaves out and its parts tell written in and noted in `assumed`.

    Args:
        rig: as its files say.
        values: the bands in force.
        on: the day.
    """
    loads = Loads(build(rig), values, on)
    if not loads.path.whole:  # nobody knows yet what carries what
        return loads
    found: list[Assumption] = []
    for one in (*of_webbing(loads), *of_haul(loads), *of_slings(loads)):
        if times_judged([*found, one]) <= MOST_JUDGED:
            found.append(one)
    if not found:
        return loads
    for one in found:
        rig = one.put(rig, one.ends[0])
    return Loads(build(replace(rig, assumed=tuple(found))), values, on)


def times_judged(assumed: list[Assumption]) -> int:
    """Return how often a rig is judged, so that the worst value of each is met.

    What shapes the line is taken in every combination; of all else one at a time is at another than its worst end.
    """
    of_line, others = 1, 1
    for one in assumed:
        if one.of_line:
            of_line *= len(one.ends)
        else:
            others += len(one.ends) - 1
    return of_line * others
