"""Run the mutation check: `python -m tests.mutation [PATH…]`; without a path, all of rules/ and riglint/mechanics/.

`python -m tests.mutation silence --minutes 60` looks at what may fall silent instead: reading, findings, policy, exit
status. Its mutants come in an order of no meaning that is always the same, so what is tried in time is a fair sample.
"""

from __future__ import annotations

import argparse
import sys
import tempfile
import time
from collections import Counter
from concurrent.futures import FIRST_COMPLETED, ProcessPoolExecutor, wait
from hashlib import sha256
from itertools import islice
from pathlib import Path

import yaml

from tests.mutation.killing import CHECKOUT, REACHING, RedError, Workshop, rule_notices, tests_of
from tests.mutation.mutants import Mutant, mutants_of

LISTED = Path(__file__).parent / "survivors.yaml"
LEAST = 0.95
ROOMS = ("rules", "riglint/mechanics")
SILENCE = "silence"

_workshop: Workshop | None = None


def main() -> int:
    """Run and print; 0 if enough mutants are noticed and every other one is listed with a reason."""
    parser = argparse.ArgumentParser(prog="python -m tests.mutation", description=__doc__)
    parser.add_argument("paths", nargs="*", default=ROOMS, help="files or folders, such as rules/tail")
    parser.add_argument("--jobs", type=int, default=1, help="mutants at a time")
    parser.add_argument("--minutes", type=float, default=None, help="stop after so long; the rest is counted")
    call = parser.parse_args()
    silence = SILENCE in call.paths
    paths = list(yaml.safe_load(REACHING.read_text("utf-8"))) if silence else call.paths
    files = sorted(file for path in paths for file in _files(CHECKOUT / path))
    mutants = [one for file in files for one in _mutants(file)]
    if call.minutes is not None:
        mutants.sort(key=lambda one: sha256(f"{one.name} {one.start}".encode()).digest())
    tried, survivors = _run(mutants, call.jobs, call.minutes)
    if len(tried) < len(mutants):
        say(f"{len(mutants) - len(tried)} of {len(mutants)} mutants were not tried: the time was over.")
    return _verdict(tried, survivors, whole=tuple(call.paths) == ROOMS)


def _mutants(file: Path) -> list[Mutant]:
    shown = _shown(file)
    doing = not shown.startswith(ROOMS)
    return mutants_of(file.read_text("utf-8"), shown, doing=doing)


def _run(mutants: list[Mutant], jobs: int, minutes: float | None) -> tuple[list[Mutant], list[Mutant]]:
    """Return what was tried in time, and what of it nobody noticed."""
    ends = None if minutes is None else time.monotonic() + 60.0 * minutes
    tried, survivors = [], []
    with ProcessPoolExecutor(jobs) as pool:
        waiting = iter(mutants)
        running = {pool.submit(_noticed, one): one for one in islice(waiting, jobs)}
        while running:
            done, _ = wait(running, return_when=FIRST_COMPLETED)
            for future in done:
                mutant = running.pop(future)
                if isinstance(future.exception(), RedError):
                    say(f"not tried: {mutant.name}. {future.exception()}")
                    continue
                tried.append(mutant)
                if not future.result():
                    say(f"survived: {mutant.name} (line {mutant.line})")
                    survivors.append(mutant)
            if ends is None or time.monotonic() < ends:
                running |= {pool.submit(_noticed, one): one for one in islice(waiting, jobs - len(running))}
    return tried, survivors


def _files(path: Path) -> list[Path]:
    if path.is_file():
        return [path]
    return [file for file in path.rglob("*.py") if file.name != "__init__.py"]


def _shown(file: Path) -> str:
    return file.relative_to(CHECKOUT).as_posix()


def _noticed(mutant: Mutant) -> bool:
    if mutant.file.startswith("rules/"):
        return rule_notices(mutant)
    return _own_workshop().notices(mutant, list(tests_of(mutant.file)))


def _own_workshop() -> Workshop:
    """Return the copy of this process, made when it is first needed; the system clears it away."""
    global _workshop  # noqa: PLW0603 - one for each process of the pool
    if _workshop is None:
        _workshop = Workshop(Path(tempfile.mkdtemp(prefix="mutants-")))
    return _workshop


def say(line: str) -> None:
    """Print a line at once: a run takes long."""
    sys.stdout.write(f"{line}\n")
    sys.stdout.flush()


def _verdict(mutants: list[Mutant], survivors: list[Mutant], *, whole: bool) -> int:
    rooms, alive = Counter(map(_room, mutants)), Counter(map(_room, survivors))
    for room, total in sorted(rooms.items()):
        say(f"{room:36} {total:5} mutants {total - alive[room]:5} noticed {1 - alive[room] / total:7.1%}")
    kinds, living = Counter(one.kind for one in mutants), Counter(one.kind for one in survivors)
    for kind, total in sorted(kinds.items()):
        say(
            f"{kind + 's':36} {total:5} mutants {total - living[kind]:5} noticed {1 - living[kind] / total:7.1%}"
        )
    score = 1 - len(survivors) / max(len(mutants), 1)
    say(f"{'all':36} {len(mutants):5} mutants {len(mutants) - len(survivors):5} noticed {score:7.1%}")
    reasons: dict[str, str] = yaml.safe_load(LISTED.read_text("utf-8")) or {}
    unlisted = [one for one in survivors if one.name not in reasons]
    for one in unlisted:
        say(f"survived, without a reason: {one.name} (line {one.line})")
    gone = sorted(set(reasons) - {one.name for one in survivors}) if whole else []
    for name in gone:
        say(f"listed, and noticed or gone: {name}")
    return 0 if score >= LEAST and not unlisted and not gone else 1


def _room(mutant: Mutant) -> str:
    return mutant.file if mutant.file.startswith("riglint") else mutant.file.rpartition("/")[0]


if __name__ == "__main__":
    sys.exit(main())
