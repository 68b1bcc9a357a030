"""Values in force: the defaults, and what a club's policy puts in their place."""

from dataclasses import dataclass, field

from riglint.model.defaults import DEFAULTS


@dataclass(frozen=True, slots=True)
class Values:
    """Model values in SI units, by name."""

    changed: dict[str, float] = field(default_factory=dict)

    def __getitem__(self, name: str) -> float:
        """Return the value in force.

        Raises:
            KeyError: no such value; a mistake in riglint, since names in files are checked on reading.
        """
        return self.changed[name] if name in self.changed else DEFAULTS[name].si
