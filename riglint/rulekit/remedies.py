"""Changes that put a fault right, and what is said where none does so without another rule speaking up."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import Self

from riglint.loads.what_if.solved_for import Remedy
from riglint.rulekit.verdicts import Signal

NOT_SHOWN = "not shown to be enough: audit again"


class Remedies(tuple[Remedy, ...]):  # noqa: SLOT001 - a tuple with what is told beside it
    """Changes that end a fault, each tried, with none of which any rule says more or worse."""

    objected_to: tuple[str, ...]  # where there is none: those that end the fault, with who then objects
    in_vain: bool  # values were tried, and none ended the fault

    def __new__(
        cls, remedies: Iterable[Remedy] = (), objected_to: Iterable[str] = (), *, in_vain: bool = False
    ) -> Self:
        """Make them, with what is said where there is none."""
        changes = super().__new__(cls, remedies)
        changes.objected_to, changes.in_vain = tuple(objected_to), in_vain
        return changes

    def or_else(self, *by_hand: str) -> tuple[Remedy | str, ...]:
        """Return them; else what would do but for another rule; else advice by hand, which no audit has tried."""
        if self or self.objected_to:
            return tuple(self) or self.objected_to
        if self.in_vain and by_hand:
            return *by_hand[:-1], f"{by_hand[-1]} ({NOT_SHOWN})"
        return by_hand


def objected(remedy: Remedy, objecting: list[tuple[str, Signal]]) -> str:
    """Return a change in words with who objects, gravest first: `… to 1.9 m (but site/water then objects: DANGER)`."""
    rule, word = objecting[0]
    who = (
        f"{rule} then objects" if len(objecting) == 1 else f"{rule} and {len(objecting) - 1} more then object"
    )
    return f"{remedy.words} (but {who}: {word.name})"


def at_a_cost(remedy: Remedy, costs: list[tuple[str, Signal]]) -> Remedy:
    """Return a change that says which rules then say more than today, gravest first."""
    return replace(remedy, words=objected(remedy, costs))
