"""`python -m tests.benchmarks.shares`: where the processor time of an audit goes, in shares of the whole.

Each share is what a step takes without the steps inside it: what `±` and remedies take is their own work and the rules
that run again for them, but not the equilibria that are solved on the way, which all count as mechanics.
"""

import sys
from collections.abc import Callable
from contextlib import ExitStack
from datetime import date
from functools import partial
from pathlib import Path
from tempfile import TemporaryDirectory
from time import process_time
from typing import Any
from unittest.mock import patch

from tests.benchmarks.libraries import write_library
from tests.benchmarks.measuring import ON, asked_for

STEPS = {  # what is replaced by a function that measures it
    "riglint.model.library.read_yaml": "read",
    "riglint.model.library.load": "validate",
    "riglint.mechanics.span.line.solve": "mechanics",
    "riglint.findings.judging.weigh": "±",
    "riglint.findings.judging._with_remedies": "remedies",
    "riglint.findings.library.examined.judge": "rules",
}


class Clock:
    """Processor time by step, each without those inside it."""

    def __init__(self) -> None:
        self.took: dict[str, float] = {}
        self._steps = ["everything else"]
        self._since = process_time()

    def _turn(self) -> None:
        now = process_time()
        self.took[self._steps[-1]] = self.took.get(self._steps[-1], 0.0) + now - self._since
        self._since = now

    def within(self, step: str, work: Callable[..., Any], *given: Any, **named: Any) -> Any:
        """Do something, and count what it takes for a step."""
        self._turn()
        self._steps.append(step)
        try:
            return work(*given, **named)
        finally:
            self._turn()
            self._steps.pop()


def measured(library: Path, clock: Clock) -> None:
    """Audit a library and make its report, step by step."""
    audit, load_rulebook, audit_text, summary = clock.within("import", _imported)
    book = clock.within("import", load_rulebook)
    with ExitStack() as stack:
        for name, step in STEPS.items():
            module, _, function = name.rpartition(".")
            work = vars(sys.modules[module])[function]
            stack.enter_context(patch(name, partial(clock.within, step, work)))
        found = audit([library], book, date.fromisoformat(ON), keep=summary)
    clock.within("report", lambda: list(audit_text(found, 80)))


def _imported() -> tuple[Any, ...]:
    from riglint.findings import audit  # noqa: PLC0415 - it is what is measured
    from riglint.reports.audit.text import audit_text  # noqa: PLC0415
    from riglint.rulebook import load_rulebook  # noqa: PLC0415
    from riglint.views.audit.summary import summary_of_rig  # noqa: PLC0415

    return audit, load_rulebook, audit_text, summary_of_rig


def table(rigs: int) -> None:
    """Write the share of each step."""
    with TemporaryDirectory() as folder:
        write_library(Path(folder), rigs)
        clock = Clock()
        clock.within("everything else", measured, Path(folder), clock)
    whole = sum(clock.took.values())
    for step in ("import", *STEPS.values(), "report", "everything else"):
        words = f"audit of {rigs} rigs: {step}"
        sys.stdout.write(f"{words:56} {100 * clock.took.get(step, 0.0) / whole:6.1f} %\n")


def main() -> None:
    """Write one table."""
    table(asked_for("tests.benchmarks.shares", rounds=1, rigs=207).rigs)


if __name__ == "__main__":
    main()
