"""The long run: `python -m tests.fuzz [TARGET…] --minutes 10 --seed 1`. What breaks is kept in `corpus/`."""

from __future__ import annotations

import argparse
import json
import sys
import tempfile
import time
from collections import Counter
from hashlib import sha256
from itertools import count
from pathlib import Path
from random import Random

from tests.fuzz.making import TARGETS, Input
from tests.fuzz.trying import leave_editor, loaded_once, wrong_with

CORPUS = Path(__file__).with_name("corpus")


def main() -> int:
    """Make inputs, each target in turn, until the time is over; 1 if any broke something."""
    parser = argparse.ArgumentParser(prog="python -m tests.fuzz", description=__doc__)
    parser.add_argument("targets", nargs="*", help=", ".join(TARGETS))
    parser.add_argument("--minutes", type=float, default=10.0)
    parser.add_argument("--seed", type=int, default=1)
    call = parser.parse_args()
    targets = call.targets or list(TARGETS)
    ends, tried, broken = time.monotonic() + 60.0 * call.minutes, Counter[str](), Counter[str]()
    longest: dict[str, float] = {}
    with loaded_once():
        for number in count():
            target = targets[number % len(targets)]
            if time.monotonic() > ends:
                break
            tried[target] += 1
            given = TARGETS[target](Random(f"{call.seed} {target} {number}"))  # noqa: S311 - the same each time
            begun = time.monotonic()
            said = tried_out(given)
            longest[target] = max(longest.get(target, 0.0), time.monotonic() - begun)
            if said:
                broken[target] += 1
                sys.stdout.write(f"{target}: {said}\n  kept as {kept(target, given).name}\n")
                sys.stdout.flush()
    leave_editor()
    for target in targets:
        sys.stdout.write(f"{target:12} {tried[target]:7} inputs {broken[target]:5} broke something, longest ")
        sys.stdout.write(f"{longest.get(target, 0.0):.1f} s\n")
    sys.stdout.write(f"{'all':12} {tried.total():7} inputs {broken.total():5} broke something\n")
    return 1 if broken else 0


def tried_out(given: Input) -> str:
    """Return what is wrong with an input in a folder of its own; what gets out of the command is wrong, too."""
    with tempfile.TemporaryDirectory(prefix="fuzz-") as folder:
        try:
            return wrong_with(given, Path(folder))
        except Exception as error:  # noqa: BLE001 - whatever it is, it was the input that did it
            return f"{type(error).__name__}: {error}"


def kept(target: str, given: Input) -> Path:
    text = json.dumps(given, indent=1, ensure_ascii=True)
    file = CORPUS / f"{target}-{sha256(text.encode()).hexdigest()[:8]}.json"
    file.write_text(f"{text}\n", encoding="utf-8")
    return file


if __name__ == "__main__":
    sys.exit(main())
