"""`python -m tests.benchmarks.changes`: a library for the first time, unchanged, with one rig or one shelf changed.

Each beside a bare C parse of the same files and, where it is there, beside yamllint. Measured as in `tests.benchmarks`.
"""

from collections.abc import Callable
from pathlib import Path
from tempfile import TemporaryDirectory

from tests.benchmarks.libraries import ROOT, all_read, write_library
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


def row(
    words: str, call: list[str], others: dict[str, list[str]], rounds: int, before: Callable[[int], object]
) -> None:
    """Write a ratio to each other program, with something done before each round."""
    found: dict[str, list[float]] = {name: [] for name in others}
    for n in range(rounds + 2):  # the first two fill the memory
        beside = {name: cpu_s(other) for name, other in others.items()}
        before(n)
        took = cpu_s(call)
        for name, other_s in beside.items():
            found[name].append(took / other_s)
    for name, ratios in found.items():
        write_row(f"{words} / {name}", ratios[2:])


def table(rigs: int, rounds: int) -> None:
    """Write a row for each change."""
    one = str(ROOT / "examples" / "rigs" / "long-line.yaml")
    with TemporaryDirectory() as folder:
        library = Path(folder, "library")
        files = write_library(library, rigs)
        audit = [*AUDIT, str(library)]
        others = {"a bare C parse of all files": [*PARSE, *all_read(library)]}
        others |= {"yamllint of all files": [LINT, *all_read(library)]} if LINT else {}
        row(f"{rigs} rigs for the first time", audit, others, rounds, id)
        shelf = files[0].parent.parent / "shelf" / "park.yaml"
        with remembering(Path(folder, "cache")):
            if LINT is not None:
                row("one rig remembered", [*AUDIT, one], {"yamllint of it": [LINT, one]}, rounds, id)
            row(f"{rigs} rigs unchanged", audit, others, rounds, id)
            row(f"one of {rigs} rigs changed", audit, others, rounds, lambda n: retitled(files[0], n))
            row(f"one shelf of {rigs} rigs changed", audit, others, rounds, lambda n: retitled(shelf, n))


def main() -> None:
    """Write one table."""
    asked = asked_for("tests.benchmarks.changes", rounds=3, rigs=207)
    write_head(asked.rounds)
    table(asked.rigs, asked.rounds)


if __name__ == "__main__":
    main()
