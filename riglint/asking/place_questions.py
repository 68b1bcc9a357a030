"""Questions on lengths, anchors and ground."""

from __future__ import annotations

from typing import get_args

from riglint.asking.answered import bolts, of_kind, trees
from riglint.asking.ground import ground_blanks
from riglint.asking.question import Blank, Question, word
from riglint.model.vocabulary import words

PLACE: tuple[Question, ...] = (
    Question(
        "lengths",
        "How far apart are the anchors, how high is the sling or bolt on each, and how near does anyone come to "
        "each end of the webbing?",
        "Sag, tension and height of a fall come from these.",
        (
            Blank("span", such_as="15 m"),
            Blank("height near", such_as="1.3 m"),
            Blank("height far", such_as="1.3 m"),
            Blank("nearest near", such_as="2 m"),
            Blank("nearest far", such_as="2 m"),
        ),
    ),
    Question(
        "webbing",
        "How long is the webbing cut, and how much of it hangs behind its anchor?",
        "A short tail slips out.",
        (Blank("cut", such_as="90 m"), Blank("tail", such_as="16 m")),
        when=of_kind("pulley", "tackle", "highline"),
    ),
    Question(
        "backup_lengths",
        "How much longer is the backup than its span, and how far apart are the tapes at least and at most?",
        "A long backup drops the walker far; even loops swing together.",
        (
            Blank("longer by", dimension="strain_or_ratio", usual="4 %"),
            Blank("shortest gap", usual="1.8 m"),
            Blank("longest gap", usual="2.6 m"),
        ),
        when=of_kind("highline"),
    ),
    Question(
        "edges",
        "How far from each anchor does the line cross an edge, and how far does a walker hang below the rings?",
        "Edges cut webbing, and a short leash cannot be climbed.",
        (
            Blank("edge near, or none", such_as="3 m", may_be_none=True),
            Blank("edge far, or none", such_as="3 m", may_be_none=True),
            Blank("hang", such_as="2.2 m"),
        ),
        when=of_kind("highline"),
    ),
    Question(
        "trees",
        "How thick is each tree where the sling goes, which species, and what did you see on it?",
        "A thin stem breaks before the gear does. Dead wood and forked stems fail without warning.",
        (
            Blank("girth", such_as="140 cm"),
            Blank("species", "text", such_as="oak"),
            Blank("bark", "word", choices=get_args(words.Bark)),
            Blank("health", "word", choices=get_args(words.Health)),
            Blank("fork", "word", choices=get_args(words.Fork)),
        ),
        groups=trees,
        when=lambda answers: bool(trees(answers)),
    ),
    Question(
        "bolts",
        "How strong are the bolts, and how far from the next bolt and from the edge?",
        "Rock near an edge or between close bolts breaks out.",
        (
            Blank("strength across", dimension="force", such_as="25 kN"),
            Blank("strength along", dimension="force", such_as="15 kN"),
            Blank("spacing", such_as="0.3 m"),
            Blank("edge", such_as="0.4 m"),
            Blank("pull out of the plane", dimension="angle", such_as="10 deg"),
            Blank("rock", "text", such_as="granite"),
            Blank("standard", "text", such_as="EN 959"),
        ),
        groups=bolts,
        when=lambda answers: bool(bolts(answers)),
    ),
    Question(
        "bolt_dates",
        "When were the bolts placed, and when last tested?",
        "Old and untested bolts hold less than their label.",
        (Blank("placed", "day", such_as="2023-05"), Blank("tested", "day", such_as="2025-06")),
        groups=bolts,
        when=lambda answers: bool(bolts(answers)),
    ),
    Question(
        "ground",
        "What would a walker land on, how is the soil, and how high is the ground along the line?",
        "Heights count from the ground at the near anchor; minus means lower. Flat ground is 0 m. Between the places "
        "asked for it counts as straight, and as level from an anchor to its edge.",
        pieces=ground_blanks,
    ),
    Question(
        "water",
        "How deep is the water below the line?",
        "People who fall into shallow water hit the bottom.",
        (Blank("depth", such_as="3 m"),),
        when=lambda answers: word(answers, "ground") == "water",
        follows=True,
    ),
    Question(
        "help",
        "Where would helpers come to, is there phone signal, and how far away is the nearest airfield?",
        "Nobody looks these up while a person hangs in the leash. Aircraft don't see a line.",
        (
            Blank("meeting point", "text", such_as="car park at the quarry"),
            Blank("signal", "word", choices=("yes", "no")),
            Blank("airfield", such_as="12 km"),
        ),
        when=of_kind("highline"),
    ),
)
