"""Parts with what is known of each: its strength, the state that leaves it the least, the ratio asked."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from riglint.loads import Loads, PartLoad, State
from riglint.loads.inputs import known
from riglint.loads.path.parts import Worst
from riglint.loads.states.backup import BackupLine
from riglint.loads.strength.strength import Strength
from riglint.records import dataclass


@dataclass(frozen=True, slots=True)
class JudgedPart:
    """One part; None for what is not known of it."""

    load: PartLoad
    strength: Strength | None
    worst: Worst | None
    state: State | None  # the one that leaves it the least
    asked: float | None  # None where no ratio will do


def main_parts(loads: Loads) -> tuple[JudgedPart, ...]:
    """Return every part of the main line in the states that it is judged in; none where they are not known."""
    parts = known(lambda: loads.parts) or []
    return tuple(_judged(loads, load, _states_of(loads, load)) for load in parts)


def caught_parts(loads: Loads, backup: BackupLine) -> tuple[JudgedPart, ...]:
    """Return every part of a backup in its catch; none where the parts are not known."""
    catch = known(lambda: loads.catch(backup).state)
    return in_states(loads, known(backup.parts) or [], [catch] if catch else [])


def in_states(loads: Loads, parts: Iterable[PartLoad], states: Sequence[State]) -> tuple[JudgedPart, ...]:
    """Return parts that are all judged in the same states."""
    return tuple(_judged(loads, load, states) for load in parts)


def _states_of(loads: Loads, load: PartLoad) -> list[State]:
    return known(lambda: [one for ratio in load.only_in or ("peak",) for one in loads.judged_by(ratio)]) or []


def _judged(loads: Loads, load: PartLoad, states: Sequence[State]) -> JudgedPart:
    strength, worst = known(lambda: load.strength), known(lambda: load.worst(list(states)))
    state = next((one for one in states if worst is not None and one.name == worst.state), None)
    return JudgedPart(load, strength, worst, state, load.required_at(loads.consequence.word))
