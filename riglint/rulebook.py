"""The rulebook: finds rule files, loads each set whole or stops.

Rules are loaded by path and never imported by name: what runs is what stands in the folder.
"""

import sys
from collections.abc import Iterator
from dataclasses import dataclass
from importlib.machinery import SourceFileLoader
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path
from types import ModuleType

from riglint.rulekit import Rule

PACKAGE = Path(__file__).parent


class RuleSetError(Exception):
    """A rule set did not load whole, so that nothing may be judged with it."""


@dataclass(frozen=True, slots=True)
class RuleSet:
    """A folder of rules beside our own; the ids of its rules begin with its name."""

    name: str
    folder: Path


@dataclass(frozen=True, slots=True)
class BrokenSet:
    """A rule set that was asked for and did not load whole: its questions stay unanswered."""

    name: str
    because: str


@dataclass(frozen=True, slots=True)
class Rulebook:
    """The rules in force, by id, and the sets that should be among them and are not."""

    rules: dict[str, Rule]
    house: tuple[str, ...] = ()  # names of the sets beside our own
    broken: tuple[BrokenSet, ...] = ()


def shipped(name: str) -> Path:
    """Return the folder of that name that came with riglint: inside the package, or beside it in a checkout.

    Raises:
        RuleSetError: it is not there.
    """
    inside, beside = PACKAGE / name, PACKAGE.parent / name
    if inside.is_dir():
        return inside
    # Only beside our own project file: a stranger's folder of that name is never taken.
    if beside.is_dir() and (PACKAGE.parent / "pyproject.toml").is_file():
        return beside
    raise RuleSetError(f"The installation is damaged: the folder '{name}' is missing. Install riglint again.")


def load_rulebook(*house: RuleSet) -> Rulebook:
    """Return the rules that came with riglint, and those of other sets after them.

    A set of somebody else that does not load whole is left out whole and named: it hides no finding of the others.

    Raises:
        RuleSetError: a rule file of riglint's own does not load, or holds no rule or several.
    """
    rules = dict(sorted(load_folder(shipped("rules"), "riglint.rules")))
    broken = []
    for one in house:
        try:
            _no_stray_file(one.folder)
            found = sorted(load_folder(one.folder, f"riglint.house.{one.name}"))
        except RuleSetError as error:
            broken.append(BrokenSet(one.name, str(error)))
        else:
            rules |= {f"{one.name}/{rule_id}": rule for rule_id, rule in found}
    return Rulebook(rules, tuple(one.name for one in house), tuple(broken))


def _no_stray_file(folder: Path) -> None:
    """Refuse a set with a file that would never run: whoever wrote it believes that it does.

    Raises:
        RuleSetError: a Python file stands elsewhere than in a family's folder.
    """
    for file in sorted(folder.rglob("*.py")):
        way = file.relative_to(folder)
        if file.name != "__init__.py" and len(way.parts) != len(("family", "rule.py")):
            raise RuleSetError(
                f"The rule set '{folder.name}' holds {way.as_posix()}, which would not run: "
                "a rule stands in a family's folder, such as tail/webbing.py."
            )


def load_folder(folder: Path, package: str) -> Iterator[tuple[str, Rule]]:
    """Yield id and rule of every file below a rules folder.

    Raises:
        RuleSetError: a file does not load, holds no rule or several, or the folder is empty.
    """
    _open_package(folder, package)
    files = sorted(file for file in folder.glob("*/*.py") if file.name != "__init__.py")
    if not files:
        raise RuleSetError(f"The rule set '{folder.name}' is empty: no file <family>/<rule>.py stands in it.")
    for file in files:
        family = f"{package}.{file.parent.name}"
        if family not in sys.modules:
            _open_package(file.parent, family)
        yield f"{file.parent.name}/{file.stem}", _rule_in(_module(file, f"{family}.{file.stem}"))


def _open_package(folder: Path, name: str) -> None:
    module = ModuleType(name)
    module.__path__ = [str(folder)]
    sys.modules[name] = module


def _module(file: Path, name: str) -> ModuleType:
    spec = spec_from_file_location(name, file, loader=SourceFileLoader(name, str(file)))
    if spec is None or spec.loader is None:
        raise RuleSetError(f"The rule file {file.parent.name}/{file.name} cannot be opened.")
    module = module_from_spec(spec)
    sys.modules[name] = module
    try:
        spec.loader.exec_module(module)
    except (Exception, SystemExit) as error:  # a file that ends the program must not end the audit
        message = (
            f"The rule file {file.parent.name}/{file.name} does not load: {type(error).__name__}: {error}"
        )
        raise RuleSetError(message) from error
    return module


def _rule_in(module: ModuleType) -> Rule:
    rules = [value for value in vars(module).values() if isinstance(value, Rule)]
    if len(rules) != 1:
        name = "/".join(module.__name__.split(".")[-2:])
        raise RuleSetError(f"The rule file {name}.py holds {len(rules)} rules; it must hold one.")
    return rules[0]
