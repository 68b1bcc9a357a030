"""The case of an example with other limits in force; what rests on no limit is read and computed once."""

from datetime import date
from functools import cache

from riglint.loadpath import build
from riglint.loads import Loads
from riglint.policy import DEFAULT, InForce
from riglint.rulebook import load_rulebook
from riglint.rulekit import Case, Example, LibraryCase
from riglint.testing import edited, library_of, loads_of, rig_of

RULES = load_rulebook().rules


def example_of(rule_id: str, n: int) -> Example:
    """Return an example of a rule by its number."""
    return RULES[rule_id].examples[n]


@cache
def text_of(rule_id: str, n: int) -> str:
    """Return the rig of an example as the text of a file."""
    return edited(example_of(rule_id, n))


def case_of(rule_id: str, n: int, limits: dict[str, float], *, apart: bool = False) -> Case | LibraryCase:
    """Return what a rule sees of one of its examples with some limits in force.

    `apart` is for whoever moves required ratios: loads keep what came of those, so no other test may see them.
    """
    example = example_of(rule_id, n)
    on, recalled = date.fromisoformat(example.on), frozenset(example.recalled)
    if not RULES[rule_id].each.library:
        return Case(_loads_of(rule_id, n, apart), on, limits, recalled).for_rule(rule_id)
    whole = _library_of(rule_id, n, apart)
    rigs = tuple(Case(one.loads, on, limits, recalled) for one in whole.rigs)
    return LibraryCase(rigs, whole.shelves, on, limits, recalled).for_rule(rule_id)


@cache
def _loads_of(rule_id: str, n: int, apart: bool) -> Loads:
    text, on = text_of(rule_id, n), date.fromisoformat(example_of(rule_id, n).on)
    return Loads(build(rig_of(text)), DEFAULT.values, on) if apart else loads_of(text, on)


@cache
def _library_of(rule_id: str, n: int, apart: bool) -> LibraryCase:  # noqa: ARG001 - a key of the cache
    example = example_of(rule_id, n)
    return library_of(example, InForce(recalled=frozenset(example.recalled)))
