"""`riglint.records.dataclass` makes what the standard library's makes; the standard library is held against it."""

import dataclasses
import pickle
from copy import copy, deepcopy
from dataclasses import FrozenInstanceError, field
from typing import Any, NamedTuple

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


# Named tuples


def tuples(named: Any, where: str) -> dict[str, Any]:
    """The same named tuples, made by one class or the other."""

    class Place(named):  # type: ignore[misc]
        """A place."""

        line: int
        column: int

    class Leg(named):  # type: ignore[misc]
        """With values that may be left out, and words of its own."""

        name: str
        length_m: float = 3.0
        marks: tuple[str, ...] = ()

        @property
        def longer_m(self) -> float:
            return self.length_m + 1.0

        def twice(self) -> Any:
            return self._replace(length_m=2.0 * self.length_m)

    class Nothing(named):  # type: ignore[misc]
        """Without a place."""

    class Said(named):  # type: ignore[misc]
        """Says itself."""

        one: int

        def __repr__(self) -> str:
            return "our own words"

        def __eq__(self, other: object) -> bool:
            return isinstance(other, tuple) and tuple.__eq__(self, other)

        def __hash__(self) -> int:
            return 7

    made = {one.__name__: one for one in (Place, Leg, Nothing, Said)}
    for one in made.values():  # where pickle finds them
        one.__module__, one.__qualname__ = __name__, f"{where}_{one.__name__}"
        globals()[one.__qualname__] = one
    return made


OUR_TUPLES, THEIR_TUPLES = tuples(records.NamedTuple, "our_tuple"), tuples(NamedTuple, "their_tuple")
TUPLES: list[tuple[str, tuple[Any, ...], dict[str, Any]]] = [
    ("Place", (1, 2), {}),
    ("Place", (1,), {"column": 2}),
    ("Leg", ("a",), {}),
    ("Leg", ("a", 2.0), {"marks": ("x",)}),
    ("Leg", (), {"name": "a", "length_m": 1.0}),
    ("Nothing", (), {}),
    ("Said", (1,), {}),
]


@pytest.mark.parametrize("before", [0, 3 * records.FEW], ids=["first calls", "later calls"])
def test_named_tuples_hold_the_same_and_say_so(before: int) -> None:
    for name, given, named in TUPLES:
        made = []
        for kind in (tuples(records.NamedTuple, "o"), tuples(NamedTuple, "t")):
            for _ in range(before):
                kind[name](*given, **named)
            made.append(kind[name](*given, **named))
        one, other = made
        assert tuple(one) == tuple(other)
        assert type(one).__mro__[1:] == type(other).__mro__[1:] == (tuple, object)
        assert (repr(one), one._asdict(), hash(one)) == (repr(other), other._asdict(), hash(other))
        for told in ("_fields", "_field_defaults", "__match_args__", "__doc__", "__slots__"):
            assert getattr(type(one), told) == getattr(type(other), told)
        assert not hasattr(one, "__dict__")
        assert [getattr(one, field) for field in one._fields] == list(other)


def test_named_tuples_are_copied_sent_replaced_and_made_of_what_is_given() -> None:
    for name, given, named in TUPLES:
        one = OUR_TUPLES[name](*given, **named)
        again = pickle.loads(pickle.dumps(one))  # noqa: S301 - our own bytes
        assert again == one == copy(one) == deepcopy(one)
        assert type(again) is type(one)
        assert type(one)._make(list(one)) == one
    leg = OUR_TUPLES["Leg"]("a").twice()
    assert (leg, leg.longer_m) == (("a", 6.0, ()), 7.0)


WRONG_TUPLES: list[tuple[str, tuple[Any, ...], dict[str, Any]]] = [
    ("Place", (1,), {}),
    ("Place", (1, 2, 3), {}),
    ("Place", (1, 2), {"column": 3}),
    ("Leg", ("a",), {"lenth_m": 2.0}),
    ("Leg", (), {}),
    ("Nothing", (1,), {}),
]


@pytest.mark.parametrize("before", [0, 3 * records.FEW], ids=["first calls", "later calls"])
def test_wrong_named_tuples_are_refused_in_the_same_words(before: int) -> None:
    for name, given, named in WRONG_TUPLES:
        said = []
        for kind in (tuples(records.NamedTuple, "o"), tuples(NamedTuple, "t")):
            for _ in range(before if name == "Leg" else 0):
                kind[name]("a", 1.0, ())
            with pytest.raises(TypeError) as refused:
                kind[name](*given, **named)
            said.append(str(refused.value).partition("()")[2])
        assert said[0] == said[1]
    for kind in (OUR_TUPLES, THEIR_TUPLES):
        place = kind["Place"](1, 2)
        with pytest.raises(TypeError, match="Expected 2 arguments, got 1"):
            kind["Place"]._make([1])
        with pytest.raises(ValueError, match="unexpected field names"):
            place._replace(row=3)
        with pytest.raises(AttributeError):
            place.line = 3
        with pytest.raises(AttributeError):
            place.row = 3
