# ruff: noqa: T201  (a script that prints)
"""How long an equilibrium takes, and all states of a rig; moorpy's one-segment catenary in the same run.

Run: python -m tests.benchmarks.solves
"""

import os
import sys
import time
from collections.abc import Callable, Iterator
from datetime import date
from pathlib import Path
from statistics import median
from typing import Any
from unittest.mock import patch

from riglint.loadpath import LoadPath, build
from riglint.loads import Loads
from riglint.loads.states.line import State
from riglint.mechanics.span import chain
from riglint.mechanics.span import line as line_module
from riglint.mechanics.span.line import Equilibrium, Line, Reach, Webbing, hang
from riglint.mechanics.span.peak import drop
from riglint.mechanics.span.standing import length_for_tension
from riglint.mechanics.span.stretch import StretchLaw
from riglint.model.library import Library, RigFile
from riglint.model.references import resolve
from riglint.policy import DEFAULT
from riglint.testing import BASELINES

EXAMPLES = Path(__file__).parents[2] / "examples"
EXAMPLE = EXAMPLES / "rigs" / "long-line.yaml"
ON = date(2026, 5, 2)
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


def rigs() -> Iterator[tuple[str, RigFile]]:
    """Yield the 82 m example and each baseline, read and resolved."""
    files = {"82 m example": (EXAMPLE, Library(EXAMPLES))}
    files |= {path.stem: (path, Library(path.parent)) for path in sorted(BASELINES.glob("*.yaml"))}
    for name, (path, library) in files.items():
        library.take(path, path.read_bytes())
        rig, problems, _ = resolve(library, path)
        if rig is None:
            sys.exit(f"{name} cannot be read: {problems}")
        yield name, rig


class Counted:
    """A function that counts how often it is called."""

    def __init__(self, function: Callable[..., Any]) -> None:
        self.function, self.calls = function, 0

    def __call__(self, *values: Any) -> Any:
        """Count and pass on."""
        self.calls += 1
        return self.function(*values)


def all_states(path: LoadPath) -> list[State]:
    """Every state of a rig that is read, nothing computed yet."""
    return Loads(path, DEFAULT.values, ON).computable()


def counted(path: LoadPath) -> tuple[int, int]:
    """How many equilibria are solved for all states of a rig, and how often forces are guessed for them.

    A guess more for each step towards a peak or a length is not counted, nor are the places of a line without a load.
    """
    solved, guessed = Counted(chain.solve), Counted(chain.guessed)
    with patch.object(line_module, "solve", solved), patch.object(chain, "guessed", guessed):
        all_states(path)
    return solved.calls, guessed.calls


def print_states(rounds: int = 100) -> None:
    """Print how long all states take, each round with fresh loads."""
    print("\nall states of                    median      best   median of CPU   equilibria  guesses  places")
    for name, rig in rigs():
        path, took, cpu = build(rig), [], []
        for _ in range(rounds):
            wall_s, cpu_s = time.perf_counter(), time.process_time()
            all_states(path)
            took.append(1e3 * (time.perf_counter() - wall_s))
            cpu.append(1e3 * (time.process_time() - cpu_s))
        places = sum(len(state.positions) for state in all_states(path))
        solved, guessed = counted(path)
        times = f"{median(took):8.2f} ms {min(took):6.2f} ms {median(cpu):12.2f} ms"
        print(f"{name:28}{times} {solved:12} {guessed:8} {places:7}")
    print()


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
