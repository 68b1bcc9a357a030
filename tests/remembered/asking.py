"""Calls with a memory of their own, each in a process of its own."""

from __future__ import annotations

import re
import subprocess
import sys
import time
from dataclasses import dataclass, field
from pathlib import Path

from riglint.remembered.modules import COARSEST_NS
from tests.cli.calling import environment

IMPORT = re.compile(rb"(?m)^import time:.*\n")
WORKING = re.compile(
    rb"(?m)^import time:.*\briglint\.cli$"
)  # the command line, which a remembered answer does without
Printed = tuple[int, bytes, bytes]  # exit status, standard output, standard error


@dataclass
class Memory:
    """A folder for answers, and calls that may use it."""

    cache: Path
    where: Path
    call: list[str]
    before: list[str] = field(
        default_factory=lambda: ["-X", "importtime"]
    )  # it tells which modules were needed
    more: dict[str, str] = field(default_factory=dict)
    remembered: bool = False  # whether the last call was answered from memory

    def ask(self, **more: str) -> Printed:
        """Call, and note whether the answer was remembered."""
        kept = environment(XDG_CACHE_HOME=str(self.cache), RIGLINT_AFRESH="") | self.more | more
        call = [sys.executable, *self.before, "-m", "riglint", *self.call]
        done = subprocess.run(
            call, cwd=self.where, env=kept, stdin=subprocess.DEVNULL, capture_output=True, check=False
        )
        self.remembered = WORKING.search(done.stderr) is None
        return done.returncode, done.stdout, IMPORT.sub(b"", done.stderr)

    def afresh(self, **more: str) -> Printed:
        """Call with memory off."""
        answer = self.ask(RIGLINT_AFRESH="1", **more)
        assert not self.remembered
        return answer

    def fill(self) -> Printed:
        """Call until the answer is remembered, and see that it is the very same."""
        first = self.ask()
        if not self.ask_again():  # what was compiled or written a moment ago is not relied on
            time.sleep(COARSEST_NS / 1e9 + 0.1)
            first = self.ask()
            assert self.ask_again()
        assert first == self.ask()
        return first

    def ask_again(self) -> bool:
        self.ask()
        return self.remembered

    def records(self) -> list[Path]:
        """Return the files in which whole answers are kept."""
        return sorted(file for file in (self.cache / "riglint").iterdir() if not file.suffix)

    def of_files(self) -> list[Path]:
        """Return the files in which is kept what single files say."""
        return sorted((self.cache / "riglint").glob("*.file"))

    def is_not_deceived(self, before: Printed, *, changes: bool = True, **more: str) -> None:
        """Ask that the answer is the one that would be worked out now, and another than before."""
        answer = self.ask(**more)
        assert answer == self.afresh(**more)
        assert not changes or answer != before
