"""Names of rules, held once for all rigs of which the same rules say the same: a thousand rigs hold few sets."""

from __future__ import annotations

from riglint.findings.finding import RuleCount


class SharedNames:
    """Sets of names of rules that were seen before."""

    def __init__(self) -> None:
        """Start with none."""
        self._known: dict[frozenset[str], frozenset[str]] = {}

    def of(self, names: frozenset[str]) -> frozenset[str]:
        """Return the same names, in the set in which they came first."""
        return self._known.setdefault(names, names)

    def counted(self, rules: RuleCount | None) -> RuleCount | None:
        """Return the same count, in sets that came before."""
        if rules is None:
            return None
        return RuleCount(*map(self.of, (rules.judged, rules.open, rules.not_applicable, rules.crashed)))
