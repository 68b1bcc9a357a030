"""Takes every key out of every sound rig and prints what came of it: `python -m tests.silence [RIG ...]`."""

import gc
import sys
from collections import Counter

from tests.faults.matrix import sound_rigs
from tests.silence.sweep import sweep
from tests.silence.test_deleted import silent


def main() -> None:
    """Print the counts of each rig and of all, and each key that goes unheard."""
    gc.set_threshold(100_000, 50, 100)
    every: Counter[str] = Counter()
    for rig in sys.argv[1:] or sound_rigs():
        found = sweep(rig)
        mine: Counter[str] = Counter(one.heard for one in found)
        mine["undeclared"] = len(silent(found))
        every += mine
        print(rig, dict(mine), *silent(found), sep="\n  ", flush=True)  # noqa: T201
    print("all", dict(every))  # noqa: T201


if __name__ == "__main__":
    main()
