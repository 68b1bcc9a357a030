"""The pulley system step by step: what is rigged first, what next, and how it is undone."""

from __future__ import annotations

import re
from collections.abc import Sequence

from riglint.loads import Loads
from riglint.loads.haul.pulleys import Haul
from riglint.loads.inputs import known
from riglint.model.documents.rig import Plan
from riglint.model.vocabulary.words import in_prose
from riglint.records import dataclass
from riglint.views.drawing.named import NamedPart, Place
from riglint.views.drawing.reeving import Reeving
from riglint.views.figures import number

_PLACE = re.compile(r"\{(\w+)\}")
BLOCKS: tuple[Place, ...] = ("fixed_block", "moving_block")
ROPE: tuple[Place, ...] = ("dead_end", "lead")
MULTIPLIER: tuple[Place, ...] = ("grip", "pulley", "fixed_pulley")
HANDS: tuple[Place, ...] = ("hand", "redirect")


@dataclass(frozen=True, slots=True)
class BuildStep:
    """One step: what to do, what the picture then shows, and what of it is new."""

    title: str
    words: tuple[str, ...]
    shows: tuple[Place, ...]
    new: tuple[Place, ...]


def steps_of(loads: Loads, haul: Haul, reeving: Reeving, named: Sequence[NamedPart]) -> tuple[BuildStep, ...]:
    """Return the steps in the order of the work, ending with letting the tension off."""
    plan = loads.path.rig.rig.plan
    made = _Building({one.place: n for n, one in enumerate(named, 1)})
    made.add("Reeve", _reeve(haul, reeving), (*BLOCKS, *ROPE))
    made.add("Brake" if reeving.has_brake else "No brake", _brake(haul), ("brake",))
    if haul.part.tie_back is not None:
        made.add("Tie back", _tie_back(haul), ("tie_back",))
    made.add("Haul", _haul(haul, reeving), (*MULTIPLIER, *HANDS))
    made.take_off((*MULTIPLIER, *HANDS))
    made.add("Hold" if haul.part.stays else "Make fast", _hold(haul, reeving), ("tail",))
    made.add("Undo", _undo(loads, haul, reeving, plan), ("hand",))
    return tuple(made.steps)


class _Building:
    """The pulley system as it grows; in a step's words `{place}` stands for the number of a part."""

    def __init__(self, numbers: dict[str, int]) -> None:
        self.numbers, self.shown = numbers, set[Place]()
        self.steps: list[BuildStep] = []

    def add(self, title: str, words: list[str], new: tuple[Place, ...]) -> None:
        """Add one step, with what of it the file has."""
        fresh = tuple(one for one in new if one in self.numbers)
        self.shown |= set(fresh)
        told = tuple(_PLACE.sub(self._number, one) for one in words)
        self.steps.append(BuildStep(title, told, tuple(sorted(self.shown)), fresh))

    def take_off(self, places: tuple[Place, ...]) -> None:
        """Leave out of the next picture what has come off."""
        self.shown -= set(places)

    def _number(self, match: re.Match[str]) -> str:
        return f" ({self.numbers[match[1]]})" if match[1] in self.numbers else ""


# What each step says


def _called(gear: str | None) -> str:
    return f" {gear}" if gear else ""


def _reeve(haul: Haul, reeving: Reeving) -> list[str]:
    part, strands = haul.part, len(reeving.strands)
    apart = f", {part.open.text} apart" if part.open else ""
    end, off = reeving.tied_to or reeving.ends_on, reeving.strands[0].start
    count = f"{strands} strand{'' if strands == 1 else 's'}"
    fixed = f"fixed block{_called(part.fixed_block)}{{fixed_block}} at the anchor"
    moving = f"moving block{_called(part.moving_block)}{{moving_block}} on the line"
    return [
        f"Hang {fixed} and {moving}{apart}.",
        f"Reeve {count} from the dead end{{dead_end}} on the {end} block.",
        f"The lead{{lead}} comes off the {off} block.",
    ]


def _brake(haul: Haul) -> list[str]:
    brake = haul.part.brake
    if brake is None:
        return ["The file names no brake{brake}. The hands alone hold the line."]
    return [
        f"Thread the lead into brake{_called(brake.gear)}{{brake}} on its load side. The tail comes out to the hand.",
        "A second person checks. Pull hand-tight.",
    ]


def _tie_back(haul: Haul) -> list[str]:
    tie = haul.part.tie_back
    slack = f" with {tie.slack.text} of slack" if tie is not None and tie.slack else ""
    gear = tie.gear if tie is not None else None
    return [f"Before you haul, tie the line back with{_called(gear)}{{tie_back}} to its own sling{slack}."]


def _haul(haul: Haul, reeving: Reeving) -> list[str]:
    tackle = haul.part.multiplier
    count = known(lambda: haul.haulers)
    who = f" {count} {'person pulls' if count == 1 else 'people pull'}{{hand}}." if count else ""
    stand = f"Stand to the side.{who} Somebody else calls stop."
    if reeving.multiplier == 1 or tackle is None:
        return ["Pull the rope through the brake." if reeving.has_brake else "Pull on the rope.", stand]
    rope = "Run a rope of its own" if reeving.multiplier % 2 == 0 else "Run the tail"
    return [
        f"Clamp grip{_called(tackle.grip)}{{grip}} on the {reeving.grip_on}, biting toward the load.",
        f"{rope} through pulley{_called(tackle.pulley)}{{pulley}}.",
        stand,
    ]


def _hold(haul: Haul, reeving: Reeving) -> list[str]:
    part = haul.part
    off = ["Take grip and multiplier off."] if reeving.multiplier > 1 else []
    if not part.stays:
        by = ", ".join(one.gear or in_prose(one.part) for one in part.made_fast or [])
        onto = f" ({by})" if by else ""
        return [*off, f"Make the line fast on its own parts{onto}. Then let the pulley system go slack."]
    lock = ["Lock the brake."] if reeving.has_brake else []
    tail = part.rope_tail
    at = f" {tail.stopper_at.text} behind the brake" if tail and tail.stopper_at else ""
    return [*lock, *off, f"Tie the stopper knot{{tail}}{at}. Tie the tail off."]


def _undo(loads: Loads, haul: Haul, reeving: Reeving, plan: Plan | None) -> list[str]:
    if plan is not None and plan.lowering in {"cut", "tripped"}:
        return ["The plan cuts or trips a loaded line. Don't. Let the rope run through the brake."]
    if not haul.part.stays:
        return [
            "Hang the pulley system in again, pull until the line is loose of its own parts, then let down."
        ]
    first = []
    if plan is not None and plan.lowering == "haul_back":
        first = ["Haul a little to take the load off the brake."]
    turns = plan.tail_wraps if plan else None
    round_trunk = f", with {number(turns)} turn{'' if turns == 1 else 's'} round the trunk" if turns else ""
    run = known(lambda: loads.haul_sheet.let_down_m if loads.haul_sheet else None)
    metres = f" {number(run)} m of rope pass through." if run is not None else ""
    brake = "Open the brake slowly and let the rope run." if reeving.has_brake else "Let the rope run slowly."
    return [*first, f"Hand on the rope{round_trunk}{{hand}}.", "Untie the stopper.", f"{brake}{metres}"]
