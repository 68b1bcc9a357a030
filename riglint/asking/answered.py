"""What earlier answers say: the kind of line, what holds its ends, what is so on that day."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from riglint.asking.question import Answers, Blank, word
from riglint.asking.recipes import SLINGS

ENDS = ("near", "far")
LINES = (("main", 3), ("backup", 2))  # bolts of each line at one end
GROUND = ("path", "wires", "obstacles")
SO = ("permission", "public", "watcher", "spotter", "checker", "wet", "night", "unattended")
SO_HIGH = ("rescue", "tag_line", "partner_check")
SO_HAND = ("slow_release",)


def kind_of_line(answers: Answers) -> str:
    """Return which kind of line is asked for."""
    return word(answers, "line") or "ratchet"


def of_kind(*kinds: str) -> Callable[[Answers], bool]:
    """Return whether the line is of one of these kinds, for a question that is asked then only."""
    return lambda answers: kind_of_line(answers) in kinds


def anchors_of(answers: Answers, kind: str) -> tuple[str, ...]:
    """Return the ends that hang on this kind of anchor: on a highline as answered, else on trees."""
    if kind_of_line(answers) != "highline":
        return ENDS if kind == "tree" else ()
    return tuple(end for n, end in enumerate(ENDS) if word(answers, "ends", n) == kind)


def known_end(answers: Answers, end: str) -> str | None:
    """Return the name of an end as the spot has it; None where nobody knows what it hangs on."""
    return end if end in (*anchors_of(answers, "tree"), *anchors_of(answers, "bolts")) else None


def trees(answers: Answers) -> tuple[str, ...]:
    """Return the ends that hang on trees."""
    return anchors_of(answers, "tree")


def bolts(answers: Answers) -> tuple[str, ...]:
    """Return the ends that hang on bolts."""
    return anchors_of(answers, "bolts")


def so_names(answers: Answers) -> tuple[str, ...]:
    """Return what can be so on a line of this kind."""
    water = ("standby",) if word(answers, "ground") == "water" else ()
    return (*GROUND, *SO, *water, *{"highline": SO_HIGH, "pulley": ()}.get(kind_of_line(answers), SO_HAND))


def so(answers: Answers, name: str) -> str | None:
    """Return `true` or `false` for one of these, None where nobody knows."""
    names = so_names(answers)
    return word(answers, "so", names.index(name)) if name in names else None


def ticked(name: str) -> Callable[[Answers], bool]:
    """Return whether one of these is so, for a question that is asked then only."""
    return lambda answers: so(answers, name) == "true"


def ticks(answers: Answers) -> tuple[Blank, ...]:
    """Return what can be so, to be ticked."""
    return tuple(Blank(name) for name in so_names(answers))


class LegPlace(NamedTuple):
    """One piece of a spread."""

    end: str
    line: str
    part: str
    number: int
    on_bolts: bool

    @property
    def blank(self) -> Blank:
        """The blank that asks for it."""
        kinds = ("quick_link",) if self.part == "quick_link" else SLINGS
        words_ = "link" if self.part == "quick_link" else "sling"
        hitched = self.part == "sling" and not self.on_bolts
        return Blank(f"{self.end} {self.line} {words_} {self.number}", "gear", choices=kinds, hitched=hitched)


def leg_places(answers: Answers) -> tuple[LegPlace, ...]:
    """Return the pieces of the spreads: a link and a sling on each bolt; slings alone, one fewer, on a tree."""
    found = []
    for end in ENDS:
        bolts = end in anchors_of(answers, "bolts")
        if known_end(answers, end) is None:
            continue
        for line, count in LINES:
            for n in range(1, (count if bolts else count - 1) + 1):
                found += [
                    LegPlace(end, line, part, n, bolts)
                    for part in (("quick_link", "sling") if bolts else ("sling",))
                ]
    return tuple(found)
