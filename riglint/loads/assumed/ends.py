"""The same rig at the other ends of what is assumed of it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import product
from typing import NamedTuple

from riglint.loadpath import build
from riglint.loads.rig_loads import Loads
from riglint.loads.states.consequence import CLASSES, ConsequenceClass

Chosen = tuple[int, ...]  # the number of the end of each assumption, in their order


class AtEnds(NamedTuple):
    """A rig with each value that is assumed at one of its ends."""

    chosen: Chosen
    loads: Loads


def other_ends(loads: Loads) -> Iterator[AtEnds]:
    """Yield a rig at every other choice of ends that is judged; nothing where no assumed value has two."""
    assumed = loads.path.rig.assumed
    for chosen in _choices(loads):
        rig = loads.path.rig
        for one, n in zip(assumed, chosen, strict=True):
            rig = one.put(rig, one.ends[n]) if n else rig
        yield AtEnds(chosen, Loads(build(replace(rig, assumed=())), loads.values, loads.on))


def at_each_end(loads: Loads) -> list[Loads]:
    """Return a rig at every choice of ends that is judged; at the first it pulls hardest, to within 0.2 %."""
    return [loads, *(one.loads for one in other_ends(loads))]


def worst_consequence(each: Sequence[Loads]) -> ConsequenceClass:
    """Return what a failure would mean at the end of what is assumed where it means most."""
    return max((one.consequence for one in each), key=lambda one: CLASSES.index(one.word))


def at_its_worst(loads: Loads) -> Loads:
    """Return a rig where it pulls hardest, with what a failure would mean where it means most."""
    each = at_each_end(loads)
    return loads if len(each) == 1 else loads.of_class(worst_consequence(each))


def _choices(loads: Loads) -> list[Chosen]:
    assumed = loads.path.rig.assumed
    lines = list(product(*(range(len(one.ends)) if one.of_line else (0,) for one in assumed)))
    found = list(lines)
    for n, one in enumerate(assumed):
        if not one.of_line:
            found += [(*line[:n], end, *line[n + 1 :]) for line in lines for end in range(1, len(one.ends))]
    return found[1:]
