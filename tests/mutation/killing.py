"""Whether any test notices a mutant: the examples of a rule, or the tests of a module of the mechanics."""

from __future__ import annotations

import ast
import importlib
import os
import shutil
import signal
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache
from pathlib import Path
from types import ModuleType
from typing import NoReturn

import pytest
import yaml

from tests.mutation.mutants import Mutant

CHECKOUT = Path(__file__).parents[2]
REACHING = Path(__file__).with_name("reaching.yaml")
SECONDS = 30.0  # of the processor: a mutant that runs longer than its tests ever do is noticed
NEEDED = ("riglint", "rules", "tests", "examples", "schemas", "pyproject.toml", ".pre-commit-hooks.yaml")
LONGEST_S = 400.0  # of the clock, for tests that start the command and wait for it
LOOKED_AT_S = 0.05  # how often the clock is looked at
# What the tests load beside the project: one process loads it, and is forked for each mutant.
LIBRARIES = ("hypothesis", "moorpy", "numpy", "pint", "pydantic", "scipy.integrate", "scipy.optimize", "yaml")
CALL = ("-x", "-q", "--assert=plain", "--hypothesis-seed=0", "-p", "no:cacheprovider")
NOT_NEEDED = shutil.ignore_patterns("__pycache__", "*.pyc")


class TooLongError(Exception):
    """A mutant does not come to an end."""


class RedError(Exception):
    """Tests fail while nothing is broken, so they can tell nothing."""


def rule_notices(mutant: Mutant) -> bool:
    """Whether a rule with a mutant in it answers any example otherwise, in verdict, word, number or sentence.

    Or finds fault with a limit that is met exactly.
    """
    from riglint.rulekit import Rule  # noqa: PLC0415 - a worker that judges no rules does not load them
    from riglint.testing import run_example  # noqa: PLC0415
    from tests.golden.rule_messages import said  # noqa: PLC0415
    from tests.rules.limits_met import not_kept  # noqa: PLC0415

    rule_id = mutant.file.removeprefix("rules/").removesuffix(".py")
    source = (CHECKOUT / mutant.file).read_text(encoding="utf-8")
    module = ModuleType("mutant")
    try:
        with _bounded():
            exec(compile(mutant.applied(source), str(CHECKOUT / mutant.file), "exec"), vars(module))  # noqa: S102
            (rule,) = (one for one in vars(module).values() if isinstance(one, Rule))
            if any(run_example(rule_id, rule, example).wrong for example in rule.examples):
                return True
            golden = CHECKOUT / "tests/golden/rules" / f"{rule_id.replace('/', '.')}.txt"
            if said(rule_id, rule) != golden.read_text(encoding="utf-8"):
                return True
            return next(not_kept(rule_id, rule), None) is not None
    except Exception:  # noqa: BLE001 - whatever breaks is noticed
        return True


@contextmanager
def _bounded() -> Iterator[None]:
    def stop(_number: int, _frame: object) -> None:
        raise TooLongError

    signal.signal(signal.SIGPROF, stop)
    signal.setitimer(signal.ITIMER_PROF, SECONDS)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0.0)


class Workshop:
    """A copy of the checkout in which modules of the mechanics are broken one at a time."""

    def __init__(self, folder: Path) -> None:
        self.root = folder
        self._passed: set[tuple[str, ...]] = set()  # tests that are known to pass while nothing is broken
        for name in NEEDED:
            there = CHECKOUT / name
            if there.is_dir():
                shutil.copytree(there, folder / name, ignore=NOT_NEEDED)
            else:
                shutil.copy(there, folder / name)

    def notices(self, mutant: Mutant, tests: list[str]) -> bool:
        """Whether a test fails, crashes or does not end while a mutant is in place."""
        if tuple(tests) not in self._passed:
            if not (self.passes(tests) or self.passes(tests)):  # once more: a busy machine is late at times
                raise RedError(f"Fails before anything is changed: {' '.join(tests)}")
            self._passed.add(tuple(tests))
        target = self.root / mutant.file
        source = target.read_text(encoding="utf-8")
        target.write_text(mutant.applied(source), encoding="utf-8")
        try:
            return not self.passes(tests)
        finally:
            target.write_text(source, encoding="utf-8")

    def passes(self, tests: list[str]) -> bool:
        """Whether all of some test files pass in this copy."""
        for name in LIBRARIES:  # once for all that are forked
            importlib.import_module(name)
        shutil.rmtree(
            self.root / ".hypothesis", ignore_errors=True
        )  # what broke one mutant is not for the next
        child = os.fork()
        if child == 0:
            self._tries(tests)
        ends = time.monotonic() + LONGEST_S
        while True:
            done, status = os.waitpid(child, os.WNOHANG)
            if done:
                return os.waitstatus_to_exitcode(status) == 0
            if time.monotonic() > ends:
                os.killpg(child, signal.SIGKILL)  # with whatever it has started
                os.waitpid(child, 0)
                return False
            time.sleep(LOOKED_AT_S)

    def _tries(self, tests: list[str]) -> NoReturn:
        """Run test files in this process, in silence, and end it."""
        status = 1
        try:
            os.setsid()  # what it starts ends with it
            signal.setitimer(
                signal.ITIMER_PROF, 6.0 * SECONDS
            )  # nobody handles its signal: it ends the process
            for number in (1, 2):
                os.dup2(os.open(os.devnull, os.O_WRONLY), number)
            for name in [name for name in sys.modules if name.partition(".")[0] in NEEDED]:
                del sys.modules[name]
            os.environ.pop("UPDATE_GOLDEN", None)
            os.chdir(self.root)
            sys.path[:0] = [str(self.root)]
            sys.dont_write_bytecode = True
            status = int(pytest.main([*CALL, *tests]))
        finally:
            os._exit(status)


@cache
def tests_of(file: str) -> tuple[str, ...]:
    """Return the test files that look at a module, named by its file."""
    listed: dict[str, list[str]] = yaml.safe_load(REACHING.read_text(encoding="utf-8"))
    if file in listed:
        return tuple(f"tests/{name}" for name in listed[file])
    return reaching_tests(Path(file).stem)


@cache
def reaching_tests(module: str) -> tuple[str, ...]:
    """Return the test files that reach a module of the mechanics, those that name it first, its doctest before all.

    A file reaches what it imports, and what that imports in turn.
    """
    modules = {path.stem: path for path in (CHECKOUT / "riglint/mechanics").rglob("*.py")}
    reaches = {name: _imports(path) for name, path in modules.items()}
    above = {module}
    while more := {name for name, used in reaches.items() if used & above} - above:
        above |= more
    found: list[tuple[bool, str]] = []
    for folder in ("unit", "published", "property", "golden"):
        for file in (CHECKOUT / "tests" / folder).glob("test_*.py"):
            used = _imports(file)
            if used & above and file.stem != "test_whole_range":  # minutes long, and run apart
                found.append((module not in used, file.relative_to(CHECKOUT).as_posix()))
    return (modules[module].relative_to(CHECKOUT).as_posix(), *(file for _, file in sorted(found)))


def _imports(file: Path) -> set[str]:
    """Return the modules of the mechanics that a file imports."""
    found: set[str] = set()
    for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("riglint.mechanics"):
            found |= {str(node.module).rpartition(".")[2], *(alias.name for alias in node.names)}
    return found
