"""`python -m tests.benchmarks.changes`: a library for the first time, unchanged, with one rig or one shelf changed.

Each beside a bare C parse of the same files and, where it is there, beside yamllint. Measured as in `tests.benchmarks`.
"""

import argparse
import re
import sys
from collections.abc import Callable
from pathlib import Path
from shutil import which
from statistics import median
from tempfile import TemporaryDirectory

from tests.benchmarks import __main__ as benchmarks
from tests.benchmarks.libraries import write_library

TITLE = re.compile(r"(?m)^title: .*$")
LINT = which("yamllint")


def edited(file: Path, n: int) -> None:
    """Give a file another title."""
    file.write_text(TITLE.sub(f"title: Number {n}", file.read_text("utf-8"), count=1), "utf-8")


def row(
    words: str, call: list[str], others: dict[str, list[str]], rounds: int, before: Callable[[int], object]
) -> None:
    """Write a ratio to each other program, with something done before each round."""
    found: dict[str, list[float]] = {name: [] for name in others}
    for n in range(rounds + 1):  # the first fills the memory
        beside = {name: benchmarks.cpu_s(other) for name, other in others.items()}
        before(n)
        took = benchmarks.cpu_s(call)
        for name, cpu_s in beside.items():
            found[name] += [took / cpu_s] if n else []
    for name, ratios in found.items():
        said = f"{words} / {name}"
        sys.stdout.write(f"{said:56} {median(ratios):7.2f}   {min(ratios):.2f} to {max(ratios):.2f}\n")


def table(rigs: int, rounds: int) -> None:
    """Write the four rows."""
    kept = dict(benchmarks.AS_INSTALLED)
    with TemporaryDirectory() as folder:
        library = Path(folder, "library")
        files = write_library(library, rigs)
        audit = [sys.executable, "-m", "riglint", "audit", "--on", benchmarks.ON, str(library)]
        others = {"a bare C parse": [sys.executable, "-c", benchmarks.PARSE, *map(str, files)]}
        others |= {"yamllint": [LINT, *map(str, files)]} if LINT else {}
        row(f"{rigs} rigs for the first time", audit, others, rounds, id)
        benchmarks.AS_INSTALLED |= {"RIGLINT_AFRESH": "", "XDG_CACHE_HOME": str(Path(folder, "cache"))}
        shelf = files[0].parent.parent / "shelf" / "park.yaml"
        row(f"{rigs} rigs unchanged", audit, others, rounds, id)
        row(f"one of {rigs} rigs changed", audit, others, rounds, lambda n: edited(files[0], n))
        row(f"one shelf of {rigs} rigs changed", audit, others, rounds, lambda n: edited(shelf, n))
    benchmarks.AS_INSTALLED.clear()
    benchmarks.AS_INSTALLED.update(kept)


def main() -> None:
    """Write one table."""
    call = argparse.ArgumentParser(prog="python -m tests.benchmarks.changes")
    call.add_argument("--rounds", type=int, default=3)
    call.add_argument("--rigs", type=int, default=207)
    asked = call.parse_args()
    table(asked.rigs, asked.rounds)


if __name__ == "__main__":
    main()
