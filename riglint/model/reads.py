"""Which numbers of the documents a computation reads, so that it need not run again where none of them has changed.

A number counts as read when the attribute of its model is asked for. What is computed once (`computed`) keeps what it
was made of and passes it on to whoever asks later. A model that is looked at in any other way, as by comparing it,
counts as read whole. So what is left out of a second run has read nothing that is another number there.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from threading import local
from typing import TYPE_CHECKING, Any, TypeVar

from pydantic import BaseModel

from riglint.read.quantity import Quantity

__all__ = [
    "Memory",
    "Read",
    "Reads",
    "computed",
    "decided",
    "everything_read",
    "is_noted",
    "reading",
    "remembered",
    "rests_on",
    "track_below",
]

T = TypeVar("T")
Read = tuple[int, str]  # a model by its identity, and the name of a field
EVERYTHING: Read = (0, "everything")


class Reads:
    """What a computation has read: numbers, and all that kept values were made of, put together once it is over."""

    __slots__ = ("_all", "kept", "numbers")

    def __init__(self) -> None:
        self.numbers: set[Read] = set()
        self.kept: dict[int, frozenset[Read]] = {}  # by identity: most are asked for many times
        self._all: frozenset[Read] | None = None

    def all(self) -> frozenset[Read]:
        """Return all of it, where the computation is over."""
        if self._all is None:
            self._all = frozenset(self.numbers).union(*self.kept.values())
        return self._all


class _Now(local):
    """What the computation that runs in this thread has read so far; None where nobody asks."""

    read: Reads | None = None


_now = _Now()


class reading:  # noqa: N801 - called like the functions beside it
    """Collect what the block reads; what it reads, whoever runs the block has read as well."""

    __slots__ = ("_outer", "_own")

    def __enter__(self) -> Reads:
        self._outer = _now.read
        self._own = _now.read = Reads()
        return self._own

    def __exit__(self, *_error: object) -> None:
        _now.read = self._outer
        if self._outer is not None:
            made_of = self._own.all()
            self._outer.kept[id(made_of)] = made_of


def everything_read() -> None:
    """Take note that a model was looked at as a whole."""
    if _now.read is not None:
        _now.read.numbers.add(EVERYTHING)


class _NumberField:
    """Stands on a model in place of one of its fields: hands out the value and takes note."""

    __slots__ = ("name",)

    def __init__(self, name: str) -> None:
        self.name = name

    def __get__(self, model: BaseModel | None, _owner: type) -> Any:
        if model is None:  # as if it were not there, which is what pydantic leaves of a field on its class
            raise AttributeError(self.name)
        read = _now.read
        if read is not None:
            read.numbers.add((id(model), self.name))
        try:
            return model.__dict__[self.name]
        except KeyError:
            raise AttributeError(self.name) from None

    def __set__(self, model: BaseModel, value: Any) -> None:
        raise AttributeError(f"{self.name} of a {type(model).__name__} is not changed after reading")


def is_noted(model: BaseModel, name: str) -> bool:
    """Whether what is read of a field of a model is taken note of."""
    return isinstance(type(model).__dict__.get(name), _NumberField)


_NUMBERS = (Quantity, float, int, bool)


@cache
def track_below(base: type[BaseModel]) -> None:
    """Take note from now on of every number that is read from any kind of model made of this one."""
    for model in base.__subclasses__():
        for name, entry in model.model_fields.items():
            if _holds_number(entry.annotation):
                type.__setattr__(model, name, _NumberField(name))
        track_below(model)


def _holds_number(annotation: Any) -> bool:
    inside = getattr(annotation, "__args__", ())
    return any(annotation is one for one in _NUMBERS) or any(_holds_number(one) for one in inside)


class _Computed:
    """A value that is computed when it is first asked for, and remembers what it was made of."""

    def __init__(self, compute: Callable[[Any], Any]) -> None:
        self.compute = compute
        self.__doc__ = compute.__doc__

    def __set_name__(self, _owner: type, name: str) -> None:
        self.name = name

    def __get__(self, thing: Any, _owner: type) -> Any:
        if thing is None:
            return self
        held = thing.__dict__.get(self.name)
        if held is None:
            return _kept(thing.__dict__, self.name, self.compute, thing)
        read = _now.read
        if read is not None:
            read.kept[id(held[1])] = held[1]
        return held[0]

    def __set__(self, thing: Any, value: Any) -> None:
        """Put a value in its place: nobody knows what it was made of."""
        thing.__dict__[self.name] = value, frozenset((EVERYTHING,))


class _Decided(_Computed):
    """A computed value that stands for what it was made of: whoever asks rests on it alone.

    Where two rigs are compared, `Changes.decide` says which of these to compare. One that rests on what nobody took
    note of stands for nothing.
    """

    def __get__(self, thing: Any, _owner: type) -> Any:
        if thing is None:
            return self
        held = thing.__dict__.get(self.name) or self._found(thing)
        read = _now.read
        if read is not None:
            read.numbers.add(EVERYTHING if EVERYTHING in held[1] else (id(thing), self.name))
        return held[0]

    def _found(self, thing: Any) -> tuple[Any, frozenset[Read]]:
        outer, _now.read = _now.read, Reads()
        try:
            _kept(thing.__dict__, self.name, self.compute, thing)
        except BaseException:
            if outer is not None:
                outer.kept |= _now.read.kept
            raise
        finally:
            _now.read = outer
        held: tuple[Any, frozenset[Read]] = thing.__dict__[self.name]
        return held


if TYPE_CHECKING:
    from functools import cached_property as computed  # the same to whoever uses it
    from functools import cached_property as decided
else:
    computed, decided = _Computed, _Decided

Memory = dict[Any, tuple[T, frozenset[Read]]]


def remembered(memory: Memory[T], name: Any, compute: Callable[[], T]) -> T:
    """Return what is remembered under a name, computed the first time, and take note of what it was made of."""
    held = memory.get(name)
    if held is None:
        return _kept(memory, name, compute)
    noted = _now.read
    if noted is not None:
        noted.kept[id(held[1])] = held[1]
    return held[0]


def _kept(memory: Memory[T], name: Any, compute: Callable[..., T], *given: Any) -> T:
    """Compute a value and remember it with what it was made of."""
    with reading() as read:
        value = compute(*given)
    memory[name] = value, read.all()
    return value


def rests_on(read: frozenset[Read]) -> None:
    """Take note of what was read elsewhere."""
    if _now.read is not None:
        _now.read.kept[id(read)] = read
