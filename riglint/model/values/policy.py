"""Values in force: the defaults, and what a club's policy puts in their place."""

from dataclasses import field

from riglint.model.values.defaults import DEFAULTS
from riglint.model.values.ratios import PEAK
from riglint.model.vocabulary.words import Consequence
from riglint.records import dataclass


@dataclass(frozen=True, slots=True)
class Values:
    """Model values in SI units, by name, and required ratios."""

    changed: dict[str, float] = field(default_factory=dict)
    ratios: dict[tuple[str, Consequence], float] = field(default_factory=dict)

    def __getitem__(self, name: str) -> float:
        """Return the value in force.

        Raises:
            KeyError: no such value; a mistake in riglint, since names in files are checked on reading.
        """
        return self.changed[name] if name in self.changed else DEFAULTS[name].si

    def required(self, row: str, consequence: Consequence) -> float | None:
        """Return the ratio of strength to peak force asked of a class of parts; None where none is asked."""
        return self.ratios.get((row, consequence), PEAK[row].at(consequence))
