"""`python -m tests.benchmarks.hook`: what the commit hook costs in a library of a club, as ratios.

A git repository is made and every change is committed for real. Measured as in `tests.benchmarks`.
"""

import argparse
import os
import re
import subprocess
import sys
from pathlib import Path
from shutil import which
from statistics import median
from tempfile import TemporaryDirectory

from tests.benchmarks import __main__ as benchmarks
from tests.benchmarks.libraries import write_library

TITLE = re.compile(r"(?m)^title: .*$")
LINT = which("yamllint")
HOOK = [sys.executable, "-m", "riglint", "audit", "--on", benchmarks.ON, "--revision", "staged", "--if-any"]
PERSON = ("-c", "user.name=Rigger", "-c", "user.email=rigger@example.org")


def git(library: Path, *call: str) -> None:
    """Run git in the library as somebody invented."""
    subprocess.run(["git", "-C", str(library), *PERSON, *call], check=True, capture_output=True)


def row(words: str, changed: Path, call: list[str], other: list[str], rounds: int) -> None:
    """Write two ratios, in the library: of a commit that changes one file, and of the same content asked again."""
    first, again = [], []
    for n in range(rounds + 2):
        changed.write_text(TITLE.sub(f"title: Number {n}", changed.read_text("utf-8"), count=1), "utf-8")
        git(Path(), "add", "-A")
        beside = benchmarks.cpu_s(other)
        first.append(benchmarks.cpu_s(call) / beside)
        again.append(benchmarks.cpu_s(call) / beside)
        git(Path(), "commit", "-q", "-m", words)
    for said, found in (
        (words, first[2:]),
        ("  the same content again", again[2:]),
    ):  # the first two fill the memory
        sys.stdout.write(f"{said:56} {median(found):7.2f}   {min(found):.2f} to {max(found):.2f}\n")


def table(rigs: int, rounds: int) -> None:
    """Write the rows of the hook."""
    with TemporaryDirectory() as folder:
        kept = dict(benchmarks.AS_INSTALLED)
        benchmarks.AS_INSTALLED |= {"RIGLINT_AFRESH": "", "XDG_CACHE_HOME": str(Path(folder, "cache"))}
        library = Path(folder, "library")
        files = write_library(library, rigs)
        git(library, "init", "-q")
        git(library, "add", "-A")
        git(library, "commit", "-q", "-m", "A library")
        here = Path.cwd()
        os.chdir(library)
        rig = files[rigs // 2]
        shelf = rig.parent.parent / "shelf" / "park.yaml"
        judged = [
            shelf,
            *(one for one in rig.parent.glob("*.yaml") if "shelf/park.yaml" in one.read_text("utf-8")),
        ]
        if LINT is not None:
            hook, lint = [*HOOK, "--with-rigs", "--"], [LINT]
            words = f"hook, one rig of {rigs} / yamllint of it"
            row(words, rig, [*hook, str(rig)], [*lint, str(rig)], rounds)
            words = f"hook, gear list of {len(judged) - 1} rigs / yamllint of all of them"
            row(words, shelf, [*hook, str(shelf)], [*lint, *map(str, judged)], rounds)
        parse = [sys.executable, "-c", benchmarks.PARSE, *map(str, files)]
        row(f"all {rigs} as staged, one changed / a bare C parse", rig, [*HOOK, "."], parse, rounds)
        os.chdir(here)
        benchmarks.AS_INSTALLED.clear()
        benchmarks.AS_INSTALLED.update(kept)


def main() -> None:
    """Write one table."""
    call = argparse.ArgumentParser(prog="python -m tests.benchmarks.hook")
    call.add_argument("--rounds", type=int, default=5)
    call.add_argument("--rigs", type=int, default=300)
    asked = call.parse_args()
    sys.stdout.write(f"{'processor time, ratio':56}  median   least to greatest of {asked.rounds}\n")
    table(asked.rigs, asked.rounds)


if __name__ == "__main__":
    main()
