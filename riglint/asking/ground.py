"""The ground under a line: which heights are asked for, and the profile that they make."""

from __future__ import annotations

from typing import get_args

from riglint.asking.answered import ENDS, kind_of_line
from riglint.asking.question import Answers, Blank, metres, word
from riglint.model.vocabulary import words

OUT_M = 2.0  # how far beyond an edge the depth is asked for: a rope with a weight reaches there from the lip
Point = tuple[float, str]  # distance from the near anchor in m, and the height there as typed


def ground_blanks(answers: Answers) -> tuple[Blank, ...]:
    """Return what is asked about the ground: its height beyond each edge, in the middle and at the far end."""
    near, far = (_edge_m(answers, end) is not None for end in ENDS)
    beyond = f"ground {OUT_M:g} m beyond the {{}} edge"
    return (
        Blank("surface", "word", choices=get_args(words.Surface)),
        Blank("soil", "word", choices=get_args(words.Soil)),
        *((Blank(beyond.format("near"), such_as="-20 m"),) if near else ()),
        Blank("ground in the middle", such_as="-0.1 m"),
        *((Blank(beyond.format("far"), such_as="-20 m"),) if far else ()),
        Blank("ground at the far end", such_as="0 m"),
    )


def profile(answers: Answers) -> list[list[str]] | None:
    """Return the ground as a spot file has it; None where its heights in the middle or at the far end are not known.

    Ground is level from an anchor to its edge, and straight between the heights given: no answer can have it higher
    without a height that nobody gave.
    """
    span_m = metres(word(answers, "lengths"))
    blanks = [blank.words for blank in ground_blanks(answers)]
    height = {name: word(answers, "ground", n) for n, name in enumerate(blanks)}
    middle, far = height["ground in the middle"], height["ground at the far end"]
    if not (middle and far and span_m > 0.0):
        return None
    points: list[Point] = [(0.0, "0 m"), (span_m / 2.0, middle), (span_m, far)]
    for end, level in zip(ENDS, ("0 m", far), strict=True):
        edge_m = _edge_m(answers, end)
        beyond = height.get(f"ground {OUT_M:g} m beyond the {end} edge")
        if edge_m is None or edge_m + OUT_M >= span_m / 2.0:
            continue
        found = [(edge_m, level), *([(edge_m + OUT_M, beyond)] if beyond else [])]
        points += [(x if end == "near" else span_m - x, y) for x, y in found]
    return [[f"{x:g} m", y] for x, y in sorted(points)]


def _edge_m(answers: Answers, end: str) -> float | None:
    """Return how far from an anchor the line crosses an edge; None where there is none, or nobody knows."""
    if kind_of_line(answers) != "highline":
        return None
    return metres(word(answers, "edges", ENDS.index(end))) or None
