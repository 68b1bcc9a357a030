"""What a hazard is: something that goes wrong with a line and what it does, in one sentence."""

from __future__ import annotations

from typing import Literal

from riglint.model.values.sources import PRACTICE, Source
from riglint.records import dataclass

Phase = Literal["plan", "gear", "spot", "connect", "pulley", "tension", "walk", "after"]
PHASES: dict[Phase, str] = {
    "plan": "Planning",
    "gear": "Choosing gear",
    "spot": "Spot and anchors",
    "connect": "Tree, sling, connections",
    "pulley": "Building the pulley",
    "tension": "Tensioning",
    "walk": "Walking",
    "after": "Watching, letting down, packing",
}
# What a rig must have for the line to be worth a look; "any" is every rig.
Where = Literal[
    "any",
    "tightened",
    "haul",
    "plate",
    "grip",
    "highline",
    "waterline",
    "slackrope",
    "long",
    "tree",
    "bolts",
    "boulder",
    "ground",
    "structure",
    "legs",
    "edge",
]


@dataclass(frozen=True, slots=True)
class Hazard:
    """One way in which a line hurts people, gear or trees."""

    id: str
    phase: Phase
    what: str  # what goes wrong and what it does
    eyes: str = ""  # what a person on site ticks once it is so; empty where a file tells enough
    where: Where = "any"  # which rigs the eyes are needed at
    source: Source = PRACTICE
