"""Model meets mechanics: the states of a rig, and what every part bears in them."""

from riglint.loads.path.parts import PartLoad, Worst
from riglint.loads.rig_loads import Loads
from riglint.loads.states.line import State

__all__ = ["Loads", "PartLoad", "State", "Worst"]
