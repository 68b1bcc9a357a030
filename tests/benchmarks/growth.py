"""`python -m tests.benchmarks.growth`: how time and memory grow from a library to one of many times as many rigs.

Processor time of both calls in turn, and the greatest memory that each of them ever had. Nothing is remembered.
"""

import os
import subprocess
import sys
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory

from tests.benchmarks.libraries import write_library
from tests.benchmarks.measuring import AS_INSTALLED, AUDIT, asked_for, write_row

KIB = 1024  # of memory: the unit that Linux counts its greatest use in


def used(library: Path, form: str) -> tuple[float, float]:
    """Return the processor time of an audit, s, and the most memory that it had, kiB."""
    call = [*AUDIT, "--format", form, str(library)]
    audit = subprocess.Popen(call, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, env=AS_INSTALLED)
    _, _, found = os.wait4(audit.pid, 0)
    return found.ru_utime + found.ru_stime, found.ru_maxrss


def table(rigs: int, rounds: int, times: int = 4, form: str = "text") -> None:
    """Write how much time and memory grow."""
    with TemporaryDirectory() as folder:
        few, many = Path(folder, "few"), Path(folder, "many")
        write_library(few, rigs)
        write_library(many, rigs * times)
        found = [(used(few, form), used(many, form)) for _ in range(rounds)]
    grown = [more[0] / less[0] for less, more in found]
    least, most = (median(one[n][1] for one in found) for n in (0, 1))
    each = (most - least) / (rigs * (times - 1))
    write_row(f"audit as {form} of {rigs * times} rigs / of {rigs}", grown)
    peaks = f"{least / KIB:.1f} and {most / KIB:.1f} MiB, {each:.1f} KiB for each rig more"
    sys.stdout.write(f"  greatest memory: {peaks}\n")


def main() -> None:
    """Write one table."""
    more = (("--times", 10), ("--format", "text"))
    asked = asked_for("tests.benchmarks.growth", rounds=1, rigs=100, more=more)
    table(asked.rigs, asked.rounds, asked.times, asked.format)


if __name__ == "__main__":
    main()
