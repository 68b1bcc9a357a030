"""Names that many rigs have in common, held once for all: a thousand rigs hold few sets of rules and few shelves."""

from __future__ import annotations

from collections.abc import Hashable
from typing import Any

from riglint.findings.finding import RuleCount


class SharedNames:
    """Sets of names of rules that were seen before."""

    def __init__(self) -> None:
        """Start with none."""
        self._known: dict[frozenset[str], frozenset[str]] = {}
        self._alike: dict[tuple[type, Hashable], Any] = {}

    def of(self, names: frozenset[str]) -> frozenset[str]:
        """Return the same names, in the set in which they came first."""
        return self._known.setdefault(names, names)

    def counted(self, rules: RuleCount | None) -> RuleCount | None:
        """Return the same count, in sets that came before."""
        if rules is None:
            return None
        return RuleCount(*map(self.of, (rules.judged, rules.open, rules.not_applicable, rules.crashed)))

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
