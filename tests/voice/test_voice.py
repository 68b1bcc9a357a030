"""All that a person reads is in our voice; what is not yet stands in a list that only gets shorter."""

import pytest

from tests.voice.judged import faults_of, offending, waiting
from tests.voice.texts import everything

FOUND = offending(everything())


def test_no_text_leaves_our_voice() -> None:
    known = set(waiting())
    assert [f"{where}: {sentence}" for sentence, where in FOUND.items() if sentence not in known] == []


def test_the_list_of_what_waits_gets_shorter() -> None:
    assert [sentence for sentence in waiting() if sentence not in FOUND] == [], (
        "Rewritten: take it off the list."
    )


@pytest.mark.parametrize(
    "text",
    [
        "No rule objects.",
        "Only 0.49 m is left; 0.5 m is the least.",
        "The tail is to be tied off.",
        "Whoever falls lands on it.",
        "The webbing knot keeps 1.45 times its force of 6.17 kN.",
        "The sewn end is on the shelf.",
        " ".join(["word"] * 26) + ".",
    ],
)
def test_a_text_out_of_our_voice_is_seen(text: str) -> None:
    assert list(faults_of(text)) != []


def test_a_long_text_of_short_sentences_passes() -> None:
    assert list(faults_of("Tail 0.3 m. At least 0.5 m. Cut the webbing 0.2 m longer. " * 5)) == []
