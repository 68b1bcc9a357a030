"""The pulley system as its rope runs: from the dead end over every sheave, through the brake, to the hands.

The picture is traced from the file. Where the file contradicts itself, the contradiction stays in the picture.
"""

from __future__ import annotations

from typing import Literal

from riglint.loads.haul.pulleys import Haul
from riglint.loads.inputs import known
from riglint.records import dataclass

Block = Literal["fixed", "moving"]
# Where a run of rope ends. `pulley` is the fixed pulley of the multiplier, `bag` where spare rope goes.
Node = Literal["fixed", "moving", "brake", "grip", "pulley", "hand", "bag"]


@dataclass(frozen=True, slots=True)
class Run:
    """One straight run of rope, named from the dead end on."""

    name: str
    start: Node
    end: Node
    own_rope: bool = False  # of a multiplier with a rope of its own


@dataclass(frozen=True, slots=True)
class Reeving:
    """How the rope runs; blocks and gear by what the file calls them."""

    strands: tuple[Run, ...]  # the lead first, the dead end last
    tail: tuple[Run, ...]  # from the brake to the hands
    multiplier: int  # 1 where there is none
    grip_on: Literal["lead", "tail"]
    grip_turned: bool  # whether it bites toward the hand
    brake_side: Block
    has_brake: bool
    tied_to: Block | None  # where the file ties the dead end
    spare_sheaves: tuple[tuple[Block, int], ...]  # below zero where a block has too few

    @property
    def ends_on(self) -> Block:
        """The block that so many strands end on."""
        return "fixed" if self.strands[-1].start == "fixed" else "moving"

    @property
    def ideal_ratio(self) -> int:
        """Line over hand without friction, by the strands that carry."""
        return len(self.strands) * self.multiplier


def reeving_of(haul: Haul) -> Reeving | None:
    """Return how a rope runs; None where the file does not say how many strands there are."""
    strands, multiplier = known(lambda: haul.strands), known(lambda: haul.multiplier)
    if strands is None or multiplier is None:
        return None
    part, tackle = haul.part, haul.part.multiplier
    side: Block = "moving" if part.brake is not None and part.brake.side == "moving" else "fixed"
    grip_on: Literal["lead", "tail"] = "tail" if tackle is not None and tackle.strand == "tail" else "lead"
    end = part.rope.dead_end if part.rope else None
    runs = strands_of(strands, side)
    return Reeving(
        runs,
        tail_of(multiplier, grip_on),
        multiplier,
        grip_on,
        tackle is not None and tackle.bites == "toward_hand",
        side,
        part.brake is not None,
        _block(end.on) if end and end.on else None,
        _spare(haul, runs),
    )


def _block(name: str) -> Block:
    return "fixed" if name == "fixed_block" else "moving"


def _other(block: Block) -> Block:
    return "moving" if block == "fixed" else "fixed"


def strands_of(strands: int, brake_side: Block) -> tuple[Run, ...]:
    """Return the strands, the lead first: it comes off the block that the brake is not on."""
    start = _other(brake_side)
    found = [Run("lead", start, "brake")]
    for n in range(1, strands):
        found.append(Run(f"strand {n}", _other(start), start))
        start = _other(start)
    return tuple(found)


def tail_of(multiplier: int, grip_on: Literal["lead", "tail"]) -> tuple[Run, ...]:
    """Return the runs behind the brake, in the order that `mechanics.rope.tackle.hauled` derives them in.

    An odd multiplier takes the tail itself round the grip's pulley. An even one has a rope of its own.
    """
    if multiplier == 1:
        return (Run("hand strand", "brake", "hand"),)
    own = multiplier % 2 == 0
    if own:
        return (Run("tail", "brake", "bag"), *_to_and_fro("pulley", multiplier, own=True))
    if grip_on == "tail":
        return (Run("tail", "brake", "pulley"), *_to_and_fro("pulley", multiplier - 1, own=False))
    return _to_and_fro("brake", multiplier - 1, own=False)


def _to_and_fro(start: Node, runs: int, *, own: bool) -> tuple[Run, ...]:
    """Return an even number of runs between the grip and the fixed pulley, the last one to the hands."""
    found: list[Run] = []
    for n in range(runs):
        end: Node = "grip" if n % 2 == 0 else "hand" if n == runs - 1 else "pulley"
        name = "hand strand" if end == "hand" else f"returning tail {n + 1}"
        found.append(Run(name, start, end, own))
        start = end
    return tuple(found)


def _spare(haul: Haul, runs: tuple[Run, ...]) -> tuple[tuple[Block, int], ...]:
    """Return for each block whose sheaves are known how many the rope leaves free."""
    found: list[tuple[Block, int]] = []
    blocks: tuple[Block, Block] = ("fixed", "moving")
    for block in blocks:
        item = haul.geometry.rig.items.get(getattr(haul.part, f"{block}_block") or "")
        if item is not None and item.gear.sheaves is not None:
            found.append((block, item.gear.sheaves - turns_at(runs, block)))
    return tuple(found)


def turns_at(runs: tuple[Run, ...], block: Block) -> int:
    """Return how often the rope turns on a block: once for each strand that comes off it towards the lead."""
    return sum(run.start == block for run in runs[:-1])
