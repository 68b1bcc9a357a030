"""Names that many rigs have in common, held once for all: a thousand rigs hold few sets of rules and few shelves."""

from __future__ import annotations

from collections.abc import Hashable
from typing import Any

from riglint.findings.finding import RuleCount
from riglint.findings.library.across_rigs import with_library


class SharedNames:
    """Sets of names of rules that were seen before."""

    def __init__(self) -> None:
        """Start with none."""
        self._known: dict[frozenset[str], frozenset[str]] = {}
        self._counts: dict[RuleCount, RuleCount] = {}
        self._together: dict[tuple[int, int], tuple[RuleCount | None, RuleCount, RuleCount]] = {}
        self._alike: dict[tuple[type, Hashable], Any] = {}

    def of(self, names: frozenset[str]) -> frozenset[str]:
        """Return the same names, in the set in which they came first."""
        return self._known.setdefault(names, names)

    def counted(self, rules: RuleCount | None) -> RuleCount | None:
        """Return the same count, in sets that came before."""
        if rules is None:
            return None
        made = RuleCount(*map(self.of, (rules.judged, rules.open, rules.not_applicable, rules.crashed)))
        return self._counts.setdefault(made, made)

    def together(self, rules: RuleCount | None, library: RuleCount) -> RuleCount | None:
        """Return a count with that of the rules for whole libraries, made once for all rigs that have it in common."""
        if rules is None:
            return None
        if (id(rules), id(library)) not in self._together:
            made = self.counted(with_library(rules, library))
            self._together[id(rules), id(library)] = (
                made,
                rules,
                library,
            )  # held, so that no other gets their numbers
        return self._together[id(rules), id(library)][0]

    def alike(self, value: Any) -> Any:
        """Return a value with each text and each row of texts in it as it came first; all else stays as it is."""
        if type(value) is str:
            return self._alike.setdefault((str, value), value)
        if not isinstance(value, tuple):
            return value
        rows = [self.alike(one) for one in value]
        made = tuple(rows) if type(value) is tuple else type(value)(*rows)
        return self._alike.setdefault((type(value), made), made) if all(map(_is_text, rows)) else made


def _is_text(value: object) -> bool:
    return value is None or isinstance(value, str)
