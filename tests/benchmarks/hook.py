"""`python -m tests.benchmarks.hook`: what the commit hook costs in a library of a club, as ratios.

A git repository is made and every change is committed for real. Measured as in `tests.benchmarks`.
"""

import subprocess
from contextlib import chdir
from pathlib import Path
from tempfile import TemporaryDirectory

from tests.benchmarks.libraries import write_library
from tests.benchmarks.measuring import (
    AUDIT,
    LINT,
    PARSE,
    asked_for,
    cpu_s,
    remembering,
    retitled,
    write_head,
    write_row,
)

HOOK = [*AUDIT, "--revision", "staged", "--if-any"]
PERSON = ("-c", "user.name=Rigger", "-c", "user.email=rigger@example.org")


def git(library: Path, *call: str) -> None:
    """Run git in the library as somebody invented."""
    subprocess.run(["git", "-C", str(library), *PERSON, *call], check=True, capture_output=True)


def row(words: str, changed: Path, call: list[str], other: list[str], rounds: int) -> None:
    """Write two ratios, in the library: of a commit that changes one file, and of the same content asked again."""
    first, again = [], []
    for n in range(rounds + 2):
        retitled(changed, n)
        git(Path(), "add", "-A")
        beside = cpu_s(other)
        first.append(cpu_s(call) / beside)
        again.append(cpu_s(call) / beside)
        git(Path(), "commit", "-q", "-m", words)
    # The first two fill the memory.
    write_row(words, first[2:])
    write_row("  the same content again", again[2:])


def table(rigs: int, rounds: int) -> None:
    """Write the rows of the hook."""
    with TemporaryDirectory() as folder, remembering(Path(folder, "cache")):
        library = Path(folder, "library")
        files = write_library(library, rigs)
        git(library, "init", "-q")
        git(library, "add", "-A")
        git(library, "commit", "-q", "-m", "A library")
        rig = files[rigs // 2]
        shelf = rig.parent.parent / "shelf" / "park.yaml"
        judged = [
            shelf,
            *(one for one in rig.parent.glob("*.yaml") if "shelf/park.yaml" in one.read_text("utf-8")),
        ]
        with chdir(library):
            if LINT is not None:
                hook, lint = [*HOOK, "--with-rigs", "--"], [LINT]
                words = f"hook, one rig of {rigs} / yamllint of it"
                row(words, rig, [*hook, str(rig)], [*lint, str(rig)], rounds)
                words = f"hook, gear list of {len(judged) - 1} rigs / yamllint of all of them"
                row(words, shelf, [*hook, str(shelf)], [*lint, *map(str, judged)], rounds)
            parse = [*PARSE, *map(str, files)]
            row(f"all {rigs} as staged, one changed / a bare C parse", rig, [*HOOK, "."], parse, rounds)


def main() -> None:
    """Write one table."""
    asked = asked_for("tests.benchmarks.hook", rounds=5, rigs=300)
    write_head(asked.rounds)
    table(asked.rigs, asked.rounds)


if __name__ == "__main__":
    main()
