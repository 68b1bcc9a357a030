"""`python -m tests.benchmarks.remembered`: how long a call takes whose answer, or most of it, is remembered, as ratios.

Measured as in `tests.benchmarks`: in turn, each a process of its own, processor time compared round by round.
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
from tests.benchmarks.libraries import ROOT, write_library

TITLE = re.compile(r"(?m)^title: .*$")


def edited(file: Path, n: int) -> None:
    """Give a rig another title."""
    file.write_text(TITLE.sub(f"title: Line number {n}", file.read_text("utf-8"), count=1), "utf-8")


def row(words: str, one: list[str], other: list[str], rounds: int, before: Callable[[int], object]) -> None:
    """Write a ratio, with something done before each round."""
    found = []
    for n in range(rounds + 2):
        before(n)
        found.append(benchmarks.cpu_s(one) / benchmarks.cpu_s(other))
    found = sorted(found[2:])  # the first two fill the memory
    sys.stdout.write(f"{words:56} {median(found):7.2f}   {found[0]:.2f} to {found[-1]:.2f}\n")


def main() -> None:
    """Write one table."""
    call = argparse.ArgumentParser(prog="python -m tests.benchmarks.remembered")
    call.add_argument("--rounds", type=int, default=7)
    call.add_argument("--rigs", type=int, default=207)
    asked = call.parse_args()
    audit = [sys.executable, "-m", "riglint", "audit", "--on", benchmarks.ON]
    one = str(ROOT / "examples" / "rigs" / "long-line.yaml")
    with TemporaryDirectory() as folder:
        benchmarks.AS_INSTALLED |= {"RIGLINT_AFRESH": "", "XDG_CACHE_HOME": str(Path(folder, "cache"))}
        library = Path(folder, "library")
        files = write_library(library, asked.rigs)
        parse = [sys.executable, "-c", benchmarks.PARSE, *map(str, files)]
        many = [*audit, str(library)]
        sys.stdout.write(f"{'processor time, ratio':56}  median   least to greatest of {asked.rounds}\n")
        lint = which("yamllint")
        if lint is not None:
            row("one rig remembered / yamllint of it", [*audit, one], [lint, one], asked.rounds, id)
        row(f"{asked.rigs} rigs unchanged / a bare C parse of them", many, parse, asked.rounds, id)
        words = f"one of {asked.rigs} rigs changed / a bare C parse of them"
        row(words, many, parse, asked.rounds, lambda n: edited(files[n], n))


if __name__ == "__main__":
    main()
