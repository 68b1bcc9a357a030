"""Run the mutation check: `python -m tests.mutation [PATH…]`; without a path, all of rules/ and riglint/mechanics/."""

from __future__ import annotations

import argparse
import sys
import tempfile
from collections import Counter
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path

import yaml

from tests.mutation.killing import CHECKOUT, Workshop, reaching_tests, rule_notices
from tests.mutation.mutants import Mutant, mutants_of

LISTED = Path(__file__).parent / "survivors.yaml"
LEAST = 0.95
ROOMS = ("rules", "riglint/mechanics")

_workshop: Workshop | None = None


def main() -> int:
    """Run and print; 0 if enough mutants are noticed and every other one is listed with a reason."""
    parser = argparse.ArgumentParser(prog="python -m tests.mutation", description=__doc__)
    parser.add_argument("paths", nargs="*", default=ROOMS, help="files or folders, such as rules/tail")
    parser.add_argument("--jobs", type=int, default=1, help="mutants at a time")
    call = parser.parse_args()
    files = sorted(file for path in call.paths for file in _files(CHECKOUT / path))
    mutants = [one for file in files for one in mutants_of(file.read_text("utf-8"), _shown(file))]
    with ProcessPoolExecutor(call.jobs) as pool:
        survivors = []
        for mutant, seen in zip(mutants, pool.map(_noticed, mutants, chunksize=4), strict=True):
            if not seen:
                say(f"survived: {mutant.name} (line {mutant.line})")
                survivors.append(mutant)
    whole = tuple(call.paths) == ROOMS
    return _told(mutants, survivors, whole=whole)


def _files(path: Path) -> list[Path]:
    files = [path] if path.is_file() else path.rglob("*.py")
    return [file for file in files if file.name != "__init__.py"]


def _shown(file: Path) -> str:
    return file.relative_to(CHECKOUT).as_posix()


def _noticed(mutant: Mutant) -> bool:
    if mutant.file.startswith("rules/"):
        return rule_notices(mutant)
    return _own_workshop().notices(mutant, list(reaching_tests(Path(mutant.file).stem)))


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


def _told(mutants: list[Mutant], survivors: list[Mutant], *, whole: bool) -> int:
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
