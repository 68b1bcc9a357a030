"""What all benchmarks share: programs run in turn, processor time compared round by round, and a row for each ratio."""

import argparse
import os
import re
import subprocess
import sys
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from resource import RUSAGE_CHILDREN, getrusage
from shutil import which
from statistics import median

# Compiled copies of modules are kept wherever anything is installed.
AS_INSTALLED = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
AS_INSTALLED["RIGLINT_AFRESH"] = "1"  # but within `remembering`
ON = "2026-05-02"
AUDIT = [sys.executable, "-m", "riglint", "audit", "--on", ON]
PARSE = [
    sys.executable,
    "-c",
    "import sys, pathlib, yaml\nfor f in sys.argv[1:]: yaml.load(pathlib.Path(f).read_bytes(), yaml.CSafeLoader)",
]
LINT = which("yamllint")
TITLE = re.compile(r"(?m)^title: .*$")


def cpu_s(call: list[str]) -> float:
    """Return the processor time that a program takes, s."""
    before = getrusage(RUSAGE_CHILDREN)
    subprocess.run(call, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, check=False, env=AS_INSTALLED)
    after = getrusage(RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


@contextmanager
def remembering(cache: Path) -> Iterator[None]:
    """Let programs remember answers, in a folder of their own, as long as the block lasts."""
    kept = dict(AS_INSTALLED)
    AS_INSTALLED.update(RIGLINT_AFRESH="", XDG_CACHE_HOME=str(cache))
    try:
        yield
    finally:
        AS_INSTALLED.clear()
        AS_INSTALLED.update(kept)


def retitled(file: Path, n: int) -> None:
    """Give a file another title."""
    file.write_text(TITLE.sub(f"title: Number {n}", file.read_text("utf-8"), count=1), "utf-8")


def asked_for(
    name: str, *, rounds: int, rigs: int, more: Sequence[tuple[str, int | str]] = ()
) -> argparse.Namespace:
    """Return what a call of a benchmark asks for."""
    call = argparse.ArgumentParser(prog=f"python -m {name}")
    for option, usual in (("--rounds", rounds), ("--rigs", rigs), *more):
        call.add_argument(option, type=type(usual), default=usual)
    return call.parse_args()


def write_head(rounds: int) -> None:
    """Write the head of a table."""
    sys.stdout.write(f"{'processor time, ratio':56}  median   least to greatest of {rounds}\n")


def write_row(words: str, ratios: Sequence[float]) -> None:
    """Write a ratio: median, least and greatest."""
    sys.stdout.write(f"{words:56} {median(ratios):7.2f}   {min(ratios):.2f} to {max(ratios):.2f}\n")
