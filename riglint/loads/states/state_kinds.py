"""The registry of states: what a line goes through, one entry each.

An entry says all that the rest of riglint knows of a state: what it is called, who moves, how it is computed, which
strength and which clearance judge it, how it is drawn and explained. Rules, sheet, card, drawings and sensitivity read
the entries and never name a state. A state is added here and nowhere else.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Literal

from riglint.records import dataclass

if TYPE_CHECKING:
    from riglint.loads.rig_loads import Loads
    from riglint.loads.states.line import State

# Which rules hold the force of a state against strength:
# peak: many times over, by the table of required ratios; standing: the ratios for what stands for hours;
# overshoot: twice, while hauling; backup: the ratios of a backup; tie_back: of a tie-back; hold: what a hand can hold.
RatioKind = Literal["peak", "standing", "overshoot", "backup", "tie_back", "hold"]
# Which rules hold its clearance against the ground: line, where nobody may touch down, or only where people are tied in
# or over water (a bounce on a low line may end on the grass); body: of somebody who hangs below the line.
ClearanceKind = Literal["line", "line_when_tied", "body"]
Shown = Literal["rest", "peak", "fall"]  # how it is drawn
Worked = Literal["statics", "energy", "wind", "slip", "force"]  # how its force is explained


@dataclass(frozen=True, slots=True)
class StateKind:
    """One state.

    Raises:
        ValueError: no rule judges it, neither by strength nor by clearance.
    """

    name: str  # in files and results
    plain: str  # for the middle of a sentence: `in a bounce`
    term: str  # what an engineer calls it
    moves: Literal["nobody", "heaviest", "everyone", "crew", "part"]  # who or what moves
    of: Callable[[Loads], State] | None  # None: once for each backup, see `Loads.catch`
    planned: Callable[[Loads], bool]  # whether this rig goes through it
    strength: RatioKind | None
    clearance: ClearanceKind | None
    shown: Shown | None
    worked: Worked
    with_people: bool = True  # whether somebody is on the line
    # Whether a rule of its own asks for what this state alone rests on. Without those values the state is left out
    # where several are looked at together, so that one blank hides nothing else.
    asked_apart: bool = False

    def __post_init__(self) -> None:
        if self.strength is None and self.clearance is None:
            raise ValueError(f"The state {self.name} is judged by nothing: name a strength or a clearance.")

    @property
    def words(self) -> str:
        """Its name as it stands in a sentence."""
        return self.name.replace("_", " ")


def _always(_loads: Loads) -> bool:
    return True


def _lists(move: str) -> Callable[[Loads], bool]:
    return lambda loads: move in (loads.load_case.plan.moves if loads.load_case.plan else ())


def _hauls(loads: Loads) -> bool:
    return loads.haul is not None


def _together(loads: Loads) -> bool:
    plan = loads.load_case.plan
    return plan is not None and plan.at_once > 1


def _leashed(loads: Loads) -> bool:
    return loads.path.rig.rig.leash is not None


def _pulls(loads: Loads) -> bool:
    return loads.haul is not None or loads.puller is not None


def _tied_back(loads: Loads) -> bool:
    return loads.tie_back is not None


STATES: dict[str, StateKind] = {}


def when(state: str) -> str:
    """Return when a state holds, for the middle of a sentence: `in a bounce`."""
    kind = STATES.get(state)
    return kind.plain if kind is not None else f"in the state {state.replace('_', ' ')}"


def register(kind: StateKind) -> None:
    """Add a state, after those that are there.

    Raises:
        ValueError: there is one of that name.
    """
    if kind.name in STATES:
        raise ValueError(f"There is a state {kind.name} already.")
    STATES[kind.name] = kind


for _kind in (
    StateKind(
        "standing",
        "with nobody on the line",
        "pretension and self-weight",
        "nobody",
        lambda loads: loads.standing_state,
        _always,
        strength="standing",
        clearance=None,
        shown="rest",
        worked="statics",
        with_people=False,
    ),
    StateKind(
        "walker",
        "under the walker",
        "live load at rest",
        "nobody",
        lambda loads: loads.band.at_rest(
            "walker", "the heaviest user at rest", loads.load_case.heaviest_kg, 1
        ),
        _always,
        strength="peak",
        clearance="line",
        shown="rest",
        worked="statics",
    ),
    StateKind(
        "crowd",
        "under everybody at once",
        "live load at rest, several people",
        "nobody",
        lambda loads: loads.band.crowd(),
        _together,
        strength="peak",
        clearance="line",
        shown="rest",
        worked="statics",
    ),
    StateKind(
        "bounce",
        "in a bounce",
        "impact of a drop from a height",
        "heaviest",
        lambda loads: loads.band.landing_of("bounce", "the heaviest user lands on the line"),
        _always,  # falling off is a bounce, whatever the plan lists
        strength="peak",
        clearance="line_when_tied",
        shown="peak",
        worked="energy",
    ),
    *(
        StateKind(
            move,
            f"while {move}ing",
            "impact of a drop from a height",
            "heaviest",
            lambda loads, move=move: loads.band.landing_of(move, f"the heaviest user lands while {move}ing"),  # type: ignore[misc]
            _lists(move),
            strength="peak",
            clearance="line_when_tied",
            shown="peak",
            worked="energy",
        )
        for move in ("surf", "jump")
    ),
    StateKind(
        "leash_fall",
        "in a fall on the leash",
        "fall arrest by the line",
        "heaviest",
        lambda loads: loads.leash_fall,
        _leashed,
        strength="peak",
        clearance="body",
        shown="fall",
        worked="energy",
    ),
    StateKind(
        "backup_catch",
        "when the backup catches",
        "progressive collapse: the main line fails",
        "everyone",
        None,
        lambda loads: any(backup.is_line for backup in loads.backups),
        strength="backup",
        clearance="body",
        shown="fall",
        worked="energy",
    ),
    StateKind(
        "brake_slip",
        "after the brake has slipped",
        "slip of the brake, quasi-static",
        "part",
        lambda loads: loads.brake_slip,
        _hauls,
        strength="peak",
        clearance="line_when_tied",
        shown=None,
        worked="slip",
        asked_apart=True,
    ),
    StateKind(
        "haul",
        "while the crew hauls",
        "overtension while hauling",
        "crew",
        lambda loads: loads.haul_state,
        _pulls,
        strength="overshoot",
        clearance=None,
        shown=None,
        worked="force",
        with_people=False,
    ),
    StateKind(
        "tie_back_catch",
        "when the tie-back catches",
        "progressive collapse: the pulley system fails",
        "part",
        lambda loads: loads.tie_back_catch,
        _tied_back,
        strength="tie_back",
        clearance=None,
        shown=None,
        worked="force",
        with_people=False,
        asked_apart=True,
    ),
    StateKind(
        "wind",
        "in a gust",
        "wind and live load",
        "nobody",
        lambda loads: loads.wind_state,
        lambda loads: loads.load_case.mean_wind_m_per_s > 0.0,
        strength="peak",
        clearance=None,
        shown=None,
        worked="wind",
        asked_apart=True,
    ),
    StateKind(
        "lowering",
        "while it is let down",
        "release of the pretension",
        "crew",
        lambda loads: loads.lowering_state,
        _hauls,
        strength="hold",
        clearance=None,
        shown=None,
        worked="force",
        with_people=False,
    ),
):
    register(_kind)
