"""Every rule's word at each consequence is shown by a rig, or it is said why no rig can."""

import pytest

from tests.faults.seeded import BOOK
from tests.faults.words import CONSEQUENCES, Word, shown, words

SHOWN = [pytest.param(one, id=f"{one.rule}-{one.at}") for one in words() if not one.never]


@pytest.mark.parametrize("one", SHOWN)
def test_rule_says_its_word_there(one: Word) -> None:
    consequence, said = shown(one)
    assert consequence == one.at
    assert one.word in said


def test_every_rule_and_consequence_is_on_file_once() -> None:
    every = [(rule_id, at) for rule_id in BOOK.rules for at in CONSEQUENCES]
    assert [(one.rule, one.at) for one in words()] == every


def test_what_cannot_be_shown_has_its_reason() -> None:
    assert all(bool(one.never) != bool(one.rig) for one in words())
