"""A value that stands for what it was made of: only where it differs does what asked for it run again."""

import pytest

from riglint.model.differences import Changes
from riglint.model.documents.spot import Spot
from riglint.model.reads import EVERYTHING, computed, decided, reading, track_below
from riglint.model.vocabulary.fields import Form
from riglint.read.quantity import Quantity

track_below(Form)


def spot(span_m: float) -> Spot:
    return Spot.model_construct(span=Quantity(span_m, 0.0, f"{span_m} m"))


class Line:
    """Long from 50 m on."""

    def __init__(self, span_m: float) -> None:
        self.spot = spot(span_m)

    @decided
    def word(self) -> str:
        assert self.spot.span is not None
        if self.spot.span.si < 0.0:
            raise ValueError("no line")
        return "long" if self.spot.span.si >= 50.0 else "short"


class Unknown:
    @computed
    def set_by_hand(self) -> str:
        return ""

    @decided
    def word(self) -> str:
        return self.set_by_hand


def read_of(line: Line) -> frozenset[tuple[int, str]]:
    with reading() as read:
        assert line.word
        assert line.word
    return read.all()


def compared(old: Line, new: Line) -> Changes:
    found = Changes(numbers={(id(old.spot), "span")}, instead={id(old.spot): id(new.spot)})
    found.decide(old, new, "word")
    return found


@pytest.mark.parametrize(("moved_m", "again"), [(30.0, False), (60.0, True), (-1.0, True)])
def test_what_asked_for_the_word_runs_again_where_it_is_another_or_none(moved_m: float, again: bool) -> None:
    old, new = Line(40.0), Line(moved_m)
    read, different = read_of(old), compared(old, new)
    assert read == {(id(old), "word")}
    assert different.touch(read) is again
    assert different.touch(read) is again  # whether asked once or twice
    assert different.moved(read) == {(id(new), "word")}


def test_what_read_the_number_as_well_runs_again() -> None:
    old, new = Line(40.0), Line(30.0)
    with reading() as read:
        assert old.word == "short"
        assert old.spot.span is not None
    assert compared(old, new).touch(read.all())


def test_where_there_is_no_word_what_was_read_is_known() -> None:
    none = Line(-1.0)
    with reading() as read, pytest.raises(ValueError, match="no line"):
        assert none.word
    assert (id(none.spot), "span") in read.all()


def test_a_word_of_what_nobody_took_note_of_stands_for_nothing() -> None:
    thing = Unknown()
    thing.set_by_hand = "grave"
    with reading() as read:
        assert thing.word == "grave"
    assert EVERYTHING in read.all()
