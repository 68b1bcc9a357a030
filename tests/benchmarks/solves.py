# ruff: noqa: T201  (a script that prints)
"""How long an equilibrium takes, and all states of a rig; moorpy's one-segment catenary in the same run.

Run: python -m tests.benchmarks.solves
"""

import os
import sys
import time
from collections.abc import Callable
from datetime import date
from pathlib import Path
from statistics import median

from riglint.loadpath import build
from riglint.loads import Loads
from riglint.mechanics.line import Equilibrium, Line, Reach, Webbing, hang
from riglint.mechanics.peak import drop
from riglint.mechanics.standing import length_for_tension
from riglint.mechanics.stretch import StretchLaw
from riglint.model.library import Library, RigFile
from riglint.policy import DEFAULT
from riglint.testing import BASELINES

STIFFNESS_N = 90e3
CURVE = StretchLaw.through([(2e3, 0.03), (5e3, 0.05), (10e3, 0.08)])
ENDS = Reach(0.5), Reach(2.0, 1e-6, 3e3)


def microseconds(job: Callable[[], object], times: int) -> float:
    """Best mean of five rounds [µs]."""
    means = []
    for _ in range(5):
        start = time.perf_counter()
        for _ in range(times):
            job()
        means.append((time.perf_counter() - start) / times)
    return 1e6 * min(means)


def long_haul() -> RigFile:
    """The baseline with the most states to sweep, read and resolved."""
    path = Path("/example/rig.yaml")
    library = Library(path.parent)
    library.take(path, (BASELINES / "long_haul.yaml").read_bytes())
    rig, problems, _ = library.resolve(path)
    if rig is None:
        sys.exit(f"the baseline cannot be read: {problems}")
    return rig


def print_states(rounds: int = 60) -> None:
    """Print how long all states of a rig take, from a standing line that is known."""
    rig = long_haul()
    took, places = [], 0
    for _ in range(rounds):
        loads = Loads(build(rig), DEFAULT.values, date(2026, 5, 2))
        if loads.haul is None or loads.standing.blocks_m is None:
            sys.exit("the baseline has no haul that stays")
        start = time.perf_counter()
        states = loads.computable()
        took.append(time.perf_counter() - start)
        places = sum(len(state.positions) for state in states)
    print(
        f"all states of long_haul, {places} places{1e3 * median(took):11.2f} ms (median), {1e3 * min(took):.2f} (best)"
    )


def main() -> None:
    """Print one line for each job."""
    line = Line(100.0, -2.0, ENDS[0], (Webbing(94.7, 0.55, StretchLaw.linear(STIFFNESS_N)),), ENDS[1])
    curved = Line(100.0, -2.0, ENDS[0], (Webbing(94.7, 0.55, CURVE),), ENDS[1])
    bare = hang(curved)
    if not isinstance(bare, Equilibrium):
        sys.exit("the benchmark line has no equilibrium")
    jobs: dict[str, tuple[Callable[[], object], int]] = {
        "straight law, one load": (lambda: hang(line, 785.0, 0.4), 2000),
        "curved law, one load": (lambda: hang(curved, 785.0, 0.4), 2000),
        "length for a standing tension": (lambda: length_for_tension(curved, 3000.0), 100),
        "peak of a fall": (lambda: drop(curved, 0.4, 80.0, 1.5, reference=bare), 100),
    }
    for name, (job, times) in jobs.items():
        took = microseconds(job, times)
        print(f"{name:32}{took:10.1f} µs {1e6 / took:10.0f} a second")
    print_states()
    os.environ["PYTHONBREAKPOINT"] = "0"
    try:
        from moorpy.Catenary import catenary  # noqa: PLC0415  (optional)
    except ImportError:
        print("moorpy is not installed: no comparison")
        return
    own = Line(100.0, 2.0, Reach(0.0), (Webbing(97.2, 0.55, StretchLaw.linear(STIFFNESS_N)),), Reach(0.0))
    ours = microseconds(lambda: hang(own), 2000)
    theirs = microseconds(lambda: catenary(100.0, 2.0, 97.2, STIFFNESS_N, 0.55, CB=-1e5, Tol=1e-9), 100)
    print(f"{'bare line, here':32}{ours:10.1f} µs {1e6 / ours:10.0f} a second")
    print(f"{'bare line, moorpy':32}{theirs:10.1f} µs {1e6 / theirs:10.0f} a second")
    print(f"{'moorpy over here':32}{theirs / ours:10.1f}")


if __name__ == "__main__":
    main()
