"""`riglint.records.dataclass` makes what the standard library's makes; the standard library is held against it."""

import dataclasses
import pickle
from copy import copy, deepcopy
from dataclasses import FrozenInstanceError, field
from typing import Any

import pytest

from riglint import records


def kinds(dataclass: Any, where: str) -> dict[str, Any]:
    """The same classes, made by one decorator or the other."""

    @dataclass(frozen=True, slots=True)
    class Rope:
        """A rope."""

        name: str
        length_m: float = 40.0
        uses: list[str] = field(default_factory=list, compare=False)
        mark: str = field(init=False, default="none")

        def __post_init__(self) -> None:
            if self.length_m < 0.0:
                raise ValueError("a rope has a length")

    @dataclass(frozen=True, slots=True)
    class Spliced(Rope):
        """A rope with one key more."""

        ends: int = 2

    @dataclass(slots=True)
    class Count:
        """What is added to."""

        number: int = 0
        seen: set[str] = field(default_factory=set, repr=False)
        made: list[int] = field(init=False, default_factory=list)

    @dataclass(frozen=True)
    class Open:
        """Without slots."""

        one: int

        def __repr__(self) -> str:
            return "our own words"

    @dataclass(frozen=True, slots=True)
    class Nothing:
        """Without a field."""

    @dataclass(frozen=True, slots=True, eq=False)
    class Alone:
        """Equal to itself only."""

        one: int

    made = {one.__name__: one for one in (Rope, Spliced, Count, Open, Nothing, Alone)}
    for one in made.values():  # where pickle finds them
        one.__module__, one.__qualname__ = __name__, f"{where}_{one.__name__}"
        globals()[one.__qualname__] = one
    return made


OURS, THEIRS = kinds(records._dataclass, "ours"), kinds(dataclasses.dataclass, "theirs")
CALLS: list[tuple[str, tuple[Any, ...], dict[str, Any]]] = [
    ("Rope", ("a",), {}),
    ("Rope", ("a", 3.0), {}),
    ("Rope", ("a",), {"length_m": 3.0, "uses": ["x"]}),
    ("Rope", (), {"name": "b", "uses": ["y"]}),
    ("Spliced", ("a", 40.0, ["z"], 3), {}),
    ("Spliced", ("a",), {"ends": 2}),
    ("Open", (1,), {}),
    ("Nothing", (), {}),
]
COUNTS: list[tuple[str, tuple[Any, ...], dict[str, Any]]] = [("Count", (), {}), ("Count", (3, {"a"}), {})]


def pairs(calls: list[tuple[str, tuple[Any, ...], dict[str, Any]]]) -> list[tuple[Any, Any]]:
    return [(OURS[name](*given, **named), THEIRS[name](*given, **named)) for name, given, named in calls]


def values(one: Any) -> dict[str, Any]:
    return {each.name: getattr(one, each.name) for each in dataclasses.fields(one)}


def test_they_hold_the_same_values_and_say_so() -> None:
    for ours, theirs in pairs(CALLS + COUNTS):
        assert values(ours) == values(theirs)
        assert repr(ours).removeprefix("ours_") == repr(theirs).removeprefix("theirs_")
        assert type(ours).__match_args__ == type(theirs).__match_args__
        assert hasattr(ours, "__dict__") == hasattr(theirs, "__dict__")


def test_the_first_calls_make_what_all_later_ones_make() -> None:
    """The first few set field by field, before the function is written."""
    ours, theirs = kinds(records._dataclass, "early"), kinds(dataclasses.dataclass, "late")
    for name, given, named in CALLS + COUNTS:
        for _ in range(3 * records.FEW):
            assert values(ours[name](*given, **named)) == values(theirs[name](*given, **named))


WRONG: list[tuple[str, tuple[Any, ...], dict[str, Any], type[Exception]]] = [
    ("Rope", (), {}, TypeError),
    ("Rope", ("a", 1.0, [], 2), {}, TypeError),
    ("Rope", ("a",), {"name": "b"}, TypeError),
    ("Rope", ("a",), {"mark": "b"}, TypeError),
    ("Rope", ("a",), {"lenth_m": 2.0}, TypeError),
    ("Rope", ("a", -1.0), {}, ValueError),
    ("Nothing", (1,), {}, TypeError),
]


@pytest.mark.parametrize("before", [0, 3 * records.FEW], ids=["first calls", "later calls"])
def test_a_wrong_call_is_refused_in_the_same_words(before: int) -> None:
    for name, given, named, error in WRONG:
        said = []
        for kind in (kinds(records._dataclass, "wrong"), kinds(dataclasses.dataclass, "wrongly")):
            for _ in range(before if name == "Rope" else 0):
                kind[name]("a")
            with pytest.raises(error) as refused:
                kind[name](*given, **named)
            said.append(str(refused.value).rpartition("__init__")[2])
        assert said[0] == said[1]


def test_they_are_equal_where_the_others_are() -> None:
    made = pairs(CALLS + COUNTS)
    for one, same in made:
        for other, likewise in made:
            assert (one == other) == (same == likewise), (one, other)
            assert (one != other) == (same != likewise)
    assert OURS["Rope"]("a") != ("a", 40.0)


def test_what_the_standard_library_also_takes_is_taken() -> None:
    for kind in (OURS, THEIRS):
        alone = kind["Alone"](1)
        assert alone == alone  # noqa: PLR0124
        assert alone != kind["Alone"](1)
        with pytest.raises(FrozenInstanceError):
            alone.one = 2


def test_they_hash_alike() -> None:
    for ours, theirs in pairs(CALLS):
        assert hash(ours) == hash(theirs)
    for kind in (OURS, THEIRS):
        with pytest.raises(TypeError, match="unhashable"):
            hash(kind["Count"]())


@pytest.mark.parametrize("kind", [OURS, THEIRS], ids=["ours", "theirs"])
def test_what_is_frozen_stays(kind: dict[str, Any]) -> None:
    rope = kind["Rope"]("a")
    with pytest.raises(FrozenInstanceError, match="cannot assign to field 'name'"):
        rope.name = "b"
    with pytest.raises(FrozenInstanceError, match="cannot delete field 'name'"):
        del rope.name
    with pytest.raises(FrozenInstanceError):
        kind["Open"](1).one = 2
    count = kind["Count"]()
    count.number += 2
    assert count.number == 2
    with pytest.raises(AttributeError):
        count.numbre = 1
    assert kind["Count"]().seen is not kind["Count"]().seen


@pytest.mark.parametrize("kind", [OURS, THEIRS], ids=["ours", "theirs"])
def test_a_wrong_call_is_told(kind: dict[str, Any]) -> None:
    with pytest.raises(TypeError, match=r"missing 1 required positional argument: 'name'"):
        kind["Rope"]()
    with pytest.raises(TypeError, match="unexpected keyword argument 'mark'"):
        kind["Rope"]("a", mark="c")
    with pytest.raises(ValueError, match="has a length"):
        kind["Spliced"]("a", -1.0)


def test_they_are_copied_sent_and_replaced() -> None:
    for ours, _ in pairs(CALLS + COUNTS):
        again = pickle.loads(pickle.dumps(ours))  # noqa: S301 - our own bytes
        assert again == ours == copy(ours) == deepcopy(ours)
        assert values(again) == values(ours)
    rope = dataclasses.replace(OURS["Spliced"]("a"), length_m=2.0)
    assert (rope.name, rope.length_m, rope.ends) == ("a", 2.0, 2)
    assert dataclasses.asdict(OURS["Count"](1, {"a"})) == {"number": 1, "seen": {"a"}, "made": []}


def test_one_kind_inherits_from_another_before_either_was_called() -> None:
    fresh = kinds(records._dataclass, "fresh")
    spliced = fresh["Spliced"]("a", ends=4)
    rope = fresh["Rope"]("a")
    assert (spliced.ends, rope.length_m) == (4, 40.0)
    assert spliced != rope
    with pytest.raises(TypeError):  # a frozen kind from one that is not: the standard library refuses it too
        dataclasses.dataclass(frozen=True)(type("Child", (fresh["Count"],), {"__annotations__": {"x": int}}))
