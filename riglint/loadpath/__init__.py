"""The load path: the parts of the chain in the order the load runs through them, and whether they make one chain.

No forces here, only what holds what.
"""

from riglint.loadpath.contacts import Contact, contact_of, leg_target, toward_anchor, toward_line
from riglint.loadpath.gear import gear_named
from riglint.loadpath.order import build, build_chain
from riglint.loadpath.path import BROKEN, IDLE, SPANNING, LoadPath, NotComputable, Placed

__all__ = [
    "BROKEN",
    "IDLE",
    "SPANNING",
    "Contact",
    "LoadPath",
    "NotComputable",
    "Placed",
    "build",
    "build_chain",
    "contact_of",
    "gear_named",
    "leg_target",
    "toward_anchor",
    "toward_line",
]
