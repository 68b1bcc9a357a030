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
class Rulebook:
    """The rules in force, by id."""

    rules: dict[str, Rule]


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


def load_rulebook() -> Rulebook:
    """Return the rules that came with riglint.

    Raises:
        RuleSetError: a rule file does not load, or holds no rule or several.
    """
    return Rulebook(dict(sorted(load_folder(shipped("rules"), "riglint.rules"))))


def load_folder(folder: Path, package: str) -> Iterator[tuple[str, Rule]]:
    """Yield id and rule of every file below a rules folder.

    Raises:
        RuleSetError: a file does not load, holds no rule or several, or the folder is empty.
    """
    _open_package(folder, package)
    files = sorted(file for file in folder.glob("*/*.py") if file.name != "__init__.py")
    if not files:
        raise RuleSetError(f"The rule set '{folder.name}' is empty. Install riglint again.")
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
    except Exception as error:
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
