"""`python -m tests.benchmarks.jobs`: an audit with one process and with two, on the clock and in processor time."""

import argparse
import sys
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory
from time import perf_counter

from tests.benchmarks import __main__ as benchmarks
from tests.benchmarks.libraries import write_library


def table(rigs: int, rounds: int) -> None:
    """Write both ratios."""
    clock, processor = [], []
    with TemporaryDirectory() as folder:
        write_library(Path(folder), rigs)
        audit = [sys.executable, "-m", "riglint", "audit", "--on", benchmarks.ON, folder]
        for _ in range(rounds):
            took = []
            for jobs in ("1", "2"):
                begun = perf_counter()
                cpu_s = benchmarks.cpu_s([*audit, "--jobs", jobs])
                took.append((perf_counter() - begun, cpu_s))
            (clock_1, cpu_1), (clock_2, cpu_2) = took
            clock.append(clock_2 / clock_1)
            processor.append(cpu_2 / cpu_1)
    for words, found in (("time on the clock", sorted(clock)), ("processor time", sorted(processor))):
        said = f"{rigs} rigs with --jobs 2 / with --jobs 1, {words}"
        sys.stdout.write(f"{said:56} {median(found):7.2f}   {found[0]:.2f} to {found[-1]:.2f}\n")


def main() -> None:
    """Write one table."""
    call = argparse.ArgumentParser(prog="python -m tests.benchmarks.jobs")
    call.add_argument("--rounds", type=int, default=3)
    call.add_argument("--rigs", type=int, default=207)
    asked = call.parse_args()
    table(asked.rigs, asked.rounds)


if __name__ == "__main__":
    main()
