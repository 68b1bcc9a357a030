"""Names that rigs have in common are held once, and are what they were."""

from typing import NamedTuple

from riglint.findings.library.shared_names import SharedNames


class Piece(NamedTuple):
    path: str
    id: str | None


def fresh(text: str) -> str:
    return "".join(list(text))


def test_alike_values_are_held_once() -> None:
    names = SharedNames()
    first = names.alike((Piece(fresh("shelf.yaml"), None), Piece(fresh("shelf.yaml"), fresh("SH-1"))))
    again = names.alike((Piece(fresh("shelf.yaml"), None), Piece(fresh("shelf.yaml"), fresh("SH-2"))))
    assert again == (Piece("shelf.yaml", None), Piece("shelf.yaml", "SH-2"))
    assert again[0] is first[0]
    assert again[1].path is first[1].path
    assert type(again[1]) is Piece


def test_a_row_is_never_taken_for_one_of_another_kind() -> None:
    names = SharedNames()
    assert type(names.alike(("a", "b"))) is tuple
    assert type(names.alike(Piece("a", "b"))) is Piece
    assert names.alike((1, "a")) == (1, "a")
    assert names.alike((True, "a"))[0] is True
