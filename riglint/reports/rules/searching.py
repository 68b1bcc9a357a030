"""Finds rules by their family, or by a word that they speak of."""

from __future__ import annotations

from riglint.rulebook import Rulebook
from riglint.rulekit import Rule

SHORTEST = 3  # letters; fewer stand in almost every rule


def family(book: Rulebook, name: str) -> dict[str, Rule]:
    """Return the rules of a family such as `anchor`."""
    wanted = name.strip("/").casefold()
    return {rule_id: rule for rule_id, rule in book.rules.items() if rule_id.rpartition("/")[0] == wanted}


def holding(book: Rulebook, word: str) -> dict[str, Rule]:
    """Return the rules whose id, title, subject, reason or formula holds a word."""
    wanted = word.casefold().replace("_", " ")
    if len(wanted.strip()) < SHORTEST:
        return {}
    return {rule_id: rule for rule_id, rule in book.rules.items() if wanted in _spoken(rule_id, rule)}


def _spoken(rule_id: str, rule: Rule) -> str:
    words = (rule_id, rule.title, rule.each.words, rule.why, rule.formula)
    return " ".join(words).casefold().replace("_", " ")
