"""Let memory run out in every function of ours, and every solver step fail in each way: `python -m tests.injection`.

`python -m tests.injection memory` and `python -m tests.injection solver` run one half each.
"""

from __future__ import annotations

import os
import sys
import tempfile
from pathlib import Path

from tests.cli.calling import SHORT_TAIL, SOUND, write
from tests.fuzz.trying import loaded_once
from tests.injection.failing import (
    MECHANICS,
    OURS,
    audited,
    functions_called,
    not_failed_closed,
    shown,
    with_failing,
)
from tests.injection.test_injection import STEPS

Half = tuple[tuple[str, ...], tuple[type[Exception], ...]]
HALVES: dict[str, Half] = {"memory": (OURS, (MemoryError,)), "solver": (MECHANICS, STEPS)}


def main(asked: list[str]) -> int:
    """Run the halves asked for, else both; 1 if anything does not fail closed."""
    folder = Path(tempfile.mkdtemp(prefix="injection-"))
    write(folder / "rig-library", "")
    write(folder / "low.yaml", SHORT_TAIL)
    write(folder / "other.yaml", SOUND)
    os.chdir(folder)
    with loaded_once():
        return _all([HALVES[name] for name in asked or HALVES])


def _all(halves: list[Half]) -> int:
    whole = audited()
    tried = wrong = 0
    for within, errors in halves:
        functions, _ = functions_called(within, audited)
        for code in functions:
            for error in errors:
                for at in (1, 2, 20):
                    tried += 1
                    said = not_failed_closed(whole, with_failing(code, error, audited, at=at))
                    if said:
                        wrong += 1
                        sys.stdout.write(f"{shown(code)}, call {at}, {error.__name__}: {said}\n")
        sys.stdout.write(f"{len(functions)} functions\n")
    sys.stdout.write(f"{tried} failures put in, {wrong} did not fail closed\n")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
