"""`python -m tests.benchmarks`: how long riglint takes beside other readers of the same files, as ratios.

The programs run in turn, A B A B …, each as a process of its own, and processor time is compared round by round: the
speed of a busy machine drifts, a ratio hardly does. Needs yamllint for its rows (`pip install yamllint`).
"""

import argparse
import os
import subprocess
import sys
from pathlib import Path
from resource import RUSAGE_CHILDREN, getrusage
from shutil import which
from statistics import median
from tempfile import TemporaryDirectory

from tests.benchmarks.libraries import ROOT, write_library

# Compiled copies of modules are kept wherever anything is installed.
AS_INSTALLED = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
AS_INSTALLED["RIGLINT_AFRESH"] = "1"  # `tests.benchmarks.remembered` measures what is remembered
ON = "2026-05-02"
PARSE = "import sys, pathlib, yaml\nfor f in sys.argv[1:]: yaml.load(pathlib.Path(f).read_bytes(), yaml.CSafeLoader)"


def cpu_s(call: list[str]) -> float:
    """Return the processor time that a program takes, s."""
    before = getrusage(RUSAGE_CHILDREN)
    subprocess.run(call, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, check=False, env=AS_INSTALLED)
    after = getrusage(RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def ratios(one: list[str], other: list[str], rounds: int) -> list[float]:
    """Return how much longer one program takes than another, round by round, after one that is not counted."""
    found = [cpu_s(one) / cpu_s(other) for _ in range(rounds + 1)]
    return sorted(found[1:])


def row(words: str, one: list[str], other: list[str], rounds: int) -> None:
    """Write a ratio: median, least and greatest."""
    found = ratios(one, other, rounds)
    sys.stdout.write(f"{words:56} {median(found):7.2f}   {found[0]:.2f} to {found[-1]:.2f}\n")


def main() -> None:
    """Write one table."""
    from tests.benchmarks import changes, growth, hook, jobs  # noqa: PLC0415 - they measure as this module does

    call = argparse.ArgumentParser(prog="python -m tests.benchmarks")
    call.add_argument("--rounds", type=int, default=5)
    call.add_argument("--rigs", type=int, default=207)
    asked = call.parse_args()
    audit = [sys.executable, "-m", "riglint", "audit", "--on", ON]
    limits = [sys.executable, "-m", "riglint", "limits", "--on", ON]
    one = str(ROOT / "examples" / "rigs" / "long-line.yaml")
    with TemporaryDirectory() as folder:
        files = [str(file) for file in write_library(Path(folder), asked.rigs)]
        parse = [sys.executable, "-c", PARSE]
        many = [*audit, folder]
        sys.stdout.write(f"{'processor time, ratio':56}  median   least to greatest of {asked.rounds}\n")
        row("audit of one rig / a bare C parse of it", [*audit, one], [*parse, one], asked.rounds)
        row("limits of one rig / its audit", [*limits, one], [*audit, one], asked.rounds)
        row(f"audit of {asked.rigs} rigs / a bare C parse of them", many, [*parse, *files], asked.rounds)
        lint = which("yamllint")
        if lint is not None:
            row("audit of one rig / yamllint", [*audit, one], [lint, one], asked.rounds)
            row(f"audit of {asked.rigs} rigs / yamllint", many, [lint, *files], asked.rounds)
    changes.table(asked.rigs, asked.rounds)
    hook.table(asked.rigs, asked.rounds)
    jobs.table(asked.rigs, asked.rounds)
    growth.table(asked.rigs, 1)
    # In a process of its own, since it counts what is imported.
    subprocess.run([sys.executable, "-m", "tests.benchmarks.shares", "--rigs", str(asked.rigs)], check=True)


if __name__ == "__main__":
    main()
