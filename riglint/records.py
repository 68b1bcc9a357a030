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
FEW = 4  # calls; to write a function takes as long as some twenty of them


def _dataclass(*, frozen: bool = False, slots: bool = False, **more: bool) -> Callable[[Made], Made]:
    if more:  # what is asked for beside that is rare, and the standard library's own
        return dataclasses.dataclass(frozen=frozen, slots=slots, **more)

    def complete(declared: Made) -> Made:
        own = set(vars(declared))
        made = dataclasses.dataclass(init=False, repr=False, eq=False, slots=slots)(declared)
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


def _few_calls(made: Made, *, frozen: bool) -> Callable[..., None]:
    """Return an `__init__` for the first few calls, which half of the classes never go beyond; then it is written."""
    written = _later(made, "__init__", lambda of: _write_init(of, frozen=frozen))
    put, calls = (object.__setattr__ if frozen else setattr), 0

    def few_calls(self: Any, *given: Any, **named: Any) -> None:
        nonlocal calls
        calls += 1
        values = _values_of(made, given, named) if calls <= FEW else None
        if values is None:
            written(self, *given, **named)
            return
        for name, value in values:
            put(self, name, value)
        if hasattr(made, "__post_init__"):
            self.__post_init__()

    return few_calls


def _values_of(made: Made, given: tuple[Any, ...], named: dict[str, Any]) -> list[tuple[str, Any]] | None:
    """Return each field with its value; None for a call that does not fit, which the written function refuses."""
    asked = [one.name for one in dataclasses.fields(made) if one.init]
    values = dict(zip(asked, given, strict=False))
    if len(given) > len(asked) or not named.keys() <= set(asked) - values.keys():
        return None
    values |= named
    for one in dataclasses.fields(made):
        if one.name in values:
            continue
        if one.default_factory is not dataclasses.MISSING:
            values[one.name] = one.default_factory()
        elif one.default is not dataclasses.MISSING:
            values[one.name] = one.default
        elif one.init:
            return None
    return [(one.name, values[one.name]) for one in dataclasses.fields(made) if one.name in values]


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
