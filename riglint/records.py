"""`dataclass` as in the standard library, but for its functions: each is written when it is first called.

The standard library writes and compiles six functions for each class as its module loads. A call of riglint loads some
170 such classes and calls few of their functions: to write them all took a fifth of the call.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable
from reprlib import recursive_repr
from types import MemberDescriptorType
from typing import TYPE_CHECKING, Any

__all__ = ["dataclass"]

Made = type[Any]
FEW = 9  # calls; to write a function takes as long as some twenty of them
SPECIAL = ("ClassVar", "InitVar", "KW_ONLY")  # in annotations of what is no field of its own


def _dataclass(*, frozen: bool = False, slots: bool = False, **more: bool) -> Callable[[Made], Made]:
    if more:  # what is asked for beside that is rare, and the standard library's own
        return dataclasses.dataclass(frozen=frozen, slots=slots, **more)

    def complete(declared: Made) -> Made:
        own = set(vars(declared))
        made = _with_fields(declared, slots=slots)
        functions: dict[str, Any] = {"__repr__": _repr, "__eq__": _later(made, "__eq__", _write_eq)}
        functions["__hash__"] = _later(made, "__hash__", _write_hash) if frozen else None
        if frozen:
            functions |= {"__setattr__": _set_nothing, "__delattr__": _delete_nothing}
        if frozen and slots:  # copied and sent without setting attributes
            functions |= {"__getstate__": _state, "__setstate__": _put_state}
        for name, function in functions.items():
            if name not in own:
                setattr(made, name, function)
        made.__init__ = _few_calls(made, frozen=frozen)
        return made

    return complete


if TYPE_CHECKING:
    from dataclasses import dataclass  # the same to whoever uses it
else:
    dataclass = _dataclass


def _later(made: Made, name: str, write: Callable[[Made], Callable[..., Any]]) -> Callable[..., Any]:
    """Return a function that writes the real one, puts it in its own place and calls it."""

    def first_call(*given: Any, **named: Any) -> Any:
        written = write(made)
        written.__qualname__ = f"{made.__qualname__}.{name}"
        type.__setattr__(made, name, written)
        return written(*given, **named)

    return first_call


def _with_fields(declared: Made, *, slots: bool) -> Made:
    """Let the standard library find the fields, but for a search in each annotation that is text, half of its work."""
    told = vars(declared).get("__annotations__")  # from Python 3.14 on only where they are text
    if not told or not all(
        isinstance(one, str) and not any(map(one.count, SPECIAL)) for one in told.values()
    ):
        return dataclasses.dataclass(init=False, repr=False, eq=False, slots=slots)(declared)
    declared.__annotations__ = dict.fromkeys(told, object)
    made = dataclasses.dataclass(init=False, repr=False, eq=False, slots=slots)(declared)
    made.__annotations__ = told
    for name, said in told.items():
        made.__dataclass_fields__[name].type = said
    return made


def _few_calls(made: Made, *, frozen: bool) -> Callable[..., None]:
    """Return an `__init__` for the first few calls, which most of the classes never go beyond; then it is written."""
    written = _later(made, "__init__", lambda of: _write_init(of, frozen=frozen))
    put, calls = (object.__setattr__ if frozen else setattr), 0
    known: _FirstValues | None = None

    def few_calls(self: Any, *given: Any, **named: Any) -> None:
        nonlocal calls, known
        calls += 1
        known = known or _FirstValues(made)
        values = known.values(given, named) if calls <= FEW else None
        if values is None:
            written(self, *given, **named)
            return
        for name in known.names:
            if name in values:
                put(self, name, values[name])
        if known.looks_after:
            self.__post_init__()

    return few_calls


class _FirstValues:
    """What the first few calls of a class need to know of its fields."""

    def __init__(self, made: Made) -> None:
        fields = dataclasses.fields(made)
        self.names = [one.name for one in fields]
        self.asked = [one.name for one in fields if one.init]
        self.usual = {one.name: one.default for one in fields if one.default is not dataclasses.MISSING}
        self.made = {
            one.name: one.default_factory for one in fields if one.default_factory is not dataclasses.MISSING
        }
        self.needed = {*self.asked} - self.usual.keys() - self.made.keys()
        self.looks_after = hasattr(made, "__post_init__")

    def values(self, given: tuple[Any, ...], named: dict[str, Any]) -> dict[str, Any] | None:
        """Return the value of each field; None for a call that does not fit, which the written function refuses."""
        values = dict(zip(self.asked, given, strict=False))
        if len(given) > len(self.asked) or not named.keys() <= {*self.asked} - values.keys():
            return None
        values |= named
        if not self.needed <= values.keys():
            return None
        makers = {name: make() for name, make in self.made.items() if name not in values}
        return self.usual | makers | values


def _write_init(made: Made, *, frozen: bool) -> Callable[..., Any]:
    known: dict[str, Any] = {"_unsaid": dataclasses.MISSING}
    asked, lines = ["self"], ["pass"]
    for one in dataclasses.fields(made):
        value = one.name
        if one.default_factory is not dataclasses.MISSING:
            known[f"_make_{one.name}"] = one.default_factory
            value = f"_make_{one.name}()"
            if one.init:
                asked.append(f"{one.name}=_unsaid")
                value += f" if {one.name} is _unsaid else {one.name}"
        elif one.default is not dataclasses.MISSING:
            known[f"_usual_{one.name}"] = one.default
            value = one.name if one.init else f"_usual_{one.name}"
            asked += [f"{one.name}=_usual_{one.name}"] if one.init else []
        elif one.init:
            asked.append(one.name)
        else:
            continue
        lines.append(_set(made, one.name, value, known) if frozen else f"self.{one.name} = {value}")
    if hasattr(made, "__post_init__"):
        lines.append("self.__post_init__()")
    return _compiled("__init__", asked, lines, known)


def _set(made: Made, name: str, value: str, known: dict[str, Any]) -> str:
    """Return the line that sets a field where nobody may: straight into its slot, or among what the object holds."""
    slot = getattr(made, name, None)
    if isinstance(slot, MemberDescriptorType):
        known[f"_set_{name}"] = slot.__set__
        return f"_set_{name}(self, {value})"
    return f"self.__dict__[{name!r}] = {value}"


def _write_eq(made: Made) -> Callable[..., Any]:
    names = [one.name for one in dataclasses.fields(made) if one.compare]
    lines = [
        "if other.__class__ is not self.__class__:",
        "    return NotImplemented",
        f"return {_values('self', names)} == {_values('other', names)}",
    ]
    return _compiled("__eq__", ["self", "other"], lines, {})


def _write_hash(made: Made) -> Callable[..., Any]:
    names = [one.name for one in dataclasses.fields(made) if (one.compare if one.hash is None else one.hash)]
    return _compiled("__hash__", ["self"], [f"return hash({_values('self', names)})"], {})


def _values(of: str, names: list[str]) -> str:
    return "(" + "".join(f"{of}.{name}, " for name in names) + ")"


def _compiled(name: str, asked: list[str], lines: list[str], known: dict[str, Any]) -> Callable[..., Any]:
    body = "".join(f"    {line}\n" for line in lines)
    exec(f"def {name}({', '.join(asked)}):\n{body}", known)  # noqa: S102 - the names of our own fields
    written: Callable[..., Any] = known[name]
    return written


@recursive_repr()
def _repr(self: Any) -> str:
    shown = (f"{one.name}={getattr(self, one.name)!r}" for one in dataclasses.fields(self) if one.repr)
    return f"{type(self).__qualname__}({', '.join(shown)})"


def _set_nothing(_self: Any, name: str, _value: Any) -> None:
    raise dataclasses.FrozenInstanceError(f"cannot assign to field {name!r}")


def _delete_nothing(_self: Any, name: str) -> None:
    raise dataclasses.FrozenInstanceError(f"cannot delete field {name!r}")


def _state(self: Any) -> list[Any]:
    return [getattr(self, one.name) for one in dataclasses.fields(self)]


def _put_state(self: Any, state: list[Any]) -> None:
    for one, value in zip(dataclasses.fields(self), state, strict=True):
        object.__setattr__(self, one.name, value)
