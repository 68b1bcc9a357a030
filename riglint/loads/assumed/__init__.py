"""What a rig leaves out and its parts tell: rope lengths, blocks, hitches, mass and stretch of webbing."""

from riglint.loads.assumed.ends import at_each_end, at_its_worst, other_ends, worst_consequence
from riglint.loads.assumed.filled_in import loads_of

__all__ = ["at_each_end", "at_its_worst", "loads_of", "other_ends", "worst_consequence"]
