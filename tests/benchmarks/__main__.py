"""`python -m tests.benchmarks`: how long riglint takes beside other readers of the same files, as ratios.

The programs run in turn, A B A B …, each as a process of its own, and processor time is compared round by round: the
speed of a busy machine drifts, a ratio hardly does. Needs yamllint for its rows (`pip install yamllint`).
"""

import subprocess
import sys
from pathlib import Path
from tempfile import TemporaryDirectory

from tests.benchmarks import changes, growth, hook, jobs
from tests.benchmarks.libraries import ROOT, all_read, write_library
from tests.benchmarks.measuring import AUDIT, LINT, ON, PARSE, asked_for, cpu_s, write_head, write_row


def row(words: str, one: list[str], other: list[str], rounds: int) -> None:
    """Write how much longer one program takes than another, after a round that is not counted."""
    write_row(words, [cpu_s(one) / cpu_s(other) for _ in range(rounds + 1)][1:])


def main() -> None:
    """Write one table."""
    asked = asked_for("tests.benchmarks", rounds=5, rigs=207)
    limits = [sys.executable, "-m", "riglint", "limits", "--on", ON]
    one = str(ROOT / "examples" / "rigs" / "long-line.yaml")
    with TemporaryDirectory() as folder:
        write_library(Path(folder), asked.rigs)
        files = all_read(Path(folder))
        many = [*AUDIT, folder]
        write_head(asked.rounds)
        row("audit of one rig / a bare C parse of it", [*AUDIT, one], [*PARSE, one], asked.rounds)
        row("limits of one rig / its audit", [*limits, one], [*AUDIT, one], asked.rounds)
        row(f"audit of {asked.rigs} rigs / a bare C parse of all files", many, [*PARSE, *files], asked.rounds)
        if LINT is not None:
            row("audit of one rig / yamllint", [*AUDIT, one], [LINT, one], asked.rounds)
            row(f"audit of {asked.rigs} rigs / yamllint of all files", many, [LINT, *files], asked.rounds)
    changes.table(asked.rigs, asked.rounds)
    hook.table(asked.rigs, asked.rounds)
    jobs.table(asked.rigs, asked.rounds)
    growth.table(asked.rigs, 1)
    # In a process of its own, since it counts what is imported.
    subprocess.run([sys.executable, "-m", "tests.benchmarks.shares", "--rigs", str(asked.rigs)], check=True)


if __name__ == "__main__":
    main()
