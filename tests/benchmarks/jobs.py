"""`python -m tests.benchmarks.jobs`: an audit with one process and with two, on the clock and in processor time."""

from pathlib import Path
from tempfile import TemporaryDirectory
from time import perf_counter

from tests.benchmarks.libraries import write_library
from tests.benchmarks.measuring import AUDIT, asked_for, cpu_s, write_row


def table(rigs: int, rounds: int) -> None:
    """Write both ratios."""
    clock, processor = [], []
    with TemporaryDirectory() as folder:
        write_library(Path(folder), rigs)
        for _ in range(rounds):
            took = []
            for jobs in ("1", "2"):
                begun = perf_counter()
                used_s = cpu_s([*AUDIT, folder, "--jobs", jobs])
                took.append((perf_counter() - begun, used_s))
            (clock_1, cpu_1), (clock_2, cpu_2) = took
            clock.append(clock_2 / clock_1)
            processor.append(cpu_2 / cpu_1)
    for words, found in (("time on the clock", clock), ("processor time", processor)):
        write_row(f"{rigs} rigs with --jobs 2 / with --jobs 1, {words}", found)


def main() -> None:
    """Write one table."""
    asked = asked_for("tests.benchmarks.jobs", rounds=3, rigs=207)
    table(asked.rigs, asked.rounds)


if __name__ == "__main__":
    main()
