"""Questions on the day: what is around, who walks, how tight."""

from __future__ import annotations

from typing import get_args

from riglint.asking.answered import of_kind, ticked, ticks
from riglint.asking.question import Blank, Question
from riglint.model.vocabulary import words

DAY: tuple[Question, ...] = (
    Question(
        "so",
        "Which of these are there, or so, on that day? Name those. The others then count as no.",
        "A path, a wire or wet webbing changes what a failure costs.",
        pieces=ticks,
        ticks=True,
    ),
    Question(
        "wires",
        "How near are wires, and at what voltage?",
        "Current jumps to a line that swings near.",
        (Blank("distance", such_as="12 m"), Blank("voltage", dimension="voltage", such_as="20 kV")),
        any_number=True,
        when=ticked("wires"),
        follows=True,
    ),
    Question(
        "obstacles",
        "What could a walker fall on: what, how far along, how far to the side, how high?",
        "Most injuries on low lines come from things beside them.",
        (
            Blank("what", "text", such_as="bench"),
            Blank("along", such_as="7 m"),
            Blank("aside", such_as="1.2 m"),
            Blank("height", such_as="0.5 m"),
        ),
        any_number=True,
        when=ticked("obstacles"),
        follows=True,
    ),
    Question(
        "people",
        "Who may be on the line, one at a time? Mass with clothes and gear, how practised, and the liveliest thing "
        "that they do on it.",
        "The heaviest sets the load, the least practised the fall. Don't guess anyone's weight. A bounce or a jump "
        "loads the line far more than walking.",
        (
            Blank("mass", dimension="mass", such_as="75 kg"),
            Blank("level", "word", choices=get_args(words.Level)),
            Blank("does at most", "word", choices=get_args(words.Move)),
        ),
        any_number=True,
    ),
    Question(
        "plan",
        "How tight, how many pull, how hard each, and what wind at most?",
        "Tension with nobody on the line. A person pulls about 0.35 kN for long.",
        (
            Blank("tension", dimension="force", such_as="3 kN"),
            Blank("people who pull", "count", usual="2"),
            Blank("pull of each", dimension="force", usual="0.35 kN"),
            Blank("wind", dimension="speed", such_as="10 km/h"),
        ),
    ),
    Question(
        "turns",
        "How many turns does the rope tail take round the trunk while you lower?",
        "Turns take the pull off the hand on the rope.",
        (Blank("turns", "count", such_as="1"),),
        when=of_kind("pulley"),
    ),
    Question(
        "days",
        "Which day, and how many days does it stay up?",
        "Gear that stays up ages, and checks fall due.",
        (Blank("day", "day", such_as="2026-05-03"), Blank("days up", "count", usual="1")),
        from_list=True,
    ),
    Question(
        "dates",
        "Which day, when were webbing and slings made, when was all gear last checked, and how many days up?",
        "Textiles age even in the bag.",
        (
            Blank("day", "day", such_as="2026-05-03"),
            Blank("made", "day", such_as="2023-05"),
            Blank("checked", "day", such_as="2026-04-02"),
            Blank("days up", "count", usual="1"),
        ),
        from_list=False,
    ),
)
