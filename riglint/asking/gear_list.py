"""The gear that can be chosen, and which free piece to propose for a place."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import field, replace

from riglint.asking.question import NO_PIECE, Answers, Blank, name_and_hitch
from riglint.model.documents.gear import Gear
from riglint.records import dataclass


@dataclass(frozen=True, slots=True)
class GearList:
    """Pieces by name, in the order of the list; empty where there is no list."""

    items: Mapping[str, Gear] = field(default_factory=dict)
    paths: tuple[str, ...] = ()  # as the rig file refers to them

    def fitting(self, blank: Blank) -> Iterator[str]:
        """Yield the names of pieces that fit a place, by kind in the order in which the place names them."""
        for kind in blank.choices:
            for name, gear in self.items.items():
                if gear.kind == kind and blank.form in {None, gear.form}:
                    yield name

    def proposed(self, blanks: tuple[Blank, ...], answers: Answers) -> tuple[Blank, ...]:
        """Return the blanks, those for gear with the first piece that fits and is not taken yet.

        It is a proposal, judged like any other choice.
        """
        taken = {
            name_and_hitch(value)[0]
            for groups in answers.values()
            for one in groups
            for value in one
            if value
        }
        found = []
        for blank in blanks:
            free = [name for name in self.fitting(blank) if name not in taken]
            name = self._first(free, blank) if blank.kind == "gear" and blank.usual != NO_PIECE else None
            if free and name is None and blank.least_m:
                blank = replace(blank, words=f"{blank.words} (none on the list is {blank.least_m:g} m long)")  # noqa: PLW2901
            if name is not None:
                taken.add(name)
                blank = replace(blank, usual=f"{name} basket" if blank.hitched else name)  # noqa: PLW2901 - the same blank, with its proposal
            found.append(blank)
        return tuple(found)

    def _first(self, names: list[str], blank: Blank) -> str | None:
        """Return the first of some pieces, the shortest that reaches where the place asks for a length."""
        if not blank.least_m:
            return next(iter(names), None)
        lengths = [(item.length.si, name) for name in names if (item := self.items[name]).length is not None]
        return min(
            ((length, name) for length, name in lengths if length >= blank.least_m), default=(0.0, None)
        )[1]
