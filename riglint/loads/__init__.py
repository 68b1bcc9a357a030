"""Where the model meets the mechanics: states, forces, strengths and ratios of one rig."""

from riglint.loads.parts import PEAKS, PartLoad, Worst
from riglint.loads.rig_loads import Loads
from riglint.loads.states import State

__all__ = ["PEAKS", "Loads", "PartLoad", "State", "Worst"]
