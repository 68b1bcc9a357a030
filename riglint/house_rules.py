"""House rules: rule sets of a club's own, in a folder or installed, and always named by whoever calls.

Nothing is loaded because it lies somewhere. A set is a program: whoever names it trusts its author.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from importlib.machinery import PathFinder
from pathlib import Path

from riglint.read.spelling import nearest
from riglint.records import dataclass
from riglint.rulebook import RuleSet

GROUP = "riglint.house_rules"  # of entry points: name = package whose folder holds the rules
NAME = re.compile(r"[a-z][a-z0-9_]*")


class NoRuleSetError(Exception):
    """What the call names is no rule set."""


@dataclass(frozen=True, slots=True)
class Installed:
    """A rule set that an installed package offers; nothing of it has run."""

    name: str
    package: str
    version: str
    folder: Path | None  # None where the package that it names is not there


def installed() -> list[Installed]:
    """Return the rule sets that installed packages offer, by name; runs none of their code."""
    from importlib.metadata import entry_points  # noqa: PLC0415 - slow, and seldom asked for

    found = []
    for entry in entry_points(group=GROUP):
        package, version = (entry.dist.name, entry.dist.version) if entry.dist else (entry.module, "")
        found.append(Installed(entry.name, package, version, _folder_of(entry.module)))
    return sorted(found, key=lambda one: (one.name, one.package))


def find_rule_sets(named: Iterable[str]) -> list[RuleSet]:
    """Return the sets that a call names, each by a folder or by the name of an installed one.

    Raises:
        NoRuleSetError: one is not there, is there twice, or has a name that no rule id can begin with.
    """
    sets = [_find(text) for text in named]
    names = [one.name for one in sets]
    for name in names:
        if names.count(name) > 1:
            raise NoRuleSetError(f"Two rule sets are called '{name}'; their rules could not be told apart.")
    return sets


def _find(text: str) -> RuleSet:
    folder = Path(text)
    if folder.is_dir():
        return _named(RuleSet(folder.resolve().name, folder.resolve()))
    if folder.parts[1:] or text.startswith("."):
        raise NoRuleSetError(f"There is no folder '{text}' to read house rules from.")
    offered = [one for one in installed() if one.name == text]
    if len(offered) > 1:
        packages = " and ".join(one.package for one in offered)
        raise NoRuleSetError(f"Two installed packages offer the rule set '{text}': {packages}. Remove one.")
    if not offered:
        raise NoRuleSetError(f"'{text}' is neither a folder nor an installed rule set. {_offer(text)}")
    if offered[0].folder is None:
        raise NoRuleSetError(
            f"The installed rule set '{text}' ({offered[0].package}) has no folder of rules."
        )
    return _named(RuleSet(text, offered[0].folder))


def _named(one: RuleSet) -> RuleSet:
    if not NAME.fullmatch(one.name):
        raise NoRuleSetError(
            f"'{one.name}' cannot begin the id of a rule; give the rule set a name of small letters, digits and "
            "underscores, such as meadow_club."
        )
    return one


def _offer(text: str) -> str:
    names = [one.name for one in installed()]
    suggestion = nearest(text, names)
    if suggestion:
        return f"Nearest to it: {suggestion}."
    return f"Installed: {', '.join(names)}." if names else "No rule set is installed."


def _folder_of(module: str) -> Path | None:
    """Return the folder of a package without importing it or those around it."""
    where: list[str] | None = None
    for name in module.split("."):
        spec = PathFinder.find_spec(name, where)
        if spec is None or spec.submodule_search_locations is None:
            return None
        where = list(spec.submodule_search_locations)
    return Path(where[0]) if where else None
