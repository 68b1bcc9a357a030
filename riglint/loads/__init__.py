"""Model meets mechanics: the states of a rig, and what every part bears in them."""

from riglint.loads.parts import PartLoad, Worst
from riglint.loads.rig_loads import Loads
from riglint.loads.states import State

__all__ = ["Loads", "PartLoad", "State", "Worst"]
