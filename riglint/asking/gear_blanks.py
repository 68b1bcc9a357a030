"""Blanks for gear that depend on earlier answers: what the labels say, and which tie-back reaches."""

from __future__ import annotations

from dataclasses import replace
from typing import get_args

from riglint.asking.answered import kind_of_line
from riglint.asking.question import Answers, Blank, metres, word
from riglint.asking.recipes import TIE_BACK, blanks_of
from riglint.model.vocabulary import words

FIBRES = ("polyester", "polyamide", "uhmwpe", "polypropylene", "mixed")
BESIDE_BLOCKS_M = 1.0  # what shackles, knots and slack take beside the blocks


def label_blanks(answers: Answers) -> tuple[Blank, ...]:
    """Return what labels tell of a line without a gear list."""
    tensioner = kind_of_line(answers)
    blanks = (
        Blank("webbing", dimension="force", such_as="40 kN"),
        Blank("sewn loop", dimension="force", such_as="32 kN"),
        Blank(tensioner, dimension="force", such_as="40 kN"),
        Blank("slings", dimension="force_or_mass", such_as="2 t"),
        Blank("shackles", dimension="force_or_mass", such_as="3.25 t"),
        Blank("the labels are", "word", choices=get_args(words.Label)),
    )
    anchor = (
        Blank("webbing anchor", dimension="force", such_as="40 kN"),
        Blank("widest webbing it takes", such_as="25 mm"),
    )
    return (*blanks, *anchor) if tensioner == "tackle" else blanks


def tie_back_blanks(answers: Answers) -> tuple[Blank, ...]:
    """Return the pieces of a tie-back; across blocks, one that reaches while the line is hand-tight still."""
    tie, sling = blanks_of(TIE_BACK)
    if kind_of_line(answers) != "pulley":
        return tie, sling, Blank("slack", such_as="0.2 m")
    open_m = metres(word(answers, "haul_lengths"))
    return replace(tie, least_m=open_m + BESIDE_BLOCKS_M if open_m else 0.0), sling
