"""What the solvers cost, in looks at a chain; UPDATE_GOLDEN=1 rewrites it.

A result within its tolerance does not show that a guess went wrong or a step was cut where it need not be; this does,
and without a clock. The sums are those of one mathematical library; another may round a case or two otherwise.
"""

from __future__ import annotations

import os
import random
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager
from itertools import product
from pathlib import Path
from unittest.mock import patch

from riglint.mechanics.span import along as along_line
from riglint.mechanics.span import chain, peak, shape, standing
from riglint.mechanics.span.along import hang_along
from riglint.mechanics.span.line import Equilibrium, Line, Reach, Webbing, hang
from riglint.mechanics.span.peak import drop
from riglint.mechanics.span.standing import End, length_for_sag, length_for_tension, reach_for_tension
from riglint.mechanics.span.stretch import StretchLaw

KEPT = Path(__file__).parent / "effort.txt"
SIDES: tuple[End, End] = ("a", "b")
EVERY_LINE = 40
LOOKING = (chain, along_line, peak, shape, standing)


class Looks:
    """Counts the marches along a chain."""

    def __init__(self) -> None:
        self.taken = 0
        self._march = chain.march

    def __call__(self, h: float, v: float, along: chain.Chain) -> chain.March:
        self.taken += 1
        return self._march(h, v, along)


@contextmanager
def counted() -> Iterator[Looks]:
    """Count while the block runs, whichever module looks."""
    looks = Looks()
    with ExitStack() as stack:
        for module in LOOKING:
            stack.enter_context(patch.object(module, "march", looks))
        yield looks


def bent(draw: random.Random, stiffness_n: float) -> StretchLaw:
    """A stretch curve of three pieces."""
    tension_n = strain = 0.0
    points = []
    for _ in range(3):
        step_n = draw.uniform(0.5e3, 3e3)
        tension_n, strain = tension_n + step_n, strain + draw.uniform(0.5, 2.0) * step_n / stiffness_n
        points.append((tension_n, strain))
    return StretchLaw.through(points)


def drawn(kind: str, longer: float) -> Iterator[Line]:
    """Invented lines of one kind, with that share of webbing more than the chord is long."""
    draw = random.Random(0)  # noqa: S311 - reproducible cases, no secret
    for _ in range(EVERY_LINE):
        span_m = 10.0 * 30.0 ** draw.random()
        stiffness_n = 20e3 * 20.0 ** draw.random()
        shares = (0.3, 0.7) if kind == "joined" else (1.0,)
        laws = [
            StretchLaw.linear(stiffness_n) if kind == "straight" else bent(draw, stiffness_n) for _ in shares
        ]
        webbings = tuple(
            Webbing(share * (1.0 + longer) * span_m - 0.8 / len(shares), draw.uniform(0.2, 1.0), law)
            for share, law in zip(shares, laws, strict=True)
        )
        rise_m = draw.uniform(-0.3, 0.3) * span_m
        yield Line(span_m, rise_m, Reach(0.5, 1e-5, 3e3), webbings, Reach(draw.uniform(0.1, 0.5)))


def hangs(of: Line) -> None:
    """At rest, bare and loaded in three places."""
    for load_n, fraction in ((0.0, 0.5), (785.0, 0.5), (1200.0, 0.2), (300.0, 0.93)):
        hang(of, load_n, fraction)


def hangs_from_afar(of: Line) -> None:
    """From forces that are not near: too small, too great, the wrong way round."""
    for start in ((30.0, 0.0), (40e3, -900.0), (2e3, 5e3)):
        hang(of, 785.0, 0.4, start)


def swept(of: Line) -> None:
    """Nobody, and a load that moves in even steps, then in others, some of them hardly so, and back."""
    list(hang_along(of, 0.0, (0.1, 0.4, 0.7)))
    even = [0.1 + 0.025 * n for n in range(17)]
    list(hang_along(of, 785.0, [*even, 0.55, 0.62, 0.7, 0.78, 0.86, 0.8, 0.2]))
    list(hang_along(of, 785.0, [0.0, 0.05, 0.1, 0.15 + 2e-7, 0.2, 0.25]))


def falls(of: Line) -> None:
    """Catches of one fall after another, the later ones near the first."""
    before = hang(of, 0.0, 0.4)
    if isinstance(before, Equilibrium):
        first = drop(of, 0.4, 80.0, 0.5, reference=before)
        near = first if isinstance(first, Equilibrium) else None
        drop(of, 0.4, 80.0, 4.0, reference=before, near=near)
        drop(of, 0.4, 95.0, 0.0, reference=before)
        drop(of, 0.4, 0.5, 30.0, reference=before)
        loaded = hang(of, 800.0, 0.4)
        if isinstance(loaded, Equilibrium):
            drop(of, 0.4, 70.0, 1.5, reference=loaded, resting_n=800.0)


def stands(of: Line) -> None:
    """As long as gives a tension at either end, by the webbing and by either reach; some hardly above the least."""
    least_n = of.weight_n / of.unstressed_m * of.span_m
    for tension_n, at in product((1.01 * least_n, 1.2 * least_n, 2e3, 9e3), SIDES):
        length_for_tension(of, tension_n, at, len(of.webbings) - 1)
        for side in SIDES:
            reach_for_tension(of, tension_n, at, side)


def sags(of: Line) -> None:
    """As long as gives a sag under nobody and somebody."""
    for load_n, share in product((0.0, 785.0), (0.01, 0.06)):
        length_for_sag(of, load_n, 0.4, share * of.span_m)


TASKS: tuple[Callable[[Line], None], ...] = (hangs, hangs_from_afar, swept, falls, stands, sags)


def effort() -> str:
    """A row for each task and kind of line: the looks that all lines of the kind take together."""
    rows = []
    for task, kind, longer in product(TASKS, ("straight", "bent", "joined"), (-0.02, 0.03, 0.2, 0.8)):
        with counted() as looks:
            for of in drawn(kind, longer):
                task(of)
        rows.append(f"{task.__name__:16} {kind:9} {longer:+5.2f} {looks.taken:6}\n")
    return "".join(rows)


def test_solvers_take_as_many_looks_as_before() -> None:
    found = effort()
    if os.environ.get("UPDATE_GOLDEN") == "1":
        KEPT.write_text(found, encoding="utf-8", newline="\n")
    assert found == KEPT.read_text(encoding="utf-8")
