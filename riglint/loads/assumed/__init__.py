"""What a rig leaves out and its parts tell: rope lengths, blocks, hitches, mass and stretch of webbing."""

from riglint.loads.assumed.ends import other_ends, worst_consequence
from riglint.loads.assumed.filled_in import loads_of

__all__ = ["loads_of", "other_ends", "worst_consequence"]
